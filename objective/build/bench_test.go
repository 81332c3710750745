package build

import (
	"os"
	"strings"
	"testing"
)

// demo hangs a rig of testdata. The chain of four gets strengths, an edge and a
// z everywhere, so that every criterion has work.
func demo(t testing.TB, name string) *standing {
	t.Helper()
	text, err := os.ReadFile("../../testdata/rigs/" + name)
	if err != nil {
		t.Fatal(err)
	}
	full := strings.NewReplacer("{density: 690 kg/m3}", "{density: 690 kg/m3, bending_strength: 100 MPa, shear_parallel: 12 MPa, E: 12 GPa}",
		"of: test wood}", "of: test wood, z: 200 mm}", "mass: m4b, ", "mass: m4b, z: 200 mm, ", "mass: m4t, ", "mass: m4t, z: 200 mm, ",
		"mass: m1, ", "mass: m1, z: 200 mm, ", "mass: m2, ", "mass: m2, z: 200 mm, ", "mass: m3, ", "mass: m3, z: 200 mm, ",
		"    swing: 4 deg\n    bars: {", "    swing: 4 deg\n    edge: {length: 50 mm, z: 200 mm}\n    bars: {")
	return hang(t, full.Replace(string(text)))
}

// TestNoAllocation: the hot path allocates nothing.
func TestNoAllocation(t *testing.T) {
	s := demo(t, "landing.yaml")
	var e everything
	if n := testing.AllocsPerRun(20, func() {
		if !s.w.Hang(s.design, &s.bodies, &s.rest, &s.modes) {
			t.Fatal("does not hang")
		}
		s.w.PivotsTo(&e.Pivots)
		s.w.StrengthTo(&e.Strength, nil)
		s.w.BalanceTo(&e.Balance)
		s.w.ClearanceTo(&e.Clear)
		s.w.RoomTo(&e.Room, &Room{})
		s.w.SagTo(&e.Sag)
		s.w.LowerTo(&e.Lowered)
		s.w.SpringTo(&e.Spring)
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// BenchmarkBuild times each step on an invented rig of three and a chain of
// four.
func BenchmarkBuild(b *testing.B) {
	for _, name := range []string{"landing.yaml", "four.yaml"} {
		s := demo(b, name)
		var e everything
		for _, step := range []struct {
			name string
			do   func()
		}{
			{"hang", func() { s.w.Hang(s.design, &s.bodies, &s.rest, &s.modes) }},
			{"pivots", func() { s.w.PivotsTo(&e.Pivots) }},
			{"strength", func() { s.w.StrengthTo(&e.Strength, nil) }},
			{"balance", func() { s.w.BalanceTo(&e.Balance) }},
			{"clearance", func() { s.w.ClearanceTo(&e.Clear) }},
			{"sag", func() { s.w.SagTo(&e.Sag) }},
			{"lower", func() { s.w.LowerTo(&e.Lowered) }},
			{"spring", func() { s.w.SpringTo(&e.Spring) }},
		} {
			b.Run(name+"/"+step.name, func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					step.do()
				}
			})
		}
	}
}
