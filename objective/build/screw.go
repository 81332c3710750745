package build

import "math"

// ScrewKind tells lag screws (coach screws) from wood screws.
type ScrewKind uint8

// The kinds.
const (
	WoodScrew ScrewKind = iota
	LagScrew
)

// Allowable withdrawal, lb per inch of thread, D and thread in inches. NDS
// 12.2-1 and 12.2-2, read (engineersedge 16073; engineeringtoolbox d_1815).
// The handbook's failing loads (8100, 15,700) are 4.5 and 5.5 times these: no
// safety factor goes on the allowable ones.
const (
	lagWithdrawal   = 1800 // times G^1.5 D^0.75
	screwWithdrawal = 2850 // times G² D
	lagFailing      = 8100
	screwFailing    = 15700

	// lagEndGrain is the share that a lag screw keeps in end grain; a wood screw
	// must not pull there (read, NDS 12.2; GTR-190 p. 200).
	lagEndGrain = 0.75
)

// Withdrawal is the allowable pull (N) of a screw of outer diameter d with
// length of thread in wood (m) of specific gravity g (oven-dry).
func Withdrawal(kind ScrewKind, g, d, thread float64, endGrain bool) float64 {
	w := withdrawal(kind, g, d, thread, lagWithdrawal, screwWithdrawal)
	switch {
	case endGrain && kind == LagScrew:
		return w * lagEndGrain
	case endGrain:
		return 0
	}
	return w
}

// FailingPull is the mean pull (N) at which the same screw comes out of side
// grain. Wood Handbook, read (engineersedge 15390; kerfworks).
func FailingPull(kind ScrewKind, g, d, thread float64) float64 {
	return withdrawal(kind, g, d, thread, lagFailing, screwFailing)
}

func withdrawal(kind ScrewKind, g, d, thread, lag, wood float64) float64 {
	if !(g > 0 && d > 0 && thread > 0) {
		return 0
	}
	d, thread = d/inch, thread/inch
	if kind == LagScrew {
		return lag * math.Pow(g, 1.5) * math.Pow(d, 0.75) * thread * pound
	}
	return wood * g * g * d * thread * pound
}

// lagLateral is the allowable side load of a lag screw along the grain, lb per
// square inch of D², by softwood and hardwood (read, fabricarchitecturemag);
// screwLateral that of a wood screw in groups I to IV, oak to soft pine (read,
// issuhub 4884).
var (
	lagLateral   = [2]float64{2280, 2640}
	screwLateral = [4]float64{4800, 3960, 3240, 2520}
)

// lateralRule keeps the D² rule below the yield equations, which it exceeds by
// up to 1.35 (computed: 0.86 along and 0.74 across the grain for a 3/8 in lag).
const lateralRule = 0.7

// acrossGrain is the share of the lag's side load across the grain by diameter,
// mm: GTR-190, table 8-11, read.
var acrossGrain = [7]struct{ mm, share float64 }{
	{4.8, 1}, {6.4, 0.97}, {7.9, 0.85}, {9.5, 0.76}, {11.1, 0.70}, {12.7, 0.65}, {15.9, 0.60},
}

// AcrossGrain is the share of the side load of a lag of diameter d (m) that is
// left across the grain: that of the nearest listed size.
func AcrossGrain(d float64) float64 {
	best, share := math.Inf(1), 0.0
	for _, row := range acrossGrain {
		if far := math.Abs(d/mm - row.mm); far < best {
			best, share = far, row.share
		}
	}
	return share
}

// screwEndGrain is the share of side load in end grain: NDS C_eg, read.
const screwEndGrain = 0.67

// LagSide is the D² rule for the side load (N) of a lag of diameter d (m) along
// the grain, as printed; LateralLag is what to allow.
func LagSide(d float64, hardwood bool) float64 {
	k := lagLateral[0]
	if hardwood {
		k = lagLateral[1]
	}
	return k * (d / inch) * (d / inch) * pound
}

// LateralLag is the allowable side load (N) of a lag of diameter d (m): the D²
// rule less 30 %, less what the grain takes.
func LateralLag(d float64, hardwood, across, endGrain bool) float64 {
	z := lateralRule * LagSide(d, hardwood)
	if across {
		z *= AcrossGrain(d)
	}
	if endGrain {
		z *= screwEndGrain
	}
	return z
}

// ScrewSide is the allowable side load (N) of a wood screw of diameter d (m) in
// a wood of group 1 to 4; 0 for another group.
func ScrewSide(d float64, group int, endGrain bool) float64 {
	if group < 1 || group > len(screwLateral) {
		return 0
	}
	z := screwLateral[group-1] * (d / inch) * (d / inch) * pound
	if endGrain {
		z *= screwEndGrain
	}
	return z
}

// ScrewsUse is the utilisation of a screw with side load v and pull t (N), Bump
// included, allowed z and w: (v²/z + t²/w)/√(v²+t²). Source: NDS 12.4-1 at the
// load's own angle, solved for the utilisation. 0 without load, the ceiling where
// nothing is allowed.
func ScrewsUse(v, t, z, w float64) float64 {
	load := math.Hypot(v, t)
	if load == 0 {
		return 0
	}
	return bounded(divide(v*v, z)/load + divide(t*t, w)/load)
}

// Spacing is where screws stand, m: between them, to an edge that is not
// loaded, to one that is, and to the end of the grain; 0 where it does not arise.
type Spacing struct{ Apart, Edge, LoadedEdge, End float64 }

// SpacingUse is the largest of wanted over given distances of screws of
// diameter d ≥ 6.4 mm: 4 D apart, 1.5 D to an edge, 4 D to a loaded edge, 7 D
// to the end of softwood, 5 D of hardwood. Source: NDS 12.5.1, read in a public
// text that quotes it.
func SpacingUse(d float64, s Spacing, hardwood bool) float64 {
	end := 7.0
	if hardwood {
		end = 5
	}
	u := 0.0
	for _, w := range [4][2]float64{{4, s.Apart}, {1.5, s.Edge}, {4, s.LoadedEdge}, {end, s.End}} {
		if w[1] > 0 {
			u = max(u, w[0]*d/w[1])
		}
	}
	return bounded(u)
}
