package sample

import (
	"math"

	"evenswing/space"
)

// Swing is an invented motion of three pendulums that halve their swings in
// two minutes or so: sums of damped waves, smooth and of no real rig.
type Swing struct {
	Reach  float64 // m on the paper, of the slow pendulum at the start
	Beat   float64 // share of the slow pendulum's swing that comes and goes
	Wander float64 // share by which the fast pendulum's frequency changes
}

// The invented frequencies, rad/s, and rates of decay, 1/s.
const (
	slowRate, slowDecay = 2 * math.Pi / 6.013, math.Ln2 / 150
	fastRate, fastDecay = 2 * math.Pi / 3.004, math.Ln2 / 131
	sideRate, sideDecay = 2 * math.Pi / 3.71, math.Ln2 / 96
	beatRate            = 2 * math.Pi / 83
)

// Amplitudes are the three pendulums' swings at a time, rad.
func (s Swing) Amplitudes(t float64) [3]float64 {
	return [3]float64{
		0.07 * math.Exp(-slowDecay*t) * (1 - s.Beat*math.Pow(math.Sin(beatRate*t/2), 2)),
		0.07 * math.Exp(-fastDecay*t) * (1 + s.Beat/2*math.Pow(math.Sin(beatRate*t/2), 2)),
		0.07 * math.Exp(-sideDecay*t),
	}
}

// Pen is the pen's place on the paper at a time, m from its centre.
func (s Swing) Pen(t float64) space.Vec {
	a := s.Amplitudes(t)
	slow := a[0] / 0.07 * math.Cos(slowRate*t)
	fast := a[1] / 0.07 * math.Cos(fastRate*t+s.Wander*math.Sin(beatRate*t)/beatRate*fastRate)
	side := a[2] / 0.07 * math.Cos(sideRate*t)
	return space.Vec{X: s.Reach * (0.75*slow + 0.25*side), Y: s.Reach * (0.8*fast - 0.3*side*slow)}
}

// Ratio is the ratio of the slow period to the fast one at a time.
func (s Swing) Ratio(t float64) float64 {
	return fastRate / slowRate * (1 + s.Wander*math.Cos(beatRate*t))
}

// Shares are the three modes' shares of the energy at a time.
func (s Swing) Shares(t float64) [3]float64 {
	a := s.Amplitudes(t)
	weight := [3]float64{5, 2, 0.6}
	sum := 0.0
	for k := range a {
		a[k] *= a[k] * weight[k]
		sum += a[k]
	}
	for k := range a {
		a[k] /= sum
	}
	return a
}

// Path is the pen's places at n even times over a time.
func (s Swing) Path(n int, over float64) []space.Vec {
	points := make([]space.Vec, n)
	for i := range points {
		points[i] = s.Pen(over * float64(i) / float64(n-1))
	}
	return points
}
