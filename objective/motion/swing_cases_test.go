package motion

import (
	"encoding/json"
	"os"
	"testing"

	"evenswing/space"
)

// swingCase is one chain or tree of testdata/checks/cases.json, made by routes
// that share nothing with this package (SOURCES.md there).
type swingCase struct {
	ID   string
	Case struct {
		Gravity float64
		Bodies  []struct {
			Name, Parent string
			PivotAt      [2]float64 `json:"pivot_at"`
			Cg           [2]float64
			Mass         float64
			InertiaCg    float64 `json:"inertia_cg"`
		}
	}
	Expected struct {
		Theta0   []float64
		Releases []struct {
			Name         string
			Delta        []float64 `json:"delta_from_equilibrium"`
			T            []float64
			Theta, Omega [][]float64
			Digits       []int   `json:"digits_after_point"`
			Energy       float64 `json:"energy_above_equilibrium_J"`
		}
		TwoToOne *struct {
			Delta   []float64 `json:"delta_from_equilibrium"`
			T       []float64 `json:"t_s"`
			Fast    []float64 `json:"fast_fraction"`
			Reverse struct {
				Delta []float64 `json:"delta_from_equilibrium"`
				T     []float64 `json:"t_s"`
				Slow  []float64 `json:"slow_fraction"`
			} `json:"reverse_release_fast_mode_with_1pct_slow_seed"`
		} `json:"two_to_one"`
	}
}

// swingCases reads all of them.
func swingCases(t testing.TB) []swingCase {
	t.Helper()
	text, err := os.ReadFile("../../testdata/checks/cases.json")
	if err != nil {
		t.Fatal(err)
	}
	var all struct{ Cases []swingCase }
	if err := json.Unmarshal(text, &all); err != nil {
		t.Fatal(err)
	}
	return all.Cases
}

// rigged is a forest with all that follows from its bodies.
type rigged struct {
	forest *Forest
	bodies [Max]Body
	rest   Rest
	modes  Modes
	d      Dynamics
}

// rigUp works out rest, modes and undamped dynamics.
func rigUp(t testing.TB, parents []int, bodies []Body, gravity float64) *rigged {
	t.Helper()
	r := &rigged{forest: NewForest(parents)}
	copy(r.bodies[:], bodies)
	if !r.forest.RestTo(&r.rest, &r.bodies, gravity) || !r.forest.ModesTo(&r.modes, &r.rest) {
		t.Fatal("no rest pose or no modes")
	}
	r.forest.DynamicsTo(&r.d, &r.rest, &r.modes)
	return r
}

// rig is the case ready to swing.
func (c *swingCase) rig(t testing.TB) *rigged {
	t.Helper()
	number := map[string]int{"wall": space.Wall}
	var parents []int
	var bodies []Body
	for i, b := range c.Case.Bodies {
		number[b.Name] = i
		parents = append(parents, number[b.Parent])
		bodies = append(bodies, Body{
			Mass: b.Mass, Cg: space.Vec{X: b.Cg[0], Y: b.Cg[1]}, Inertia: b.InertiaCg,
			Pivot: space.Vec{X: b.PivotAt[0], Y: b.PivotAt[1]},
		})
	}
	return rigUp(t, parents, bodies, c.Case.Gravity)
}

func vec(x, y float64) space.Vec { return space.Vec{X: x, Y: y} }
