package build

import (
	"math"
	"testing"
)

// TestLapAgainstFiniteDifferences solves the glued lap as 4000 springs: the
// shear obeys τ″ = λ²τ with the strain of one plate at each end.
func TestLapAgainstFiniteDifferences(t *testing.T) {
	const n = 4000
	for _, l := range []Lap{
		{1.2e9, 0.0005, 2e11, 0.003, 1.2e10, 0.03, 0.05},
		{1.2e9, 0.0005, 1.2e10, 0.02, 2e11, 0.003, 0.03},
		{1e9, 0.001, 7e10, 0.002, 7e10, 0.002, 0.02},
	} {
		agree(t, "peak", l.Peak(), lapBySteps(l, n), 2e-3)
	}
}

// lapBySteps is the peak over the mean shear: unit force enters plate 1 at one
// end and leaves plate 2 at the other. Unknowns by the Thomas algorithm.
func lapBySteps(l Lap, n int) float64 {
	h := l.Long / float64(n)
	k, s1, s2 := l.Glue/l.Gap, l.E1*l.T1, l.E2*l.T2
	lambda := k * (1/s1 + 1/s2)
	// τ = k (u₁ − u₂): slope k/s₁ where plate 1 carries the force, −k/s₂ at the other end.
	lower, diag, upper, right := make([]float64, n+1), make([]float64, n+1), make([]float64, n+1), make([]float64, n+1)
	for i := 1; i < n; i++ {
		lower[i], diag[i], upper[i] = 1, -2-lambda*h*h, 1
	}
	diag[0], upper[0], right[0] = -1-lambda*h*h/2, 1, -h*k/s1
	lower[n], diag[n], right[n] = 1, -1-lambda*h*h/2, -h*k/s2
	for i := 1; i <= n; i++ {
		f := lower[i] / diag[i-1]
		diag[i] -= f * upper[i-1]
		right[i] -= f * right[i-1]
	}
	tau := right[n] / diag[n]
	peak := math.Abs(tau)
	for i := n - 1; i >= 0; i-- {
		tau = (right[i] - upper[i]*tau) / diag[i]
		peak = max(peak, math.Abs(tau))
	}
	return peak * l.Long
}

// TestFaceAgainstIntegration integrates the slope of a round plate under a load
// on a disc: (r φ)′ = r (C − ∫Q/D), no moment at the rim, moment D(1+ν)C/2 at
// the middle.
func TestFaceAgainstIntegration(t *testing.T) {
	const w, nu, n = 588.399, 0.3, 200000
	for _, f := range []Face{{0.172, 0.15, 0.006, nu}, {0.172, 0.06, 0.006, nu}, {0.1, 0.1, 0.004, nu}} {
		h := f.Radius / n
		var q, rphi float64 // ∫Q dr and ∫ r ∫Q, D = 1
		for i := range n {
			r := (float64(i) + 0.5) * h
			shear := w / (2 * math.Pi * r)
			if r < f.Spread {
				shear = w * r / (2 * math.Pi * f.Spread * f.Spread)
			}
			q += shear * h / 2
			rphi += r * q * h
			q += shear * h / 2
		}
		a := f.Radius
		// φ = C r/2 − rphi/r; M = φ′ + ν φ/a = 0 at the rim.
		c := 2 * (q - rphi/(a*a) + nu*rphi/(a*a)) / (1 + nu)
		agree(t, "middle", f.Stress(w), 6/(f.Thick*f.Thick)*(1+nu)*c/2, 1e-6)
	}
}

// TestRowsHoldTheMoment: pulls times heights add up to the moment.
func TestRowsHoldTheMoment(t *testing.T) {
	heights, pulls := []float64{0.02, 0.1, 0.33}, make([]float64, 3)
	RowPulls(pulls, heights, 120, 3)
	sum := 0.0
	for i, y := range heights {
		sum += 3 * pulls[i] * y
	}
	agree(t, "moment", sum, 120, 1e-12)
}

// TestLineLoadHoldsTheForce: the pressure under an edge adds up to the force
// and to its moment, for every eccentricity.
func TestLineLoadHoldsTheForce(t *testing.T) {
	const f, long, n = 500.0, 0.032, 100000
	for _, e := range []float64{0, 0.001, 0.005, 0.0054, 0.009, 0.014} {
		q, contact := LineLoad(f, long, e)
		var sum, moment float64
		low := q - 2*(q-f/long)*1 // at the far end while it is all in contact
		for i := range n {
			z := long/2 - contact*(float64(i)+0.5)/n
			share := (float64(i) + 0.5) / n
			p := q * (1 - share)
			if contact == long {
				p = q + (low-q)*share
			}
			sum += p * contact / n
			moment += p * z * contact / n
		}
		agree(t, "force", sum, f, 1e-9)
		agree(t, "arm", moment/sum+1, e+1, 1e-9)
	}
	if q, _ := LineLoad(f, long, 1); math.IsInf(q, 0) || math.IsNaN(q) {
		t.Error("a load beside its edge has no finite line load")
	}
}

// TestScrews: along either axis the utilisation is force over allowance; loaded
// both ways it is more than either.
func TestScrews(t *testing.T) {
	agree(t, "side", ScrewsUse(300, 0, 600, 900), 0.5, 1e-12)
	agree(t, "pull", ScrewsUse(0, 300, 600, 900), 1.0/3, 1e-12)
	agree(t, "nothing", ScrewsUse(0, 0, 0, 0)+1, 1, 1e-12)
	agree(t, "end grain", ScrewsUse(0, 1, 600, Withdrawal(WoodScrew, 0.6, 0.004, 0.03, true)), Ceiling, 0)
	agree(t, "spacing", SpacingUse(0.008, Spacing{Apart: 0.032, Edge: 0.03, LoadedEdge: 0.064, End: 0.04}, false), 1.4, 1e-12)
	agree(t, "across grain", LateralLag(0.008, false, true, true), lateralRule*LagSide(0.008, false)*0.85*screwEndGrain, 1e-12)
}

// TestYieldModes: each mode governs somewhere, and a Dowel without a size holds
// nothing.
func TestYieldModes(t *testing.T) {
	base := Dowel{Root: 0.007, Wood: 0.06, Plate: 0.006, InWood: 3e7, InPlate: 6e8, Screw: 3e8}
	thin, short, stiff := base, base, base
	thin.Plate, short.Wood, stiff.Screw = 1e-4, 2e-3, 1e11
	for want, d := range map[YieldMode]Dowel{TwoHinges: base, CrushPlate: thin, CrushWood: short, Turn: stiff} {
		if z, mode := d.Side(); mode != want || !(z > 0) {
			t.Errorf("mode %d, want %d (%g N)", mode, want, z)
		}
	}
	if z, _ := (&Dowel{}).Side(); z != 0 {
		t.Error("nothing holds", z)
	}
}

// TestKnifeOfBothKinds: a soft seat is judged by bedding, a hard one by yield.
func TestKnifeOfBothKinds(t *testing.T) {
	k := Knife{Radius: 0.0001, Long: 0.032, Edge: Metal{2e11, 0.29, 0, 6.8e9}, Seat: Metal{9.7e10, 0.31, 3.1e8, 1.37e9}}
	u := k.Use(lineLoad)
	if u.Governs(&k) != max(u.Edge, u.Bedding) || u.Seat < 1 {
		t.Errorf("soft seat: %+v", u)
	}
	k.Seat = k.Edge
	if u = k.Use(lineLoad); u.Governs(&k) != u.Seat || u.Seat != u.Edge {
		t.Errorf("hard seat: %+v", u)
	}
	k.Seat.Hardness = 0
	if u = k.Use(lineLoad); u.Governs(&k) != Ceiling {
		t.Errorf("a seat of no strength passes: %+v", u)
	}
}
