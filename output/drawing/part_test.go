package drawing

import (
	"math"
	"testing"

	"evenswing/output/drawing/sample"
	"evenswing/space"
)

// segmentTo: bisection ends within π/2⁴⁰ of the angle.
const segmentTo = 1e-9

func TestSegmentLevel(t *testing.T) {
	const r = 0.2
	full := math.Pi * r * r
	for _, c := range []struct {
		name        string
		area, level float64
	}{
		{"empty", 0, 0},
		{"half", full / 2, r},
		{"full", full, 2 * r},
		{"too much", 2 * full, 2 * r},
		// A chord at half the radius: r²(π/3 − √3/4), level r/2.
		{"third", r * r * (math.Pi/3 - math.Sqrt(3)/4), r / 2},
	} {
		if got := segmentLevel(c.area, r); math.Abs(got-c.level) > segmentTo {
			t.Errorf("%s: level %v, want %v", c.name, got, c.level)
		}
	}
}

// area is that of a polygon, by the shoelace formula.
func area(points []space.Vec) float64 {
	sum := 0.0
	for i, a := range points {
		b := points[(i+1)%len(points)]
		sum += a.X*b.Y - b.X*a.Y
	}
	return math.Abs(sum) / 2
}

// chordShare is how much of a disc's area the 48 chords of an arc lose.
const chordShare = 0.005

func TestShotFillsItsVolume(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	drum := &design.Pendulums[1].Drums[0]
	charge := &drum.Charges[0]
	o := chargeOutline(rig, drum, charge, wallPlace())
	want := charge.Mass / (11340 * charge.Packing * drum.InnerDepth())
	if got := area(o.points); math.Abs(got-want) > chordShare*want {
		t.Errorf("front of the shot %v m², want %v", got, want)
	}
	for _, p := range o.points {
		if p.Y > drum.At.Y+drum.InnerRadius() || math.Hypot(p.X-drum.At.X, p.Y-drum.At.Y) > drum.InnerRadius()+1e-12 {
			t.Errorf("shot outside its drum at %v", p)
		}
	}
}

func TestFillingStandsOnTheBottom(t *testing.T) {
	drum := space.Drum{Across: 0.4, Rim: 0.02, Deep: 0.1}
	points := filling(&drum, 0.05, wallPlace())
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range points {
		low, high = math.Min(low, p.Y), math.Max(high, p.Y)
	}
	if math.Abs(low+0.18) > 1e-4 || math.Abs(high+0.13) > 1e-12 {
		t.Errorf("from %v to %v, want -0.18 to -0.13", low, high)
	}
}

func TestRecessOpensAtTheNearerEdge(t *testing.T) {
	bar := space.Bar{From: space.Vec{X: -0.4}, To: space.Vec{X: 0.6}, Height: 0.06, Thick: 0.03}
	for _, c := range []struct{ at, low, high float64 }{{0.03, 0.018, 0.03}, {-0.03, -0.03, -0.018}, {0.02, 0.018, 0.03}} {
		bar.Voids = []space.Void{{Kind: space.Recess, At: space.Vec{X: 0.1, Y: c.at}, Along: 0.05, Across: 0.012, Through: 0.03}}
		all := barOutlines(&space.Rig{}, &bar, wallPlace())
		b := all[1].box()
		if math.Abs(b.Min.Y-c.low) > 1e-12 || math.Abs(b.Max.Y-c.high) > 1e-12 {
			t.Errorf("opening at %v: from %v to %v", c.at, b.Min.Y, b.Max.Y)
		}
		if math.Abs(b.Min.X-0.075) > 1e-12 || math.Abs(b.Max.X-0.125) > 1e-12 {
			t.Errorf("along the bar from %v to %v", b.Min.X, b.Max.X)
		}
	}
}

func TestPocketsAreHiddenAndCutsAreWhite(t *testing.T) {
	_, design := sample.Stairwell(0.5, 12, 0)
	all := barOutlines(&space.Rig{}, &design.Pendulums[0].Bars[0], wallPlace())
	for i, want := range []struct {
		hatch hatch
		edge  edge
	}{{plainHatch, solidEdge}, {noHatch, solidEdge}, {seeThrough, hiddenEdge}, {noHatch, solidEdge}} {
		if all[i].hatch != want.hatch || all[i].edge != want.edge {
			t.Errorf("outline %d: hatch %d edge %d, want %d %d", i, all[i].hatch, all[i].edge, want.hatch, want.edge)
		}
	}
}

func TestPartsFurtherOutHideTheRest(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	all := assembly(rig, design, placesOf(design, nil))
	for i := 1; i < len(all); i++ {
		if all[i].z < all[i-1].z {
			t.Fatalf("outline %d at z %v is drawn over one at %v", i, all[i].z, all[i-1].z)
		}
	}
}

func TestPartTurnsWithItsPendulum(t *testing.T) {
	block := space.Block{At: space.Vec{X: 0.2}, Width: 0.1, Height: 0.02, Turned: math.Pi / 2, Of: -1}
	o := blockOutline(&space.Rig{}, &block, newPlace(space.Vec{X: 1, Y: 2}, math.Pi/2))
	b := o.box()
	if math.Abs(b.Width()-0.1) > 1e-12 || math.Abs(b.Height()-0.02) > 1e-12 {
		t.Errorf("turned by half a turn in all: %v by %v, want 0.1 by 0.02", b.Width(), b.Height())
	}
	if math.Abs((b.Min.X+b.Max.X)/2-1) > 1e-12 || math.Abs((b.Min.Y+b.Max.Y)/2-2.2) > 1e-12 {
		t.Errorf("its middle is at %v %v, want 1 2.2", (b.Min.X+b.Max.X)/2, (b.Min.Y+b.Max.Y)/2)
	}
}

func TestLumpIsABallOfLead(t *testing.T) {
	r := lumpRadius(&space.Lump{Mass: 11340 * 4.0 / 3 * math.Pi * 0.001})
	if math.Abs(r-0.1) > 1e-12 {
		t.Errorf("radius %v, want 0.1", r)
	}
}
