package build

import "math"

// Dowel is a lag or bolt that holds a steel plate to wood, sheared once: outer
// and root diameter, length in the wood and thickness of the plate (m), bearing
// strength of wood and plate, bending yield of the screw (Pa), and the angle
// between load and grain (rad).
type Dowel struct {
	Root, Wood, Plate      float64
	InWood, InPlate, Screw float64
	Angle                  float64
}

// YieldMode names how a dowel gives: by crushing, turning or bending.
type YieldMode uint8

// The modes, with the names that they have in tables.
const (
	CrushWood  YieldMode = iota // I m
	CrushPlate                  // I s
	Turn                        // II
	HingeWood                   // III m
	HingePlate                  // III s
	TwoHinges                   // IV
)

// Side is the allowable side load (N) and its mode: the least of the yield
// equations of NDS table 12.3.1A over their reduction terms, 4, 3.6 and 3.2
// times 1 + angle/360° (equations, bearing and bending strengths read in a
// public text that quotes them; reduction terms and the root diameter for D
// from memory). Zero where a number is not positive.
func (b *Dowel) Side() (load float64, mode YieldMode) {
	d, lm, ls := b.Root, b.Wood, b.Plate
	fm, fs, fy := b.InWood, b.InPlate, b.Screw
	if !(d > 0 && lm > 0 && ls > 0 && fm > 0 && fs > 0 && fy > 0) {
		return 0, CrushWood
	}
	re, rt := fm/fs, lm/ls
	k1 := (math.Sqrt(re+2*re*re*(1+rt+rt*rt)+rt*rt*re*re*re) - re*(1+rt)) / (1 + re)
	k2 := -1 + math.Sqrt(2*(1+re)+2*fy*(1+2*re)*d*d/(3*fm*lm*lm))
	k3 := -1 + math.Sqrt(2*(1+re)/re+2*fy*(2+re)*d*d/(3*fm*ls*ls))
	turn := 1 + 0.25*math.Abs(b.Angle)/(math.Pi/2)
	loads := [6]float64{
		CrushWood:  d * lm * fm / (4 * turn),
		CrushPlate: d * ls * fs / (4 * turn),
		Turn:       k1 * d * ls * fs / (3.6 * turn),
		HingeWood:  k2 * d * lm * fm / ((1 + 2*re) * 3.2 * turn),
		HingePlate: k3 * d * ls * fm / ((2 + re) * 3.2 * turn),
		TwoHinges:  d * d * math.Sqrt(2*fm*fy/(3*(1+re))) / (3.2 * turn),
	}
	load = math.Inf(1)
	for k, z := range loads {
		if z < load {
			load, mode = z, YieldMode(k)
		}
	}
	return load, mode
}
