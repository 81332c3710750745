package build

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"evenswing/objective/mass"
	"evenswing/objective/motion"
	"evenswing/space"
)

// standing is a rig that hangs: what the evaluator works out of it.
type standing struct {
	rig    *space.Rig
	design *space.Design
	forest *motion.Forest
	bodies [motion.Max]motion.Body
	rest   motion.Rest
	modes  motion.Modes
	model  *Model
	w      *Workspace
}

// hang reads a rig and hangs it up.
func hang(t testing.TB, text string) *standing {
	t.Helper()
	rig, err := space.Read("test.yaml", []byte(text))
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	s := &standing{rig: rig}
	decoder := rig.NewDecoder()
	decoder.Values(rig.StartValues())
	s.design = &decoder.Design
	parents := make([]int, len(s.design.Pendulums))
	for i := range parents {
		parents[i] = s.design.Pendulums[i].Parent
	}
	s.forest = motion.NewForest(parents)
	s.model = NewModel(rig, s.forest)
	s.w = s.model.NewWorkspace()
	s.again(t)
	return s
}

// again hangs the design once more, after a change.
func (s *standing) again(t testing.TB) {
	t.Helper()
	for i := range s.design.Pendulums {
		sum := s.sum(i)
		sum.BodyTo(&s.bodies[i], s.design.Pendulums[i].Pivot)
		if sum.Fault.Kind != mass.None {
			t.Fatal(sum.Fault)
		}
	}
	if !s.forest.RestTo(&s.rest, &s.bodies, s.design.Gravity) || !s.forest.ModesTo(&s.modes, &s.rest) {
		t.Fatal("no rest pose")
	}
	if !s.w.Hang(s.design, &s.bodies, &s.rest, &s.modes) {
		t.Fatal("does not hang")
	}
}

func (s *standing) density(k int) float64 { return s.rig.Materials[k].Density.Value }

func (s *standing) sum(i int) *mass.Sum {
	sum, p := new(mass.Sum), &s.design.Pendulums[i]
	for k := range p.Bars {
		sum.AddBar(&p.Bars[k], s.density(p.Bars[k].Of))
	}
	for k := range p.Drums {
		d := &p.Drums[k]
		sum.AddDrum(d, s.density(d.Of))
		for c := range d.Charges {
			sum.AddCharge(d, &d.Charges[c], s.density(d.Charges[c].Of), mass.LooseDepth(d))
		}
	}
	for k := range p.Blocks {
		sum.AddBlock(&p.Blocks[k], s.density(p.Blocks[k].Of))
	}
	for k := range p.Lumps {
		sum.AddLump(&p.Lumps[k])
	}
	return sum
}

// randomRig writes an invented rig of n pendulums in a chain or a tree, each a
// bar with voids and an arm, a drum and weights.
func randomRig(r *rand.Rand, n int) string {
	var b strings.Builder
	b.WriteString("rig: Invented for a test\npendulums:\n")
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	for i := range n {
		on, z := "wall", 100+60*float64(i)
		if i > 0 {
			on = fmt.Sprintf("p%d", r.IntN(i))
		}
		fmt.Fprintf(&b, "  p%d:\n    hangs_from: %s\n    pivot: [%.2f mm, %.2f mm]\n", i, on, in(-450, 450), in(-60, 60))
		fmt.Fprintf(&b, "    swing: %.2f deg\n    edge: {length: %.1f mm, z: %.1f mm}\n    bars:\n", in(1, 6), in(30, 60), z)
		x1, y1, x2, y2 := -in(300, 600), in(-30, 30), in(300, 600), in(-30, 30)
		axis := func(x float64) float64 { return y1 + (y2-y1)*(x-x1)/(x2-x1) }
		fmt.Fprintf(&b, "      arm: {from: [%.2f mm, %.2f mm], to: [%.2f mm, %.2f mm], section: %.1f x %.1f mm, of: ash, z: %.1f mm,\n",
			x1, y1, x2, y2, in(60, 90), in(25, 45), z)
		recess, hole := in(-80, 80), in(-200, -120)
		fmt.Fprintf(&b, "        recess: {at: [%.2f mm, %.2f mm], width: %.1f mm, depth: %.1f mm}, hole: {at: [%.2f mm, %.2f mm], across: 12 mm}}\n",
			recess, axis(recess)+10, in(30, 60), in(5, 15), hole, axis(hole))
		fmt.Fprintf(&b, "      leg: {from: [%.2f mm, 0 mm], to: [%.2f mm, %.2f mm], section: 40 x 30 mm, of: ash, z: %.1f mm}\n", in(-20, 20), in(-60, 60), -in(200, 500), z+40)
		fmt.Fprintf(&b, "    drums:\n      bob: {at: [%.2f mm, %.2f mm], across: 220 mm, deep: 80 mm, rim: 18 mm, faces: 6 mm, of: birch plywood, z: %.1f mm,\n", in(-40, 40), -in(200, 400), z+40)
		fmt.Fprintf(&b, "        charge: {discs: %d, across: 120 mm, thick: 3 mm, of: steel, offset: [0 mm, %.2f mm]}}\n", 2+r.IntN(12), in(-20, 20))
		fmt.Fprintf(&b, "    lumps:\n      left: {at: [%.2f mm, %.2f mm], mass: %.3f kg, inertia: %.4f kg m2, z: %.1f mm}\n", -in(250, 500), in(-50, 80), in(0.5, 9), in(0, 0.02), z)
		fmt.Fprintf(&b, "      right: {at: [%.2f mm, %.2f mm], mass: %.3f kg, z: %.1f mm}\n", in(250, 500), in(-50, 80), in(0.5, 9), z)
	}
	return b.String()
}

// randomRigs hangs count rigs of 1 to 5 pendulums.
func randomRigs(t testing.TB, count int, do func(s *standing)) {
	t.Helper()
	for k := range count {
		r := rand.New(rand.NewPCG(uint64(k), 7))
		do(hang(t, randomRig(r, 1+k%5)))
	}
}
