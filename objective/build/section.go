package build

import "math"

// Cut is what a void takes from one cross-section of a bar: Wide along z,
// High in the plane of swing, its middle Y above mid-depth, m. "Above" is to
// the left of a walk from the bar's first end to its second.
type Cut struct{ Wide, High, Y float64 }

// MaxCuts is the largest number of voids that one cross-section may meet.
const MaxCuts = 16

// Section is what is left of a rectangle after its cuts, SI units.
type Section struct {
	A           float64 // area
	Y0          float64 // centroid above mid-depth
	I           float64 // second moment about the centroid
	Top, Bottom float64 // the outermost wood above mid-depth; Bottom is negative where there is wood below
	ZTop, ZBot  float64 // section moduli at Top and Bottom
}

// flush is the distance below which two surfaces of a section are one, m:
// rounding of sizes that were written to meet.
const flush = 1e-9

// NetSection is a rectangle, thick (z) by high (plane of swing), less its
// cuts. It returns false where nothing is left to bend or a number is bad.
//
//	A = Σ w dy, Y0 = Σ w y dy/A, I = Σ w (dy³/12 + dy (y−Y0)²), Z = I/c
//
// summed over the strips between the edges of the cuts, w what is left of the
// thickness there. Cuts at the same height count as side by side along z, as
// pockets from two faces are; strips without wood at an edge move that edge in.
// Source: parallel-axis theorem; Z = bh²/6 of the plain bar, GTR-190.
func NetSection(thick, high float64, cuts []Cut) (s Section, ok bool) {
	if !(thick > 0 && high > 0) || math.IsInf(thick*high, 0) || len(cuts) > MaxCuts {
		return s, false
	}
	if len(cuts) == 0 {
		i := thick * high * high * high / 12
		z := thick * high * high / 6
		return Section{thick * high, 0, i, high / 2, -high / 2, z, z}, true
	}
	var edges [2*MaxCuts + 2]float64
	n := levelsTo(&edges, high, cuts)
	if !s.addStrips(edges[:n], thick, cuts) {
		return Section{}, false
	}
	s.ZTop, s.ZBot = s.I/(s.Top-s.Y0), s.I/(s.Y0-s.Bottom)
	return s, true
}

// levelsTo fills edges with the heights at which the width changes, rising,
// and returns how many there are.
func levelsTo(edges *[2*MaxCuts + 2]float64, high float64, cuts []Cut) int {
	edges[0], edges[1] = -high/2, high/2
	n := 2
	for i := range cuts {
		for _, y := range [2]float64{cuts[i].Y - cuts[i].High/2, cuts[i].Y + cuts[i].High/2} {
			if !(math.Abs(y) < high/2) {
				continue
			}
			at := n
			for ; edges[at-1] > y; at-- {
				edges[at] = edges[at-1]
			}
			edges[at] = y
			n++
		}
	}
	return n
}

// addStrips sums the strips between the levels. It returns false when no wood
// is left.
func (s *Section) addStrips(levels []float64, thick float64, cuts []Cut) bool {
	var first, second float64
	for k := 0; k+1 < len(levels); k++ {
		lo, hi := levels[k], levels[k+1]
		w, d, y := widthLeft(thick, (lo+hi)/2, cuts), hi-lo, (lo+hi)/2
		if !(w > 0 && d > flush) {
			continue
		}
		if s.A == 0 {
			s.Bottom = lo
		}
		s.Top = hi
		s.A += w * d
		first += w * d * y
		second += w * d * (d*d/12 + y*y)
	}
	if !(s.A > 0) {
		return false
	}
	s.Y0 = first / s.A
	s.I = second - s.A*s.Y0*s.Y0
	return s.I > 0
}

// widthLeft is the thickness that the cuts leave at height y.
func widthLeft(thick, y float64, cuts []Cut) float64 {
	for i := range cuts {
		c := &cuts[i]
		if math.Abs(y-c.Y) < c.High/2 {
			thick -= max(0, c.Wide)
		}
	}
	if thick < flush {
		return 0
	}
	return thick
}

// Bending is the largest stress (Pa) of moment m (N m) and axial force n (N)
// that acts at mid-depth: (|m| + |n y0|)/Z + |n|/A with the smaller Z. A recess
// of depth t gives the axial force the arm y0 = t/2.
func (s *Section) Bending(m, n float64) float64 {
	return (math.Abs(m)+math.Abs(n*s.Y0))/min(s.ZTop, s.ZBot) + math.Abs(n)/s.A
}

// Shear is the stress of shear force v (N), Pa, where the bar was high: a
// notch factor (high/left)² on 1.5 V/A, left = A/thick. Source: the square is
// the present practice for notched beams (from memory; older texts have the
// first power).
func (s *Section) Shear(v, thick, high float64) float64 {
	left := s.A / thick
	return 1.5 * math.Abs(v) / s.A * (high / left) * (high / left)
}
