package formula

import (
	"fmt"
	"testing"

	"evenswing/space/quantity"
)

// seventeen is a program of 17 inputs and 20 formulas such as rigs have.
func seventeen(t testing.TB) (*Program, []float64) {
	b := NewBuilder()
	for i := range 17 {
		b.Input(fmt.Sprintf("u%d", i), quantity.Length)
	}
	b.Define("drop", "0.6 * u0")
	texts := []string{
		"drop", "drop - u1", "-u2", "u3 / 2", "u4 + 18 mm", "u5 - u6", "3-1/2 in + drop", "max(u7, u8)", "2 * u9", "u10 * 0.5",
		"u11 + u12 + u13", "-(u14 + 30 mm)", "u15 - 12 mm", "u16", "u0 / 2 - u3 / 2", "u1 * 0.25", "u2 + 60 mm", "u4 - 2 * 6 mm", "u5 / 2 - 18 mm", "sqrt(u6 * u7)",
	}
	for _, text := range texts {
		if _, err := b.Compile(text, quantity.Length); err != nil {
			t.Fatal(text, err)
		}
	}
	p := b.Build()
	regs := make([]float64, p.Len())
	p.Init(regs)
	for i := range 17 {
		regs[i] = 0.1 + 0.01*float64(i)
	}
	return p, regs
}

func TestNoAllocation(t *testing.T) {
	p, regs := seventeen(t)
	tangents := make([]float64, p.Len())
	const runs = 100
	if n := testing.AllocsPerRun(runs, func() { p.Run(regs) }); n != 0 {
		t.Errorf("Run allocates %v times", n)
	}
	if n := testing.AllocsPerRun(runs, func() { p.RunTangent(regs, tangents) }); n != 0 {
		t.Errorf("RunTangent allocates %v times", n)
	}
	if n := testing.AllocsPerRun(runs, func() { p.Finite(regs) }); n != 0 {
		t.Errorf("Finite allocates %v times", n)
	}
}

func BenchmarkRun(b *testing.B) {
	p, regs := seventeen(b)
	for b.Loop() {
		p.Run(regs)
	}
}

func BenchmarkFinite(b *testing.B) {
	p, regs := seventeen(b)
	for b.Loop() {
		p.Finite(regs)
	}
}

func BenchmarkRunTangent(b *testing.B) {
	p, regs := seventeen(b)
	tangents := make([]float64, p.Len())
	tangents[0] = 1
	for b.Loop() {
		p.RunTangent(regs, tangents)
	}
}
