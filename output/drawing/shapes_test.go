package drawing

import (
	"math"
	"testing"

	"evenswing/output/drawing/sample"
	"evenswing/space"
)

func boxShape(x, y, w, h, turn float64) *Shape {
	return &Shape{Points: rectangle(space.Vec{X: x, Y: y}, w, h, turn)}
}

func TestGaps(t *testing.T) {
	round := func(x, y, r float64) *Shape { return &Shape{Centre: space.Vec{X: x, Y: y}, Radius: r} }
	for _, c := range []struct {
		what string
		a, b *Shape
		want float64
	}{
		{"circles", round(0, 0, 1), round(3, 4, 2), 2},
		{"circles that overlap", round(0, 0, 1), round(1, 0, 2), 0},
		{"circle and corner", round(0, 0, 1), boxShape(5, 5, 4, 2, 0), math.Hypot(3, 4) - 1},
		{"circle in a box", round(0, 0, 1), boxShape(0, 0, 9, 9, 0), 0},
		{"boxes", boxShape(0, 0, 2, 2, 0), boxShape(5, 0, 2, 2, 0), 3},
		{"box on its corner", boxShape(0, 0, 2, 2, math.Pi/4), boxShape(5, 0, 2, 20, 0), 4 - math.Sqrt2},
		{"crossed boxes", boxShape(0, 0, 10, 1, 0), boxShape(0, 0, 1, 10, 0), 0},
		{"box in a box", boxShape(0, 0, 10, 10, 0), boxShape(1, 1, 1, 1, 0), 0},
	} {
		if got := c.a.Gap(c.b); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %g, want %g", c.what, got, c.want)
		}
		if got := c.b.Gap(c.a); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s, the other way: %g, want %g", c.what, got, c.want)
		}
	}
}

func TestAcross(t *testing.T) {
	round := &Shape{Centre: space.Vec{X: 1, Y: 2}, Radius: 5}
	if low, high, ok := round.Across(4); !ok || low != -2 || high != 6 {
		t.Errorf("%g to %g, %v", low, high, ok)
	}
	if _, _, ok := round.Across(6.1); ok {
		t.Error("beside the circle")
	}
	for _, x := range []float64{-1, 0.5, 1} {
		if low, high, ok := boxShape(0, 5, 2, 4, 0).Across(x); !ok || low != 3 || high != 7 {
			t.Errorf("at %g: %g to %g, %v", x, low, high, ok)
		}
	}
}

// TestShapesOfARig: bars, drums and blocks with their faces; raw masses have none.
func TestShapesOfARig(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	list := Shapes(rig, design, nil)
	if len(list) != 7 {
		t.Fatalf("%d shapes", len(list))
	}
	if m := list[1]; m.Name != "main" || m.Radius != 0.19 || math.Abs(m.Near-0.155) > 1e-12 || math.Abs(m.Far-0.245) > 1e-12 || m.Pendulum != 0 {
		t.Errorf("%+v", m)
	}
	if got := At(design, nil, 2, space.Vec{}); math.Hypot(got.X+0.5, got.Y-0.75) > 1e-12 {
		t.Errorf("pivot of the tray at %v", got)
	}
}
