package build

import "math"

// SlotStress is what a shear force v (N) adds to the bending stress (Pa) in
// the legs of a slot right through a bar: above and below are what it leaves
// of the height, long its length along the bar (m).
//
// The legs bend between the slot's ends like the posts of a frame: each takes
// its share of v by its stiffness, t³, over half the length, so that
//
//	σ = 3 v long t / (thick (t₁³ + t₂³)) with the deeper t;
//
// (v long/4)/(thick t²/6) for equal legs. Source: frame with stiff joints,
// points of no moment at mid-length.
func SlotStress(v, long, thick, above, below float64) float64 {
	sum := above*above*above + below*below*below
	if !(thick > 0 && sum > 0) {
		return math.Inf(1)
	}
	return 3 * math.Abs(v) * long * max(above, below) / (thick * sum)
}

// NotchFactor is k_v of a beam notched at its support, on the loaded side: the
// share of the shear strength that splitting leaves. high and left (m) are the
// depth and what the notch leaves of it, x the distance (m) from the support's
// force to the notch's corner, slope the run of its taper (0: square), kn 5 for
// solid wood, 4.5 for laminated veneer.
//
//	k_v = min(1, kn(1+1.1 i^1.5/√h)/(√h(√(a(1−a)) + 0.8(x/h)√(1/a−a²)))), a = left/high,
//
// h in millimetres. Source: Eurocode 5, 6.62, as in LVL Handbook Europe (2025)
// p. 133; kn of solid wood from memory.
func NotchFactor(high, left, x, slope, kn float64) float64 {
	a, h := left/high, high/mm
	if !(a > 0 && h > 0) {
		return 0
	}
	if a >= 1 {
		return 1
	}
	taper := 1 + 1.1*math.Pow(max(0, slope), 1.5)/math.Sqrt(h)
	crack := math.Sqrt(a*(1-a)) + 0.8*(x/high)*math.Sqrt(1/a-a*a)
	return min(1, kn*taper/(math.Sqrt(h)*crack))
}
