package mass

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenswing/space"
)

// differ compares exact derivatives with central differences of the sums
// themselves: a second route that shares only what is added up.
func differ(t *testing.T, what string, numbers []*float64, slopes []Slope, sum func() Sum) {
	t.Helper()
	for i, n := range numbers {
		h := 1e-5 * math.Max(math.Abs(*n), 1e-2)
		was := *n
		*n = was + h
		up := sum()
		*n = was - h
		down := sum()
		*n = was
		if up.Fault.Kind != None || down.Fault.Kind != None {
			t.Fatalf("%s, number %d: %v %v", what, i, up.Fault, down.Fault)
		}
		base := sum()
		got := [...]float64{slopes[i].Mass, slopes[i].Mx, slopes[i].My, slopes[i].Inertia}
		scale := [...]float64{base.Mass, base.Reach, base.Reach, base.Inertia}
		high := [...]float64{up.Mass, up.Mx, up.My, up.Inertia}
		low := [...]float64{down.Mass, down.Mx, down.My, down.Inertia}
		for k := range got {
			want := (high[k] - low[k]) / (2 * h)
			// Rounding of the sums over the step, and the step's own curvature.
			allow := 1e-7*math.Abs(want) + 1e-14*math.Abs(scale[k])/h + 1e-9*math.Abs(scale[k])
			if !(math.Abs(got[k]-want) <= allow) {
				t.Errorf("%s, number %d, sum %d: slope %.12g, difference %.12g", what, i, k, got[k], want)
			}
		}
	}
}

// found are the numbers of what was found on the scales.
func found(w *space.Weighed) []*float64 { return []*float64{&w.Mass.Value, &w.At.X, &w.At.Y} }

// weighings are the ways of weighing a part, by a count.
func weighings(k int, mass float64, at space.Vec) space.Weighed {
	return space.Weighed{Mass: space.Optional{Value: mass, Given: k&1 == 1}, At: at, Balanced: k&2 == 2}
}

func TestSlopesOfBars(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	for round := range 80 {
		angle, side := 2*math.Pi*rng.Float64(), math.Copysign(1, rng.Float64()-0.5)
		sin, cos := math.Sincos(angle)
		at := func(along, across float64) space.Vec {
			return space.Vec{X: 0.1 + along*cos - across*sin, Y: -0.2 + along*sin + across*cos}
		}
		b := space.Bar{From: at(0, 0), To: at(0.5, 0), Height: 0.06, Thick: 0.035, Weighed: weighings(round, 0.9, at(0.24, 0.004)), Voids: []space.Void{
			{Kind: space.Recess, At: at(0.2, side*0.031), Along: 0.05, Across: 0.012, Through: 0.03},
			{Kind: space.Mortise, At: at(0.35, -0.005), Along: 0.04, Across: 0.02, Through: 0.02},
			{Kind: space.Hole, At: at(0.08, 0.01), Along: 0.014, Across: 0.014, Through: 0.03},
		}}
		density := 700.0
		numbers := []*float64{&b.From.X, &b.From.Y, &b.To.X, &b.To.Y, &b.Height, &b.Thick, &b.Z.Value}
		numbers = append(numbers, found(&b.Weighed)...)
		for i := range b.Voids {
			v := &b.Voids[i]
			numbers = append(numbers, &v.At.X, &v.At.Y, &v.Along, &v.Across, &v.Through)
		}
		slopes := make([]Slope, len(numbers)+1)
		slopes[len(numbers)] = BarSlopesTo(slopes[:len(numbers)], &b, density)
		differ(t, "bar", append(numbers, &density), slopes, func() (s Sum) {
			s.AddBar(&b, density)
			return s
		})
	}
}

// TestSlopesOfDrums: plates before, between and after loose metal, whose depth
// they leave.
func TestSlopesOfDrums(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 2))
	for round := range 120 {
		d := space.Drum{Weighed: weighings(round, 2.2, space.Vec{X: 0.21, Y: -0.13}), At: space.Vec{X: 0.4 * rng.Float64(), Y: -0.3 * rng.Float64()}, Across: 0.24, Deep: 0.12, Rim: 0.02, Faces: 0.006,
			Charges: []space.Charge{
				{Kind: space.Filled, Level: 0.02 + 0.16*rng.Float64(), Packing: 0.6},
				{Kind: space.Discs, Count: 4, Across: 0.1, Thick: 0.003, Offset: space.Vec{X: 0.01, Y: 0.02},
					Weighed: space.Optional{Value: 0.8, Given: round&4 == 4}},
				{Kind: space.Shot, Mass: 0.05 + 5*rng.Float64(), Packing: 0.62},
				{Kind: space.Slabs, Count: 3, Width: 0.08, Height: 0.05, Thick: 0.004, Offset: space.Vec{X: -0.02, Y: 0.01},
					Weighed: space.Optional{Value: 0.4, Given: round&8 == 8}},
			}}
		densities := []float64{680, 7850, 7850, 11340, 8500}
		numbers := []*float64{&d.At.X, &d.At.Y, &d.Across, &d.Deep, &d.Rim, &d.Faces, &d.Z.Value}
		numbers = append(numbers, found(&d.Weighed)...)
		for k := range d.Charges {
			c := &d.Charges[k]
			numbers = append(numbers, &c.Count, &c.Across, &c.Width, &c.Height, &c.Thick, &c.Mass, &c.Level, &c.Packing, &c.Offset.X, &c.Offset.Y, &c.Weighed.Value)
		}
		slopes, byDensity := make([]Slope, len(numbers)), make([]Slope, len(densities))
		DrumSlopesTo(slopes, byDensity, &d, densities)
		for k := range densities {
			numbers = append(numbers, &densities[k])
		}
		differ(t, "drum", numbers, append(slopes, byDensity...), func() (s Sum) {
			s.AddDrum(&d, densities[0])
			for k := range d.Charges {
				s.AddCharge(&d, &d.Charges[k], densities[1+k], LooseDepth(&d))
			}
			return s
		})
	}
}

func TestSlopesOfBlocksAndLumps(t *testing.T) {
	for round := range 8 {
		b := space.Block{Weighed: weighings(round, 1.7, space.Vec{X: 0.19, Y: -0.42}), At: space.Vec{X: 0.2, Y: -0.4}, Width: 0.2, Height: 0.3, Thick: 0.01, Turned: 0.3, Mass: space.Optional{Value: 2, Given: round&4 == 4}}
		density := 680.0
		numbers := []*float64{&b.At.X, &b.At.Y, &b.Width, &b.Height, &b.Thick, &b.Turned, &b.Mass.Value, &b.Z.Value}
		numbers = append(numbers, found(&b.Weighed)...)
		slopes := make([]Slope, BlockNumbers+1)
		slopes[BlockNumbers] = BlockSlopesTo(slopes[:BlockNumbers], &b, density)
		differ(t, "block", append(numbers, &density), slopes, func() (s Sum) {
			s.AddBlock(&b, density)
			return s
		})
	}
	for round := range 4 {
		l := space.Lump{Weighed: weighings(round, 2.9, space.Vec{X: 0.21, Y: -0.39}), At: space.Vec{X: 0.2, Y: -0.4}, Mass: 3, Inertia: 0.02}
		numbers := []*float64{&l.At.X, &l.At.Y, &l.Mass, &l.Inertia, &l.Z.Value}
		numbers = append(numbers, found(&l.Weighed)...)
		slopes := make([]Slope, LumpNumbers)
		LumpSlopesTo(slopes, &l)
		differ(t, "lump", numbers, slopes, func() (s Sum) {
			s.AddLump(&l)
			return s
		})
	}
}

// TestSlopesOfEmptyShot: a first grain of shot lies at the cavity's bottom.
func TestSlopesOfEmptyShot(t *testing.T) {
	d := space.Drum{At: space.Vec{X: 0.1}, Across: 0.24, Deep: 0.12, Rim: 0.02, Charges: []space.Charge{{Kind: space.Shot, Packing: 0.6}}}
	slopes, byDensity := make([]Slope, DrumNumbers+ChargeNumbers), make([]Slope, 2)
	DrumSlopesTo(slopes, byDensity, &d, []float64{680, 11340})
	s := slopes[DrumNumbers+chargeMass]
	agree(t, "mass", s.Mass, 1, 0)
	agree(t, "first moment", s.My, -0.1, 1e-15)
	agree(t, "inertia", s.Inertia, 0.1*0.1+0.1*0.1, 1e-15)
}
