package workshop

import (
	"math"
	"testing"
)

// benchOf is what the sheet of a rig is made from.
func benchOf(t *testing.T, text string) *bench {
	t.Helper()
	_, w := sheetOf(t, text)
	return newBench(w.Evaluator(), w, "t-")
}

// TestItems by hand: what hangs bare, and what is put on it.
func TestItems(t *testing.T) {
	b := benchOf(t, shed)
	items := b.items()
	if len(items) != 5 {
		t.Fatalf("%d items", len(items))
	}
	arm := 500e-9 * (1000*60*30 - 50*20*30 - 40*10*12 - math.Pi/4*20*20*30)
	keg := 500e-9 * (2*math.Pi/4*300*300*10 + math.Pi/4*(300*300-260*260)*80)
	near(t, "bare beam", items[0].mass, arm+keg)
	near(t, "charge", items[1].mass, 7000e-9*math.Pi*200*200*5)
	near(t, "charge's place", items[1].at.X, 0.6)
	near(t, "ballast's place", items[2].at.X, -0.3)
	near(t, "bare rod", items[3].mass, 500e-9*(600*40*20+300*200*10))
	near(t, "bob", items[4].mass, 2.1)
}

// TestPortions: no lift of plates is heavier than heaviestLift, and all plates
// are up in the end.
func TestPortions(t *testing.T) {
	b := benchOf(t, rigText(t, "landing.yaml"))
	for _, x := range b.items() {
		if x.kind != metalCharge {
			continue
		}
		c := b.design.Pendulums[x.pendulum].Drums[x.index].Charges[x.charge]
		last := 0.0
		for done := 1; done <= x.portions; done++ {
			up := b.share(&x, done) * c.Count
			if up != math.Round(up) || up <= last {
				t.Errorf("portion %d: %g plates of %g", done, up, c.Count)
			}
			if lift := x.mass * (up - last) / c.Count; x.portions < mostPortions && lift > heaviestLift+x.mass/c.Count {
				t.Errorf("a lift of %.1f kg", lift)
			}
			last = up
		}
		if last != c.Count {
			t.Errorf("%g of %g plates", last, c.Count)
		}
	}
}

// peakOf is the most that an order would let go on its way; −1 where it breaks a rule.
func (o *orderer) peakOf(order []int) float64 {
	done := make([]int, len(o.items))
	peak := 0.0
	for _, k := range order {
		if !o.may(done, k) {
			return -1
		}
		done[k]++
		peak = math.Max(peak, o.hardest(done))
	}
	for k := range o.items {
		if done[k] != o.items[k].portions {
			return -1
		}
	}
	return peak
}

func ordererOf(b *bench) *orderer {
	o := &orderer{bench: b, items: b.items()}
	for k := range o.items {
		o.moments = append(o.moments, b.momentsOf(&o.items[k]))
	}
	return o
}

// TestOrderIsTheGentlest: no order of the shed's five items lets go less
// at its worst step: all 120 tried.
func TestOrderIsTheGentlest(t *testing.T) {
	b := benchOf(t, shed)
	o := ordererOf(b)
	best := o.peakOf(b.plan(o.items))
	if best < 0 {
		t.Fatal("the order breaks a rule")
	}
	tried, possible := 0, 0
	permute([]int{0, 1, 2, 3, 4}, 0, func(order []int) {
		tried++
		if peak := o.peakOf(order); peak >= 0 {
			possible++
			if peak < best-1e-12 {
				t.Errorf("order %v: %.3f J, the plan %.3f", order, peak, best)
			}
		}
	})
	if tried != 120 || possible < 5 {
		t.Errorf("%d orders, %d possible", tried, possible)
	}
}

func permute(list []int, k int, visit func([]int)) {
	if k == len(list) {
		visit(list)
		return
	}
	for i := k; i < len(list); i++ {
		list[k], list[i] = list[i], list[k]
		permute(list, k+1, visit)
		list[k], list[i] = list[i], list[k]
	}
}

// TestGreedyOrder: it keeps the rules and is no better than the exact one.
func TestGreedyOrder(t *testing.T) {
	for _, name := range []string{"four.yaml", "landing.yaml", "fork.yaml"} {
		b := benchOf(t, rigText(t, name))
		o := ordererOf(b)
		greedy, exact := o.peakOf(o.greedy()), o.peakOf(b.plan(o.items))
		if greedy < 0 || exact < 0 || exact > greedy+1e-9 {
			t.Errorf("%s: exact %.3f J, greedy %.3f", name, exact, greedy)
		}
	}
}

// TestTopHeavyRodWaits: a weight above the pivot of a rod goes on after what is
// below, however little it leans.
func TestTopHeavyRodWaits(t *testing.T) {
	s, _ := sheetOf(t, `
rig: Upright
materials: {pine: {density: 500 kg/m3}}
pendulums:
  rod:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    bars: {stick: {from: [0 mm, 200 mm], to: [0 mm, -400 mm], section: 40 x 20 mm, of: pine}}
    lumps: {top: {at: [0 mm, 200 mm], mass: 4 kg}, bob: {at: [0 mm, -400 mm], mass: 5 kg}}
`)
	if want := "Put bob on rod."; s.Hanging[1].Do != want {
		t.Errorf("second step %q, want %q", s.Hanging[1].Do, want)
	}
	for _, x := range s.Hanging {
		if x.Hangs[0].Flips || len(x.Warnings) > 0 {
			t.Errorf("%+v", x)
		}
	}
}

// TestHangingSteps: the first step is the bare beam, whose moment is worked out
// by hand; with all up the loads are the account's.
func TestHangingSteps(t *testing.T) {
	s, w := sheetOf(t, shed)
	steps := s.Hanging
	if len(steps) != 5+2 {
		t.Fatalf("%d steps", len(steps))
	}
	arm := 500e-9 * (100*1000*60*30 - 0*50*20*30 + 200*40*10*12 - 500*math.Pi/4*20*20*30) // kg mm
	keg := 500e-9 * 600 * (2*math.Pi/4*300*300*10 + math.Pi/4*(300*300-260*260)*80)
	near(t, "moment of the bare beam", steps[0].Hangs[0].Moment.SI, -10*(arm+keg)/1000)
	up := 500e-9 * (0*1000*60*30 - 20*50*20*30 + 10*40*10*12 - 0*math.Pi/4*20*20*30 - 200*(2*math.Pi/4*300*300*10+math.Pi/4*(300*300-260*260)*80))
	near(t, "energy of the bare beam", steps[0].Hangs[0].Energy.SI, 10*(math.Hypot(arm+keg, up)+up)/1000)
	if steps[0].Pendulum != "beam" || steps[0].Hardest != "beam" || len(steps[0].Warnings) != 1 {
		t.Errorf("%+v", steps[0])
	}
	last := steps[4]
	account := w.Account()
	for i, h := range last.Hangs {
		near(t, "load of "+h.Pendulum, h.Load.SI, account.Pendulums[i].PivotLoad)
		near(t, "tilt of "+h.Pendulum, h.Tilt.SI, account.Pendulums[i].Tilt)
	}
	if steps[5].Pendulum != "rod" || len(steps[5].Locked) != 1 || steps[6].Pendulum != "beam" || len(steps[6].Locked) != 0 {
		t.Errorf("locks: %+v %+v", steps[5], steps[6])
	}
	total := 0.0
	for _, x := range steps {
		total += x.Adds.SI
	}
	near(t, "all that is put up", total, account.Pendulums[0].Hanging)
}
