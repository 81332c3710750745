package formula

import (
	"math"
	"testing"

	"evenswing/space/quantity"

	"pgregory.net/rapid"
)

// alike tells equality to the bit, any NaN being like another.
func alike(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }

// TestDirectionAgainstWholeTape: the shorter tape gives what the whole one
// gives, values and derivatives, to the bit.
func TestDirectionAgainstWholeTape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		root := drawTree(t, 5)
		b := NewBuilder()
		var inputs []Reg
		for _, name := range inputsOfTree {
			inputs = append(inputs, b.Input(name, quantity.Number))
		}
		r, err := b.Compile(root.text(0), quantity.Number)
		if err != nil {
			t.Skip("no formula")
		}
		p := b.Build()
		at := rapid.IntRange(0, len(inputs)-1).Draw(t, "input")
		d := p.NewDirection(inputs[at])
		whole, part := make([]float64, p.Len()), make([]float64, p.Len())
		p.Init(whole)
		p.Init(part)
		for i, x := range []float64{0.75, -3, 1.5} {
			whole[inputs[i]], part[inputs[i]] = x, x
		}
		p.Run(part)
		x := rapid.Float64Range(-10, 10).Draw(t, "x")
		whole[inputs[at]], part[inputs[at]] = x, x
		tangents, own := make([]float64, p.Len()), make([]float64, p.Len())
		tangents[inputs[at]] = 1
		p.RunTangent(whole, tangents)
		d.Run(part)
		d.TangentsTo(own, part)
		if !alike(whole[r], part[r]) {
			t.Fatalf("value %v, whole tape %v", part[r], whole[r])
		}
		if d.Moves(r) && !alike(own[r], tangents[r]) || !d.Moves(r) && tangents[r] != 0 && !math.IsNaN(tangents[r]) {
			t.Fatalf("derivative %v, whole tape %v, moved %v", own[r], tangents[r], d.Moves(r))
		}
	})
}
