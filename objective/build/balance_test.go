package build

import (
	"fmt"
	"math"
	"testing"

	"evenswing/objective/motion"
)

// offEdge is a rod on a beam; the beam's weight stands at z.
const offEdge = `
rig: Edge
pendulums:
  beam:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    edge: {length: 60 mm, z: 200 mm}
    lumps: {right: {at: [300 mm, -50 mm], mass: 20 kg, z: %s mm}, left: {at: [-300 mm, -50 mm], mass: 10 kg, z: 200 mm}}
  rod:
    hangs_from: beam
    pivot: [-300 mm, -50 mm]
    edge: {length: 40 mm, z: 260 mm}
    lumps: {bob: {at: [0 mm, -500 mm], mass: 10 kg%s}}
`

func balances(t *testing.T, z, rod string) (*standing, [motion.Max]Balance) {
	s := hang(t, fmt.Sprintf(offEdge, z, rod))
	var b [motion.Max]Balance
	s.w.BalanceTo(&b)
	return s, b
}

// TestBalance: resultants along z by hand; what hangs on another's edge counts
// where it is itself.
func TestBalance(t *testing.T) {
	s, b := balances(t, "170", ", z: 260 mm")
	// (20·170 + 10·200 + 10·260)/40 = 200.
	agree(t, "even", b[0].Off+1, 1, 1e-12)
	agree(t, "rod", b[1].Use+1, 1, 1e-12)
	_, b = balances(t, "180", ", z: 265 mm")
	agree(t, "off", b[0].Off, 0.00625, 1e-12)
	agree(t, "use", b[0].Use, 0.00625/0.01, 1e-12)
	agree(t, "tilt", b[0].Tilt, math.Atan(0.00625/(s.rest.S[0]/s.rest.Mu[0])), 1e-12)
	q, _ := LineLoad(40*standardGravity, 0.06, 0.00625)
	agree(t, "line load", b[0].Worst, q, 1e-12)
	agree(t, "rod", b[1].Use, 0.005/(0.04/6), 1e-9)
}

// TestLoadOutsideItsEdge: a load 5 mm beyond the end of its knife edge is over 3,
// and no other edge complains.
func TestLoadOutsideItsEdge(t *testing.T) {
	_, b := balances(t, "157.5", ", z: 285 mm") // the rod 25 mm off on a half length of 20
	if !(b[1].Use > 3) || b[0].Use > 1e-9 {
		t.Errorf("rod %+v, beam %+v", b[1], b[0])
	}
}

// TestBalanceIsNull while a z is missing.
func TestBalanceIsNull(t *testing.T) {
	if _, b := balances(t, "170", ""); b[0].Known || b[1].Known {
		t.Errorf("known without the bob's z: %+v", b[:2])
	}
	s := hang(t, seesaw(""))
	var b [motion.Max]Balance
	if s.w.BalanceTo(&b); b[0].Known {
		t.Error("known without an edge")
	}
}

// TestKnifeFeelsTheImbalance: off the middle, the edge is pressed harder.
func TestKnifeFeelsTheImbalance(t *testing.T) {
	use := func(z, rod string) float64 {
		s, _ := balances(t, z, rod)
		steel := Metal{E: 2e11, Poisson: 0.29, Yield: 2.28e9}
		fit := &Fittings{}
		fit.Knives[1] = Knife{Radius: 1e-4, Long: 0.04, Edge: steel, Seat: steel}
		return strength(s, fit).Pendulums[1].Value
	}
	even, off := use("170", ", z: 260 mm"), use("170", ", z: 265 mm")
	agree(t, "root of the line load", off/even, math.Sqrt(1+6*0.005/0.04), 1e-9)
}
