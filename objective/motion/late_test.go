package motion

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"evenswing/space"
)

// TestNoHandLate: with no hand late the drawing is that of DrawTo, bit for bit.
func TestNoHandLate(t *testing.T) {
	r := randomRig(t, rand.New(rand.NewPCG(7, 1)), 3)
	pen, paper := space.Pen{Given: true, On: 2, At: vec(0.1, 0.3)}, space.Paper{Given: true, On: 1, At: vec(0.1, -0.3)}
	r.d.Draw(&r.bodies, &pen, &paper)
	var b Bands
	r.modes.BandsTo(&b, nil)
	from := [Max]float64{0.05, -0.05, 0.04}
	var w Workspace
	var plain, late Drawing
	var m, n Measures
	w.DrawTo(&plain, &m, &r.d, &b, vec(0.4, 0.3), 4e-4, &from, 30, Accurate)
	w.DrawLateTo(&late, &n, &r.d, &b, vec(0.4, 0.3), 4e-4, &from, &[Max]float64{-1}, 30, Accurate)
	if !slices.Equal(plain.Points, late.Points) || m != n {
		t.Error("no hand is late, and the drawing is another")
	}
}

// TestHeld: what carries a pendulum that a hand holds swings as if the pendulum's
// mass sat at its pivot; the held one stays.
func TestHeld(t *testing.T) {
	bodies := [Max]Body{{Mass: 5, Cg: vec(0, -0.3), Inertia: 0.2}, {Mass: 2, Cg: vec(0.05, -0.4), Inertia: 0.1, Pivot: vec(-0.2, -0.1)}}
	r := rigUp(t, []int{space.Wall, 0}, bodies[:2], 9.81)
	alone := rigUp(t, []int{space.Wall}, []Body{withLoad(bodies[0], 2, bodies[1].Pivot)}, 9.81)
	const seconds = 0.7
	from := [Max]float64{0.1, -0.08}
	y := r.d.start(&from)
	var w Workspace
	if e := w.holdUntil(&r.d, &y, &[Max]float64{0, seconds}); e != Whole {
		t.Fatal(e)
	}
	var track Track
	w.TrackTo(&track, &alone.d, &from, []float64{0, seconds})
	angle, rate := track.Angle[1][0]-alone.rest.Tilt[0], track.Rate[1][0]
	at, held := r.d.placeOf(0), r.d.placeOf(1)
	if math.Abs(y.phi[at]-angle) > 1e-8 || math.Abs(y.rate[at]-rate) > 1e-8 {
		t.Errorf("%g rad, %g rad/s; alone %g, %g", y.phi[at], y.rate[at], angle, rate)
	}
	if y.phi[held] != from[1] || y.rate[held] != 0 {
		t.Errorf("the held one is at %g, %g", y.phi[held], y.rate[held])
	}
}

// withLoad is a body with a point mass at a place of it.
func withLoad(b Body, mass float64, at space.Vec) Body {
	m := b.Mass + mass
	cg := vec((b.Mass*b.Cg.X+mass*at.X)/m, (b.Mass*b.Cg.Y+mass*at.Y)/m)
	whole := b.Inertia + b.Mass*(b.Cg.X*b.Cg.X+b.Cg.Y*b.Cg.Y) + mass*(at.X*at.X+at.Y*at.Y)
	return Body{Mass: m, Cg: cg, Inertia: whole - m*(cg.X*cg.X+cg.Y*cg.Y), Pivot: b.Pivot}
}
