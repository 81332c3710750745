package drawing

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenswing/space"
)

// splitTo forgives rounding in the parts of curves of some hundred millimetres.
const splitTo = 1e-10

func TestPartsOfACurveLieOnIt(t *testing.T) {
	c := cubic{{X: -40, Y: 3}, {X: 10, Y: 90}, {X: 33, Y: -70}, {X: 80, Y: 12}}
	part := c.between(0.2, 0.7)
	for i := range 21 {
		u := float64(i) / 20
		got, want := part.at(u), c.at(0.2+0.5*u)
		if math.Hypot(got.X-want.X, got.Y-want.Y) > splitTo {
			t.Errorf("at %v: %v, want %v", u, got, want)
		}
	}
	if whole := c.between(0, 1); whole != c {
		t.Errorf("the whole is %v, want %v", whole, c)
	}
}

// TestSlopesOfAQuartic: five-point formulas are exact up to degree four.
func TestSlopesOfAQuartic(t *testing.T) {
	points := make([]space.Vec, 9)
	for i := range points {
		x := float64(i)
		points[i] = space.Vec{X: 1 - 2*x + 0.5*x*x*x*x, Y: x * x * x}
	}
	for i := range points {
		x := float64(i)
		got, want := slopeAt(points, i), space.Vec{X: -2 + 2*x*x*x, Y: 3 * x * x}
		if math.Hypot(got.X-want.X, got.Y-want.Y) > 1e-9*math.Max(1, want.X) {
			t.Errorf("at %d: %v, want %v", i, got, want)
		}
	}
}

func TestSlopesOfFewPoints(t *testing.T) {
	points := []space.Vec{{X: 0}, {X: 2}, {X: 6}}
	for i, want := range []float64{2, 3, 4} {
		if got := slopeAt(points, i); got.X != want {
			t.Errorf("at %d: %v, want %v", i, got.X, want)
		}
	}
}

// TestACubicIsFoundAgain: samples of one cubic in time need one curve.
func TestACubicIsFoundAgain(t *testing.T) {
	c := cubic{{X: -40, Y: 3}, {X: 10, Y: 90}, {X: 33, Y: -70}, {X: 80, Y: 12}}
	points := make([]space.Vec, 101)
	for i := range points {
		points[i] = c.at(float64(i) / 100)
	}
	got := curvesThrough(points, 1e-6)
	if len(got) != 1 {
		t.Fatalf("%d curves for one", len(got))
	}
	for k := range c {
		if math.Hypot(got[0][k].X-c[k].X, got[0][k].Y-c[k].Y) > 1e-6 {
			t.Errorf("point %d is %v, want %v", k, got[0][k], c[k])
		}
	}
}

func TestCurvesJoinAndPassEveryPoint(t *testing.T) {
	const within = 0.013
	points := make([]space.Vec, 3000)
	for i := range points {
		s := 0.08 * float64(i)
		points[i] = space.Vec{X: 70 * math.Sin(1.05*s), Y: 60 * math.Sin(2.1*s+0.3) * math.Exp(-s/150)}
	}
	curves := curvesThrough(points, within)
	if len(curves) > len(points)/3 {
		t.Errorf("%d curves for %d points", len(curves), len(points))
	}
	for i := 1; i < len(curves); i++ {
		if curves[i][0] != curves[i-1][3] {
			t.Fatalf("a gap before curve %d", i)
		}
	}
	if far := farthestPoint(points, curves); far > within+sampledTo {
		t.Errorf("passes a point by %v, allowed %v", far, within)
	}
}

// sampledTo is what 64 chords of a curve leave out, mm.
const sampledTo = 1e-3

// farthestPoint is the largest distance of a point from the curves, by
// sampling. Points and curves come in the same order, so each point is sought
// only a little way before and after the one before it.
func farthestPoint(points []space.Vec, curves []cubic) float64 {
	const pieces, around = 64, 400
	var chain [][2]space.Vec
	for i := range curves {
		for k := range pieces {
			chain = append(chain, [2]space.Vec{curves[i].at(float64(k) / pieces), curves[i].at(float64(k+1) / pieces)})
		}
	}
	worst, near := 0.0, 0
	for _, p := range points {
		least, from := math.Inf(1), max(near-around, 0)
		for k, piece := range chain[from:min(near+around, len(chain))] {
			if d := segmentDistance(p, piece[0], piece[1]); d < least {
				least, near = d, from+k
			}
		}
		worst = math.Max(worst, least)
	}
	return worst
}

// TestNoiseIsJoinedStraight: what happens to look smooth is the exception.
func TestNoiseIsJoinedStraight(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	points := make([]space.Vec, 400)
	for i := range points {
		points[i] = space.Vec{X: 100 * random.Float64(), Y: 100 * random.Float64()}
	}
	straight := 0
	curves := curvesThrough(points, 0.01)
	for _, c := range curves {
		if math.Max(segmentDistance(c[1], c[0], c[3]), segmentDistance(c[2], c[0], c[3])) < splitTo {
			straight++
		}
	}
	if len(curves) != 399 || straight < 380 {
		t.Errorf("%d curves, %d of them straight", len(curves), straight)
	}
}

// TestCoarseSamplesAreStillSmooth: at twelve samples a cycle, one curve between
// neighbours must follow the motion, not the chord: the chord is off by 2.4 mm.
func TestCoarseSamplesAreStillSmooth(t *testing.T) {
	points := make([]space.Vec, 240)
	turn := 2 * math.Pi / 12
	for i := range points {
		points[i] = space.Vec{X: 70 * math.Cos(turn*float64(i)), Y: 70 * math.Sin(turn*float64(i))}
	}
	for i, c := range curvesThrough(points, 0.01) {
		for k := range 11 {
			p := c.at(float64(k) / 10)
			if off := math.Abs(math.Hypot(p.X, p.Y) - 70); off > 0.1 {
				t.Fatalf("curve %d is %v mm off its circle", i, off)
			}
		}
	}
}

func TestCutsLieOnTheEdge(t *testing.T) {
	r := sheetRect{50, 30}
	level := cubic{{X: -100}, {X: -100 + 200.0/3}, {X: 100 - 200.0/3}, {X: 100}}
	list := r.cut(&level)
	if len(list) != 3 || list[0].side != outside || list[1].side != inside || list[2].side != outside {
		t.Fatalf("%+v", list)
	}
	if math.Abs(list[1].from-0.25)*200 > cutFinest || math.Abs(list[1].to-0.75)*200 > cutFinest {
		t.Errorf("inside from %v to %v, want 0.25 to 0.75", list[1].from, list[1].to)
	}
	past := cubic{{X: 40, Y: 45}, {X: 50, Y: 35}, {X: 60, Y: 25}, {X: 70, Y: 15}} // round the corner, never in
	for _, s := range r.cut(&past) {
		if s.side != outside {
			t.Errorf("a line past the corner is given as inside: %+v", s)
		}
	}
	along := cubic{{X: -50, Y: -10}, {X: -50, Y: 0}, {X: -50, Y: 5}, {X: -50, Y: 10}}
	if list := r.cut(&along); len(list) != 1 || list[0].side != inside {
		t.Errorf("a line on the edge: %+v", list)
	}
}
