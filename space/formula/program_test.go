package formula

import (
	"math"
	"slices"
	"testing"

	"evenswing/space/quantity"
)

// TestSharing: the same operation has one register, in either order where the
// order does not matter, and nothing that no result needs is worked out.
func TestSharing(t *testing.T) {
	b, _ := rig()
	x, _ := b.Compile("long_arm * count + ring", quantity.Length)
	y, _ := b.Compile("ring + count * long_arm", quantity.Length)
	z, _ := b.Compile("ring - count * long_arm", quantity.Length)
	if x != y || x == z {
		t.Errorf("registers %d, %d, %d", x, y, z)
	}
	if _, err := b.Compile("sin(lean) + cos(lean) + unheard_of", quantity.Number); err == nil {
		t.Fatal("no error")
	}
	if errs := b.ResolveValues(); errs != nil {
		t.Fatal(errs)
	}
	if p := b.Build(); len(p.tape) != 3 || len(p.constants) != 1 {
		t.Errorf("the tape has %d operations and %d constants, want a product, a sum, a difference and one constant", len(p.tape), len(p.constants))
	}
}

func TestConstantAndDependsOn(t *testing.T) {
	b, _ := rig()
	hidden := b.Input("", quantity.Number)
	folded, _ := b.Compile("sqrt(2 * 8) * ring", quantity.Length)
	if v, ok := b.Constant(folded); !ok || v != 4*0.018 {
		t.Errorf("Constant is %v, %v", v, ok)
	}
	if got := b.DependsOn(folded); len(got) != 0 {
		t.Errorf("a constant depends on %v", got)
	}
	r, _ := b.Compile("drop * sin(lean) + drop", quantity.Length)
	if _, ok := b.Constant(r); ok {
		t.Error("a formula over unknowns is constant")
	}
	if got := b.DependsOn(r); !slices.Equal(got, []Reg{0, 2}) {
		t.Errorf("it depends on %v, want long_arm and lean", got)
	}
	if got := b.DependsOn(b.Lookup(hidden, []float64{1, 2})); !slices.Equal(got, []Reg{hidden}) {
		t.Errorf("a lookup depends on %v", got)
	}
	if got := b.DependsOn(hidden); !slices.Equal(got, []Reg{hidden}) {
		t.Errorf("an input depends on %v", got)
	}
	if v, ok := b.Constant(b.Literal(3.5)); !ok || v != 3.5 {
		t.Errorf("a literal is %v, %v", v, ok)
	}
}

func TestLookup(t *testing.T) {
	b := NewBuilder()
	index := b.Input("", quantity.Number)
	density := []float64{7850, 11340, 8490}
	r := b.Lookup(index, density)
	density[0] = -1 // the table was copied
	b.Bind("plate", b.Lookup(index, []float64{0.012, 0.018, 0.024}), quantity.Length)
	twice, err := b.Compile("2 * plate", quantity.Length)
	if err != nil || b.Lookup(index, []float64{7850, 11340, 8490}) != r {
		t.Fatalf("%v, or equal tables are not shared", err)
	}
	p := b.Build()
	regs := make([]float64, p.Len())
	p.Init(regs)
	for in, want := range map[float64]float64{0: 7850, 1: 11340, 2: 8490, 1.9: 11340, -5: 7850, 99: 8490, math.Inf(1): 8490, math.Inf(-1): 7850} {
		regs[index] = in
		if p.Run(regs); regs[r] != want {
			t.Errorf("index %v gives %v, want %v", in, regs[r], want)
		}
	}
	if regs[index] = 1; true {
		p.Run(regs)
	}
	if regs[twice] != 2*0.018 || !p.Finite(regs) {
		t.Errorf("a named choice of quantities gives %v", regs[twice])
	}
	if regs[index] = math.NaN(); true {
		p.Run(regs)
	}
	if !math.IsNaN(regs[r]) || p.Finite(regs) {
		t.Errorf("no index gives %v", regs[r])
	}
	if v, ok := b.Constant(b.Lookup(b.Literal(2), []float64{1, 2, 3})); !ok || v != 3 {
		t.Errorf("a lookup at a constant is %v, %v", v, ok)
	}
}

// TestFinite: what is not finite shows if and only if a result is not.
func TestFinite(t *testing.T) {
	b := NewBuilder()
	x := b.Input("x", quantity.Number)
	for _, text := range []string{"1 / x", "sqrt(x)", "asin(x) / 1 rad"} {
		if _, err := b.Compile(text, quantity.Number); err != nil {
			t.Fatal(err)
		}
	}
	p := b.Build()
	regs := make([]float64, p.Len())
	p.Init(regs)
	for in, want := range map[float64]bool{0.5: true, 1: true, 0: false, -1: false, 2: false, math.NaN(): false, math.Inf(1): false} {
		regs[x] = in
		if p.Run(regs); p.Finite(regs) != want {
			t.Errorf("x = %v: finite %v", in, !want)
		}
	}
}

func TestNothing(t *testing.T) {
	p := NewBuilder().Build()
	p.Init(nil)
	p.Run(nil)
	p.RunTangent(nil, nil)
	if p.Len() != 0 || !p.Finite(nil) {
		t.Errorf("an empty program has %d registers", p.Len())
	}
}

// TestTangents checks every operation against central differences.
func TestTangents(t *testing.T) {
	const (
		step  = 1e-5 // best for central differences: near the cube root of 2^-52
		close = 2e-8 // truncation step^2 times third derivatives below 100, and cancellation 2^-52/step
	)
	texts := []string{
		"x + y - z", "x * y * z", "x / y / z", "-x * x", "(x + y) / (y - 3 * z)", "abs(x - y) + abs(y - x)",
		"min(x, y, z) * z", "max(x, y, z) * z", "sqrt(x * y + z)", "hypot(x, y - z)", "sin(x * y)", "cos(x + y)",
		"tan(x / 3)", "asin(x / 4) / 1 rad", "acos(y / 4) / 1 rad", "atan(x * z) / 1 rad", "atan2(x - 1, y - 2 * z) / 1 rad",
		"1 / (x + sin(y) * cos(z))", "w * 2", "(3 + w) * x",
	}
	for _, text := range texts {
		b := NewBuilder()
		for _, name := range []string{"x", "y", "z"} {
			b.Input(name, quantity.Number)
		}
		b.Bind("w", b.Lookup(b.Input("", quantity.Number), []float64{1, 5}), quantity.Number)
		r, err := b.Compile(text, quantity.Number)
		if err != nil {
			t.Fatal(text, err)
		}
		p := b.Build()
		at, along := []float64{1.3, 0.7, 1.9, 1}, []float64{0.8, -0.5, 0.3, 0}
		run := func(h float64) float64 {
			regs := make([]float64, p.Len())
			p.Init(regs)
			for i := range at {
				regs[i] = at[i] + h*along[i]
			}
			p.Run(regs)
			return regs[r]
		}
		regs, tangents := make([]float64, p.Len()), make([]float64, p.Len())
		for i := range tangents {
			tangents[i] = math.NaN() // whatever was left there
		}
		p.Init(regs)
		copy(regs, at)
		copy(tangents, along)
		p.RunTangent(regs, tangents)
		slope := (run(step) - run(-step)) / (2 * step)
		if regs[r] != run(0) || !(math.Abs(tangents[r]-slope) <= close*(1+math.Abs(slope))) {
			t.Errorf("%s: value %v, tangent %v; values %v, slope %v", text, regs[r], tangents[r], run(0), slope)
		}
	}
}

// TestTangentCorners: the stated conventions where there is no derivative.
func TestTangentCorners(t *testing.T) {
	for text, want := range map[string]float64{
		"abs(x)": 0, "hypot(x, x)": 0, "min(x, -x)": 1, "max(x, -x)": 1, "sqrt(0 * x + y)": 0, "x / 3": 1.0 / 3,
	} {
		b := NewBuilder()
		b.Input("x", quantity.Number)
		b.Input("y", quantity.Number)
		r, err := b.Compile(text, quantity.Number)
		if err != nil {
			t.Fatal(text, err)
		}
		p := b.Build()
		regs, tangents := make([]float64, p.Len()), make([]float64, p.Len())
		p.Init(regs)
		tangents[0] = 1
		if p.RunTangent(regs, tangents); tangents[r] != want {
			t.Errorf("%s has the tangent %v at 0, want %v", text, tangents[r], want)
		}
	}
}
