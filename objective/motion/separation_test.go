package motion

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"evenswing/space"
)

// TestSloshAgainstScan walks through time densely: the bound is never
// exceeded, and in the median it is reached to a few per cent.
func TestSloshAgainstScan(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	swing := [Max]float64{0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1}
	const T = 60.0
	var reached []float64
	for trial := 0; trial < 40; trial++ {
		f, b := crookedForest(rng)
		if f.N < 2 || f.N > 4 {
			continue
		}
		var r Rest
		var m Modes
		if !f.RestTo(&r, b, 9.81) || !f.ModesTo(&m, &r) {
			t.Fatal("no modes")
		}
		var s Separation
		f.SeparationTo(&s, &m, &r, &swing, T)
		i, j := s.WorstI, s.WorstJ
		most := 0.0
		for x := 0.0; x <= T; x += 0.002 {
			var z complex128
			for k := 0; k < f.N; k++ {
				z += complex(m.U[i][k]*m.U[j][k], 0) * cmplx.Rect(1, m.Omega[k]*x)
			}
			most = math.Max(most, real(z)*real(z)+imag(z)*imag(z))
		}
		if most > s.Slosh[i][j]*(1+1e-9) {
			t.Errorf("slosh %g exceeded: %g", s.Slosh[i][j], most)
		}
		reached = append(reached, most/s.Slosh[i][j])
	}
	if len(reached) < 10 {
		t.Fatalf("only %d forests", len(reached))
	}
	if m := middle(reached); m < 0.95 {
		t.Errorf("the bound is loose: reached %g of it in the median", m)
	}
}

func middle(x []float64) float64 {
	for i := range x {
		for j := i; j > 0 && x[j] < x[j-1]; j-- {
			x[j], x[j-1] = x[j-1], x[j]
		}
	}
	return x[len(x)/2]
}

// TestBeating: double pendulum of mass ratio M/m = 100 and 20, L = l = 1 m,
// beat times computed with SciPy 1.10.
func TestBeating(t *testing.T) {
	for _, c := range []struct{ ratio, beat float64 }{{100, 20.0391839}, {20, 8.91870952}} {
		f := NewForest([]int{space.Wall, 0})
		b := [Max]Body{
			{Mass: c.ratio, Cg: space.Vec{Y: -1}, Inertia: 1e-15, Reach: 1},
			{Mass: 1, Cg: space.Vec{Y: -1}, Pivot: space.Vec{Y: -1}, Inertia: 1e-15, Reach: 1},
		}
		var r Rest
		var m Modes
		var s Separation
		if !f.RestTo(&r, &b, 9.80665) || !f.ModesTo(&m, &r) {
			t.Fatal("no modes")
		}
		swing := [Max]float64{0.1, 0.1}
		f.SeparationTo(&s, &m, &r, &swing, 240)
		agree(t, "beat time", s.Beat, c.beat, 1e-7, 0)
		// Nearly equal pendulums hand over nearly everything within a beat.
		if s.Slosh[0][1] < 0.9 {
			t.Errorf("slosh %g of a beating pair", s.Slosh[0][1])
		}
		want := math.Sqrt(s.Slosh[0][1] * r.S[0] / r.S[1])
		agree(t, "inflow", s.Inflow[1], want, 1e-12, 0)
	}
}

// TestSloshIsSlowForShortTimes: within a time much shorter than the beat
// little can pass, even where the shares are halves.
func TestSloshIsSlowForShortTimes(t *testing.T) {
	f := NewForest([]int{space.Wall, 0})
	b := [Max]Body{
		{Mass: 10000, Cg: space.Vec{Y: -1}, Inertia: 1e-15, Reach: 1},
		{Mass: 1, Cg: space.Vec{Y: -1}, Pivot: space.Vec{Y: -1}, Inertia: 1e-15, Reach: 1},
	}
	var r Rest
	var m Modes
	var s Separation
	if !f.RestTo(&r, &b, 9.80665) || !f.ModesTo(&m, &r) {
		t.Fatal("no modes")
	}
	swing := [Max]float64{0.1, 0.1}
	f.SeparationTo(&s, &m, &r, &swing, 240)
	long := s.Slosh[0][1]
	f.SeparationTo(&s, &m, &r, &swing, s.Beat/20)
	short := s.Slosh[0][1]
	// sin²(½ Δω T) of full exchange: (sin π/20)² = 0.0245.
	if !(long > 0.99 && short < 0.025 && short > 0.02) {
		t.Errorf("slosh %g over the whole beat, %g over a twentieth", long, short)
	}
}
