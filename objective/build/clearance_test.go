package build

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"evenswing/objective/motion"
	"evenswing/space"
)

// ring is the outline of a part on the wall at angles from rest: corners in
// order, or a middle with a radius. Bars of joined pendulums come in pieces.
type ring struct {
	corners []space.Vec
	radius  float64
}

// rings places a part; away > 0 cuts a bar round the pivot of pendulum about.
func (s *standing) rings(angle *[motion.Max]float64, p Part, about space.Vec, away float64) []ring {
	d := &s.design.Pendulums[p.Pendulum]
	place := func(x, y float64) space.Vec { return s.at(angle, p.Pendulum, space.Vec{X: x, Y: y}) }
	switch p.Kind {
	case DrumPart:
		return []ring{{[]space.Vec{place(d.Drums[p.Index].At.X, d.Drums[p.Index].At.Y)}, d.Drums[p.Index].Across / 2}}
	case LumpPart:
		return []ring{{[]space.Vec{place(d.Lumps[p.Index].At.X, d.Lumps[p.Index].At.Y)}, 0}}
	case BlockPart:
		b := &d.Blocks[p.Index]
		var r ring
		for _, c := range [4][2]float64{{1, 1}, {-1, 1}, {-1, -1}, {1, -1}} {
			x, y, sin, cos := c[0]*b.Width/2, c[1]*b.Height/2, math.Sin(b.Turned), math.Cos(b.Turned)
			r.corners = append(r.corners, place(b.At.X+cos*x-sin*y, b.At.Y+sin*x+cos*y))
		}
		return []ring{r}
	}
	return s.barRings(place, &d.Bars[p.Index], about, away)
}

func (s *standing) barRings(place func(x, y float64) space.Vec, b *space.Bar, about space.Vec, away float64) (list []ring) {
	l := math.Hypot(b.To.X-b.From.X, b.To.Y-b.From.Y)
	ux, uy := (b.To.X-b.From.X)/l, (b.To.Y-b.From.Y)/l
	spans := [][2]float64{{0, l}}
	if away > 0 {
		foot := (about.X-b.From.X)*ux + (about.Y-b.From.Y)*uy
		off := (about.Y-b.From.Y)*ux - (about.X-b.From.X)*uy
		if reach := math.Sqrt(math.Max(0, away*away-off*off)); reach > 0 {
			spans = [][2]float64{{0, min(l, foot-reach)}, {max(0, foot+reach), l}}
		}
	}
	for _, sp := range spans {
		if sp[1] <= sp[0] {
			continue
		}
		var r ring
		for _, c := range [4][2]float64{{sp[0], 1}, {sp[1], 1}, {sp[1], -1}, {sp[0], -1}} {
			y := c[1] * b.Height / 2
			r.corners = append(r.corners, place(b.From.X+ux*c[0]-uy*y, b.From.Y+uy*c[0]+ux*y))
		}
		list = append(list, r)
	}
	return list
}

// apart is the signed gap of two rings by every side against every corner; where
// they overlap, by the normals of all sides and the ways from every circle's
// middle to every corner.
func apart(a, b ring) float64 {
	if overlap := parting(a, b); overlap <= 0 {
		return overlap
	}
	least := math.Inf(1)
	for range 2 {
		for _, c := range a.corners {
			for k := range b.corners {
				least = min(least, toSegment(c, b.corners[k], b.corners[(k+1)%len(b.corners)]))
			}
		}
		a, b = b, a
	}
	return least - a.radius - b.radius
}

func toSegment(p, a, b space.Vec) float64 {
	d := space.Vec{X: b.X - a.X, Y: b.Y - a.Y}
	t := 0.0
	if l := d.X*d.X + d.Y*d.Y; l > 0 {
		t = math.Max(0, math.Min(1, ((p.X-a.X)*d.X+(p.Y-a.Y)*d.Y)/l))
	}
	return math.Hypot(p.X-a.X-t*d.X, p.Y-a.Y-t*d.Y)
}

// parting is the largest gap between shadows on a line.
func parting(a, b ring) float64 {
	best := math.Inf(-1)
	try := func(x, y float64) {
		if l := math.Hypot(x, y); l > 0 {
			best = max(best, shadowGap(a, b, x/l, y/l), shadowGap(a, b, -x/l, -y/l))
		}
	}
	for _, r := range []ring{a, b} {
		for k := range r.corners {
			p, q := r.corners[k], r.corners[(k+1)%len(r.corners)]
			try(p.Y-q.Y, q.X-p.X)
		}
	}
	if len(a.corners) == 1 || len(b.corners) == 1 {
		for _, p := range a.corners {
			for _, q := range b.corners {
				try(q.X-p.X, q.Y-p.Y)
			}
		}
	}
	if math.IsInf(best, -1) { // two points in one place
		return -a.radius - b.radius
	}
	return best
}

func shadowGap(a, b ring, x, y float64) float64 {
	hi, lo := math.Inf(-1), math.Inf(1)
	for _, p := range a.corners {
		hi = math.Max(hi, p.X*x+p.Y*y)
	}
	for _, p := range b.corners {
		lo = math.Min(lo, p.X*x+p.Y*y)
	}
	return lo - hi - a.radius - b.radius
}

// TestGapsOfShapes: signed gaps of random circles, points and rectangles,
// against every side and corner.
func TestGapsOfShapes(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	shapeOf := func() (shape, ring) {
		s := shape{middle: space.Vec{X: r.Float64(), Y: r.Float64()}, u: turnBy(6 * r.Float64()).of(space.Vec{X: 1})}
		s.half = space.Vec{X: 0.3 * r.Float64(), Y: 0.2 * r.Float64()}
		if r.IntN(3) == 0 {
			return s, ring{[]space.Vec{s.middle}, s.half.X}
		}
		s.boxed = true
		var g ring
		for _, k := range []int{0, 1, 3, 2} {
			g.corners = append(g.corners, plus(s.middle, s.corner(k)))
		}
		return s, g
	}
	overlaps := 0
	for range 3000 {
		a, ra := shapeOf()
		b, rb := shapeOf()
		gap, n := gapTo(&a, &b)
		want := apart(ra, rb)
		if math.Abs(gap-want) > 1e-12 {
			t.Fatalf("%+v %+v: %.12g, want %.12g", a, b, gap, want)
		}
		if got := shadowGap(ra, rb, n.X, n.Y); math.Abs(got-gap) > 1e-12 {
			t.Fatalf("along its direction the gap is %g, not %g", got, gap)
		}
		if gap < 0 {
			overlaps++
		}
	}
	if overlaps < 300 || overlaps > 2700 {
		t.Errorf("%d overlaps", overlaps)
	}
}

// gapOf is the least gap over all pairs at a pose.
func (s *standing) gapOf(angle *[motion.Max]float64) float64 {
	least := math.Inf(1)
	for i := range s.w.parts {
		for j := range s.w.parts {
			a, b := &s.w.parts[i], &s.w.parts[j]
			if a.Pendulum >= b.Pendulum || a.lo > b.hi || b.lo > a.hi {
				continue
			}
			for _, g := range s.pairGaps(angle, a.Part, b.Part) {
				least = min(least, g)
			}
		}
	}
	return least
}

// pairGaps are the gaps of two parts that count.
func (s *standing) pairGaps(angle *[motion.Max]float64, a, b Part) (gaps []float64) {
	if s.design.Pendulums[a.Pendulum].Parent == b.Pendulum {
		a, b = b, a
	}
	pivot := s.bodies[b.Pendulum].Pivot
	away := 0.0
	if s.design.Pendulums[b.Pendulum].Parent == a.Pendulum {
		if a.Kind == BarPart && b.Kind == BarPart {
			away = s.design.Pendulums[a.Pendulum].Bars[a.Index].Height + s.design.Pendulums[b.Pendulum].Bars[b.Index].Height
		} else if s.holds(a, pivot) && s.holds(b, space.Vec{}) {
			return nil
		}
	}
	for _, x := range s.rings(angle, a, pivot, away) {
		for _, y := range s.rings(angle, b, space.Vec{}, away) {
			gaps = append(gaps, apart(x, y))
		}
	}
	return gaps
}

// holds tells whether a part reaches a point of its own frame.
func (s *standing) holds(p Part, at space.Vec) bool {
	var still [motion.Max]float64
	point := ring{[]space.Vec{s.at(&still, p.Pendulum, at)}, 0}
	return apart(s.rings(&still, p, space.Vec{}, 0)[0], point) < pinned
}

// sample is the least gap over poses at random, at the corners of the swings
// and downhill from the best.
func (s *standing) sample(r *rand.Rand, poses int) float64 {
	n := len(s.design.Pendulums)
	var best [motion.Max]float64
	least := math.Inf(1)
	try := func(angle [motion.Max]float64) bool {
		if g := s.gapOf(&angle); g < least {
			least, best = g, angle
			return true
		}
		return false
	}
	for k := range poses {
		var angle [motion.Max]float64
		for i := range n {
			a := s.design.Pendulums[i].Swing
			angle[i] = a * (2*r.Float64() - 1)
			if k < 1<<n {
				angle[i] = a * float64(2*(k>>i&1)-1)
			}
		}
		try(angle)
	}
	for step := 0.5; step > 1e-5; {
		better := false
		for i := range n {
			for _, way := range []float64{-1, 1} {
				a, angle := s.design.Pendulums[i].Swing, best
				angle[i] = math.Max(-a, math.Min(a, angle[i]+way*step*a))
				better = try(angle) || better
			}
		}
		if !better {
			step /= 2
		}
	}
	return least
}

// clearance is the least gap as ClearanceTo finds it.
func clearance(s *standing) *Clearance {
	var c Clearance
	s.w.ClearanceTo(&c)
	return &c
}

// TestClearanceOfRandomRigs: against poses at random with a search downhill: the
// gap is never above, and not a tenth of a millimetre below; its pose shows it.
func TestClearanceOfRandomRigs(t *testing.T) {
	k, apartRigs := 0, 0
	most := 0
	randomRigs(t, 120, func(s *standing) {
		k++
		if k%3 > 0 {
			s.thin(t)
		}
		c := clearance(s)
		if c.Pairs == 0 {
			return
		}
		if c.Gap > 0 {
			apartRigs++
		}
		found := s.sample(rand.New(rand.NewPCG(uint64(k), 9)), 150)
		if !(c.Gap <= found+1e-12) {
			t.Errorf("rig %d: gap %.9g, a pose has %.9g", k, c.Gap, found)
		}
		at := s.gapOf(&c.Pose)
		if c.Gap < at-max(1e-4, -overlapShare*at)-1e-12 || c.Gap > at+1e-12 {
			t.Errorf("rig %d: gap %.9g, its pose has %.9g", k, c.Gap, at)
		}
		for i := range s.design.Pendulums {
			if a := s.design.Pendulums[i].Swing; math.Abs(c.Pose[i]) > a*(1+1e-12) {
				t.Errorf("rig %d: pose %v beyond the swing", k, c.Pose)
			}
		}
		most = max(most, s.w.clear.most)
		if s.w.clear.most >= mostWedges {
			t.Errorf("rig %d: %d wedges", k, s.w.clear.most)
		}
	})
	t.Logf("%d rigs are clear, %d wedges at most", apartRigs, most)
	if apartRigs < 12 {
		t.Errorf("only %d rigs are clear", apartRigs)
	}
}

// thin makes every part much smaller in the plane, and puts all at one z.
func (s *standing) thin(t *testing.T) {
	t.Helper()
	const share = 0.35
	for i := range s.design.Pendulums {
		p := &s.design.Pendulums[i]
		for k := range p.Bars {
			b := &p.Bars[k]
			b.Height, b.Z.Value, b.Voids = 0.006, 0.2, nil
			b.From, b.To = times(share, b.From), times(share, b.To)
		}
		for k := range p.Drums {
			d := &p.Drums[k]
			d.Across, d.Rim, d.Z.Value, d.Charges = 0.05, 0.002, 0.2, nil
			d.At = times(share, d.At)
		}
		for k := range p.Lumps {
			p.Lumps[k].Z.Value = 0.2
			p.Lumps[k].At = times(share, p.Lumps[k].At)
		}
	}
	s.again(t)
}

// near is a beam with a drum that hangs from its end close under it, and a tray
// with a board that hangs from the drum's rod. Invented.
const near = `
rig: Near
pendulums:
  beam:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    swing: %g deg
    bars: {arm: {from: [-400 mm, 0 mm], to: [400 mm, 0 mm], section: 60 x 35 mm, of: ash, z: 200 mm}}
    lumps: {left: {at: [-400 mm, -80 mm], mass: 20 kg, z: 200 mm}}
  rod:
    hangs_from: beam
    pivot: [350 mm, 0 mm]
    swing: %g deg
    bars: {rod: {from: [0 mm, 0 mm], to: [0 mm, -300 mm], section: 40 x 30 mm, of: ash, z: 260 mm}}
    drums: {bob: {at: [0 mm, -220 mm], across: 300 mm, deep: 120 mm, rim: 18 mm, faces: 6 mm, of: birch plywood, z: 240 mm}}
    lumps: {low: {at: [0 mm, -300 mm], mass: 18 kg, z: 260 mm}}
  tray:
    hangs_from: rod
    pivot: [-200 mm, -300 mm]
    swing: %g deg
    bars: {hanger: {from: [0 mm, 0 mm], to: [0 mm, -200 mm], section: 30 x 25 mm, of: ash, z: 320 mm}}
    blocks: {board: {at: [-10 mm, 75 mm], size: [60 mm, 90 mm, 9 mm], turned: 20 deg, of: birch plywood, z: 300 mm}}
    lumps: {weight: {at: [0 mm, -200 mm], mass: 2 kg, z: 320 mm}}
`

// TestClearanceAgainstDenseSampling: 100,000 poses of the rig near.
func TestClearanceAgainstDenseSampling(t *testing.T) {
	s := hang(t, fmt.Sprintf(near, 3.0, 2.5, 2.0))
	c := clearance(s)
	if c.Pairs < 3 {
		t.Fatalf("only %d pairs", c.Pairs)
	}
	r := rand.New(rand.NewPCG(1, 2))
	poses := 100000
	if testing.Short() {
		poses = 5000
	}
	found := s.sample(r, poses)
	t.Logf("gap %.6f: %s, %s", c.Gap, s.model.PartWords(c.A), s.model.PartWords(c.B))
	if !(c.Gap <= found+1e-12 && c.Gap > found-1e-4 && c.Gap > 0) {
		t.Errorf("gap %.9g, of %d poses %.9g", c.Gap, poses, found)
	}
}

// TestHitsAtFourDegrees: a drum that clears the next bar at 2 degrees touches it
// at 4, and both parts are named.
func TestHitsAtFourDegrees(t *testing.T) {
	at := func(swing float64) (*standing, *Clearance) {
		s := hang(t, fmt.Sprintf(`
rig: Touch
pendulums:
  a:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    swing: %g deg
    bars: {rod: {from: [0 mm, 0 mm], to: [0 mm, -700 mm], section: 40 x 30 mm, of: ash, z: 200 mm}}
    drums: {bob: {at: [0 mm, -600 mm], across: 300 mm, deep: 90 mm, rim: 18 mm, faces: 6 mm, of: birch plywood, z: 200 mm}}
  b:
    hangs_from: wall
    pivot: [230 mm, 0 mm]
    swing: %g deg
    bars: {rod: {from: [0 mm, 0 mm], to: [0 mm, -700 mm], section: 40 x 30 mm, of: ash, z: 220 mm}}
`, swing, swing))
		return s, clearance(s)
	}
	if _, c := at(2); !(c.Gap > 0.005 && c.Gap < 0.03) {
		t.Errorf("at 2 degrees %g", c.Gap)
	}
	s, c := at(4)
	if !(c.Gap < -0.005) || s.model.PartWords(c.A)+" | "+s.model.PartWords(c.B) != "a, bob | b, rod" {
		t.Errorf("at 4 degrees %g: %s, %s", c.Gap, s.model.PartWords(c.A), s.model.PartWords(c.B))
	}
	// Closed form: the drum's middle 0.6 m down, turned 4 degrees one way, the bar
	// 4 degrees the other: distance of a point from a line.
	sin, cos := math.Sincos(rad(4))
	far := math.Abs((-sin)*(-0.6*cos) + cos*(0.6*sin-0.23))
	if math.Abs(c.Gap-(far-0.15-0.02)) > overlapShare*0.03 {
		t.Errorf("gap at 4 degrees %.6f, closed form %.6f", c.Gap, far-0.15-0.02)
	}
}

// TestUnplacedParts: parts without z take no part; the wall is measured.
func TestUnplacedParts(t *testing.T) {
	s := hang(t, seesaw(""))
	if c := clearance(s); c.Pairs != 0 || !c.Unplaced || c.Wall.Given {
		t.Errorf("%+v", c)
	}
	c := clearance(hang(t, fmt.Sprintf(near, 1.0, 1.0, 1.0)))
	if c.Unplaced || math.Abs(c.Wall.Value-0.18) > 1e-12 || c.WallPart != (Part{1, DrumPart, 0}) {
		t.Errorf("%+v", c)
	}
}
