package tuning

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"evenswing/objective/motion"
	"evenswing/space"
)

// statedCase is one case of testdata/checks/cases.json: see SOURCES.md there.
// The sensitivities, found by routes that share nothing with the closed forms
// here, agree with one another to 1e-7.
type statedCase struct {
	ID   string
	Case struct {
		Gravity float64
		Bodies  []struct {
			Name, Parent string
			PivotAt      [2]float64 `json:"pivot_at"`
			Mass         float64
			Cg           [2]float64
			InertiaCg    float64 `json:"inertia_cg"`
		}
	}
	Expected struct {
		Mass    [][]float64 `json:"dT_dmass"` // by body and mode
		CgX     [][]float64 `json:"dT_dcg_x"`
		CgY     [][]float64 `json:"dT_dcg_y"`
		Inertia [][]float64 `json:"dT_dinertia_cg"`
	}
}

func statedCases(t *testing.T) []statedCase {
	t.Helper()
	data, err := os.ReadFile("../../testdata/checks/cases.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Cases []statedCase }
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Cases) != 14 {
		t.Fatalf("%d cases, want 14", len(file.Cases))
	}
	return file.Cases
}

// candidate is a forest at rest with its modes.
type candidate struct {
	forest *motion.Forest
	bodies [motion.Max]motion.Body
	rest   motion.Rest
	modes  motion.Modes
	rig    Rig
}

func (c *candidate) settle(t *testing.T, g float64) {
	t.Helper()
	if !c.forest.RestTo(&c.rest, &c.bodies, g) || !c.forest.ModesTo(&c.modes, &c.rest) {
		t.Fatal("no rest pose or no modes")
	}
	c.rig.Load(c.forest, &c.bodies, &c.rest, &c.modes)
}

func (c *statedCase) candidate(t *testing.T) *candidate {
	number := map[string]int{"wall": space.Wall}
	for i, b := range c.Case.Bodies {
		number[b.Name] = i
	}
	var parents []int
	got := &candidate{}
	for i, b := range c.Case.Bodies {
		parents = append(parents, number[b.Parent])
		got.bodies[i] = motion.Body{Mass: b.Mass, Cg: space.Vec{X: b.Cg[0], Y: b.Cg[1]}, Inertia: b.InertiaCg,
			Reach: b.Mass * math.Hypot(b.Cg[0], b.Cg[1]), Pivot: space.Vec{X: b.PivotAt[0], Y: b.PivotAt[1]}}
	}
	got.forest = motion.NewForest(parents)
	got.settle(t, c.Case.Gravity)
	return got
}

// TestCases checks ∂T/∂p of every body and mode of the stated cases.
func TestCases(t *testing.T) {
	const allowed = 1e-6 // what the issue asks; absolute below a millionth of the largest
	for _, c := range statedCases(t) {
		got := c.candidate(t)
		for i, b := range c.Case.Bodies {
			m, x, y := b.Mass, b.Cg[0], b.Cg[1]
			for name, s := range map[string]struct {
				seed func(*Bodies)
				want [][]float64
			}{
				"mass":       {func(s *Bodies) { s.Mass[i], s.Mx[i], s.My[i], s.Inertia[i] = 1, x, y, x*x+y*y }, c.Expected.Mass},
				"cg_x":       {func(s *Bodies) { s.Mx[i], s.Inertia[i] = m, 2*m*x }, c.Expected.CgX},
				"cg_y":       {func(s *Bodies) { s.My[i], s.Inertia[i] = m, 2*m*y }, c.Expected.CgY},
				"inertia_cg": {func(s *Bodies) { s.Inertia[i] = 1 }, c.Expected.Inertia},
			} {
				var db Bodies
				s.seed(&db)
				var rest RestTangent
				var modes ModesTangent
				got.rig.RestTo(&rest, &db)
				got.rig.ModesTo(&modes, &rest)
				largest := 0.0
				for _, row := range s.want {
					for _, v := range row {
						largest = math.Max(largest, math.Abs(v))
					}
				}
				for k, want := range s.want[i] {
					if d := math.Abs(modes.Period[k] - want); !(d <= allowed*math.Max(math.Abs(want), allowed*largest)) {
						t.Errorf("%s: d period %d by %s of %s: got %.12g, want %.12g", c.ID, k, name, b.Name, modes.Period[k], want)
					}
				}
			}
		}
	}
}
