package build

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenswing/objective/motion"
)

// TestStationsHoldTheStrength: the largest utilisation of a pendulum's stations, and
// of the fixing, is that of StrengthTo, which goes another way through the bars.
func TestStationsHoldTheStrength(t *testing.T) {
	same := func(s *standing) {
		want := strength(s, nil)
		var most [motion.Max]Use
		wall := Use{}
		for _, x := range s.w.NewStations().List {
			switch u := &most[x.Place.Pendulum]; {
			case x.Kind == FixingStation:
				wall = x.Use
			case x.Use.Known && (!u.Known || x.Use.Value > u.Value):
				*u = x.Use
			}
		}
		for i := range s.design.Pendulums {
			if u := want.Pendulums[i]; most[i].Known != u.Known || most[i].Value != u.Value || most[i].Check != u.Check {
				t.Errorf("pendulum %d: stations %+v, strength %+v", i, most[i], u)
			}
		}
		if wall != want.Wall {
			t.Errorf("wall: %+v, %+v", wall, want.Wall)
		}
	}
	randomRigs(t, 20, same)
	same(hangJoint(t, "screws: {holds: left, count: 4, across: 5 mm, thread: 30 mm}"))
	same(hangJoint(t, "plate: {holds: right, wide: 10 mm, long: 20 mm, thick: 4 mm, of: steel}"))
}

// TestStationsAtRest: what Observe finds in the rest pose is what stations carry at rest.
func TestStationsAtRest(t *testing.T) {
	randomRigs(t, 20, func(s *standing) {
		x := s.w.NewStations()
		var still [motion.Max]float64
		x.Observe(&s.rest.Tilt, &still, &still)
		for _, p := range x.List {
			if p.Kind == FaceStation {
				continue // laid flat, not swinging
			}
			near := func(a, b float64) bool { return math.Abs(a-b) < 1e-9*(1+math.Abs(b)) }
			if !near(p.Moved.Along, p.Rest.Along) || !near(p.Moved.Across, p.Rest.Across) || !near(p.Moved.Moment, p.Rest.Moment) {
				t.Errorf("%v: %+v, at rest %+v", s.model.StationWords(&p), p.Moved, p.Rest)
			}
		}
	})
}

// TestObserveAgainstKinematics: forces at sections of the plank of one instant,
// against those of its elements by differences in time of full rotations.
func TestObserveAgainstKinematics(t *testing.T) {
	s := hang(t, plank)
	const h = 1e-3
	for phase := range 40 {
		time := float64(phase) * 0.61
		var at [3][motion.Max]float64
		for k := range at {
			s.anglesAt(time+h*float64(k-1), &at[k])
		}
		angle, rate, turns := s.rest.Tilt, [motion.Max]float64{}, [motion.Max]float64{}
		for i := range s.design.Pendulums {
			angle[i] += at[1][i]
			rate[i] = (at[2][i] - at[0][i]) / (2 * h)
			turns[i] = (at[2][i] - 2*at[1][i] + at[0][i]) / (h * h)
		}
		x := &Stations{w: s.w, List: make([]Station, 1)}
		x.addCut(0, 0, 0.8, false)
		x.Observe(&angle, &rate, &turns)
		n, v, m := s.felt(plankElements(0.8, toEnd), 0.8, toEnd, time)
		got := x.List[0].Moved
		agree(t, "axial", 100+got.Along, 100+math.Abs(n), 1e-4)
		agree(t, "shear", got.Across, math.Abs(v), 1e-4)
		agree(t, "moment", 10+got.Moment, 10+math.Abs(m), 1e-4)
	}
}

// TestBoundHoldsTheMotion: nothing that a station carries in the full motion, let go
// at the working swings with signs at random, exceeds the bound, and some come near.
// The bound knows the linear motion: rigs in which pendulums pump one another beyond
// the sum of their modes are counted, not judged.
func TestBoundHoldsTheMotion(t *testing.T) {
	nearest, pumped, w := 0.0, 0, new(motion.Workspace)
	randomRigs(t, 40, func(s *standing) {
		x := s.w.NewStations()
		if !s.swingUp(w, x) {
			pumped++
			return
		}
		for _, p := range x.List {
			scale := s.rest.G * s.rest.Mu[p.Place.Pendulum]
			for _, f := range [3][3]float64{{p.Moved.Along, p.Most.Along, p.Rest.Along}, {p.Moved.Across, p.Most.Across, p.Rest.Across}, {p.Moved.Moment, p.Most.Moment, p.Rest.Moment}} {
				if f[0] > f[1]+1e-9*scale {
					t.Errorf("%s: %+v, bound %+v, at rest %+v", s.model.StationWords(&p), p.Moved, p.Most, p.Rest)
				}
				if over := f[1] - f[2]; over > 0.01*scale {
					nearest = math.Max(nearest, (f[0]-f[2])/over)
				}
			}
		}
	})
	if nearest < 0.5 || pumped > 10 {
		t.Errorf("the bound is never nearer than %.2f, %d rigs are pumped", nearest, pumped)
	}
}

// swingUp lets the full motion, undamped, pass over the stations, from two releases;
// false where a pendulum went beyond the sum of its modes.
func (s *standing) swingUp(w *motion.Workspace, x *Stations) bool {
	var d motion.Dynamics
	s.forest.DynamicsTo(&d, &s.rest, &s.modes)
	r := rand.New(rand.NewPCG(5, uint64(len(s.design.Pendulums))))
	within := true
	for range 2 {
		var from, turns [motion.Max]float64
		for i := range s.design.Pendulums {
			from[i] = s.design.Pendulums[i].Swing * float64(1-2*r.IntN(2))
		}
		var track motion.Track
		w.TrackTo(&track, &d, &from, motion.EvenTimes(nil, 40, 1000))
		for k := range track.Time {
			w.TurnsTo(&turns, &d, &track, k)
			x.Observe(&track.Angle[k], &track.Rate[k], &turns)
		}
		for i := range s.design.Pendulums {
			sum := 0.0
			for k := range s.modes.N {
				sum += math.Abs(s.modes.V[i][k]) * s.w.swing.reach[k]
			}
			within = within && track.Largest[i] <= sum*1.001
		}
	}
	return within
}
