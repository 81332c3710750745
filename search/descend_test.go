package search

import (
	"errors"
	"math"
	"testing"

	"evenswing/space"
)

// slanted is a narrow valley slantwise through the unit cube, falling along its
// floor towards (0.8, 0.8, 0.8): 0 there.
func slanted(x []float64) float64 {
	a, b := (x[0]-x[1])*300, (x[1]-x[2])*300
	c := x[0] + x[1] + x[2] - 2.4
	return math.Sqrt(a*a + b*b + c*c)
}

// slantedSlopes are those of its two steep residuals.
var slantedSlopes = []float64{300, -300, 0, 0, 300, -300}

// descended is how far Descend comes from (0.5, 0.5, 0.5), and how often it asked.
func descended(t *testing.T, axes [][]float64, evaluations int) (best float64, asked int) {
	t.Helper()
	start := []float64{0.5, 0.5, 0.5}
	best = slanted(start)
	err := Descend(make([]space.Gene, 3), start, axes, best, evaluations, func(x []float64) (float64, error) {
		asked++
		for _, t := range x {
			if t < 0 || t > 1 {
				return 0, errors.New("out of the cube")
			}
		}
		best = min(best, slanted(x))
		return slanted(x), nil
	})
	if err != nil {
		t.Error(err)
	}
	return best, asked
}

// TestDescendAlongAValley: along the axes it comes down where a simplex along the
// coordinates hardly moves; it asks as often as it may and no more.
func TestDescendAlongAValley(t *testing.T) {
	axes := Axes(make([]space.Gene, 3), slantedSlopes)
	along, asked := descended(t, axes, 60)
	coordinates, _ := descended(t, [][]float64{{0.05, 0, 0}, {0, 0.05, 0}, {0, 0, 0.05}}, 60)
	if !(along < 0.05) || !(coordinates > 0.5) || asked != 60 {
		t.Errorf("%g along the axes after %d, %g along the coordinates", along, asked, coordinates)
	}
}

// TestAxes: they are orthogonal, move the steep residuals by tip, and reach
// longest where nothing is felt; stepped genes have none.
func TestAxes(t *testing.T) {
	axes := Axes(make([]space.Gene, 3), slantedSlopes)
	for i, a := range axes {
		moved, long := 0.0, 0.0
		for r := range 2 {
			sum := 0.0
			for k, x := range a {
				sum += slantedSlopes[3*r+k] * x
			}
			moved += sum * sum
		}
		for _, x := range a {
			long += x * x
		}
		switch i {
		case 0:
			if math.Abs(math.Sqrt(long)-longest) > 1e-12 || math.Sqrt(moved) > 1e-9 {
				t.Errorf("along the floor %v: %g long, moves by %g", a, math.Sqrt(long), math.Sqrt(moved))
			}
		default:
			if math.Abs(math.Sqrt(moved)-tip) > 1e-9 {
				t.Errorf("across %v: moves by %g", a, math.Sqrt(moved))
			}
		}
	}
	for i, j := range [][2]int{{0, 1}, {0, 2}, {1, 2}} {
		dot := 0.0
		for k := range 3 {
			dot += axes[j[0]][k] * axes[j[1]][k]
		}
		if math.Abs(dot) > 1e-15 {
			t.Errorf("pair %d of axes is not orthogonal", i)
		}
	}
	genes := []space.Gene{{}, {Count: 3}, {}}
	if axes := Axes(genes, []float64{1, 5, 0}); len(axes) != 2 || len(axes[0]) != 2 {
		t.Errorf("%v with a stepped gene", axes)
	}
	if Axes([]space.Gene{{Count: 2}}, []float64{1}) != nil {
		t.Error("axes of nothing continuous")
	}
}

// TestDescendStops at an error, and at once where there is nothing to move or to
// spend; a stepped gene stays.
func TestDescendStops(t *testing.T) {
	asked := 0
	enough := errors.New("enough")
	genes := []space.Gene{{}, {Count: 4}, {}}
	err := Descend(genes, []float64{0.2, 0.375, 0.9}, Axes(genes, []float64{1, 1, 1}), 1, 100, func(x []float64) (float64, error) {
		if x[1] != 0.375 {
			t.Errorf("the stepped gene moved to %g", x[1])
		}
		if asked++; asked == 7 {
			return 0, enough
		}
		return x[0] + x[2], nil
	})
	if !errors.Is(err, enough) || asked != 7 {
		t.Errorf("%v after %d", err, asked)
	}
	never := func([]float64) (float64, error) { t.Error("asked"); return 0, nil }
	if Descend(genes, []float64{0, 0, 0}, nil, 1, 0, never) != nil || Descend([]space.Gene{{Count: 2}}, []float64{0}, nil, 1, 5, never) != nil {
		t.Error("an error of nothing")
	}
}

// TestSettledIDs: they are behind every row of the plan, each its own, below 2⁵³.
func TestSettledIDs(t *testing.T) {
	for _, p := range []Plan{NewPlan(1000, 1), NewPlan(MaxEvaluations, 1)} {
		last := RowID(Task{p.Epochs - 1, p.Islands - 1}, 1<<numberBits-1)
		for k := range 10 {
			id := SettledID(p, k)
			if id <= last || id >= 1<<53 || !IsSettledID(p, id) {
				t.Errorf("%d after %d", id, last)
			}
			last = id
		}
		if IsSettledID(p, RowID(Task{p.Epochs - 1, 0}, 3)) {
			t.Error("a row of the plan counts as settled")
		}
	}
}
