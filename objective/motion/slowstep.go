package motion

import "math"

// slowStep follows a slow flow by the pair of orders five and four of
// Tsitouras (Computers and Mathematics with Applications 62, 2011, table 1),
// whose last slope is the next step's first.
type slowStep struct {
	a, next amplitudes // at the start and at the end of the step
	k       [7]amplitudes
	between amplitudes // scratch
}

// slowStages holds the rows of the pair: stage i + 1 starts from the first i + 1
// slopes. The last row is the step of order five itself.
var slowStages = [6][6]float64{
	{0.161},
	{-0.008480655492356989, 0.335480655492357},
	{2.8971530571054935, -6.359448489975075, 4.3622954328695815},
	{5.325864828439257, -11.748883564062828, 7.4955393428898365, -0.09249506636175525},
	{5.86145544294642, -12.92096931784711, 8.159367898576159, -0.071584973281401, -0.028269050394068383},
	{0.09646076681806523, 0.01, 0.4798896504144996, 1.379008574103742, -3.290069515436081, 2.324710524099774},
}

// slowError is the step of order five less that of order four.
var slowError = [7]float64{
	-0.00178001105222577714, -0.0008164344596567469, 0.007880878010261995, -0.1447110071732629,
	0.5823571654525552, -0.45808210592918697, 0.015151515151515152,
}

const (
	// slowTolerance is the error that a step may make, over the size of all
	// amplitudes at release. A thousandth of it changes the median and the 90th
	// percentile of the error of ln drift by less than a fifth, measured over
	// 100 chains of ten kinds; ten times it more than doubles some.
	slowTolerance = 1e-4
	// firstSlowStep is the step tried first, in slow periods.
	firstSlowStep = 1.0
	// slowSafety, slowGrow and slowShrink steer the step size (Hairer, Nørsett
	// and Wanner, II.4); below easyError a step may grow as far as it can.
	slowSafety, slowGrow, slowShrink = 0.9, 5.0, 0.2
	easyError                        = 1e-4
	// mostSlowSteps stops a flow that does not get on: an hour of a pendulum of
	// one second takes a tenth.
	mostSlowSteps = 100000
	// sampleSlack lets rounding not put a sample past the last step, in slow
	// periods.
	sampleSlack = 1e-9
)

// follow hands j the amplitudes at 1, 2, ... count slow periods of j after a.
// False where the flow cannot be followed.
func (w *slowStep) follow(s *slowFlow, j *judge, a *amplitudes, count int) bool {
	allowed := slowTolerance * a.size(2*s.n)
	w.a = *a
	s.rateTo(&w.k[0], a)
	at, h, taken := 0.0, firstSlowStep, 1 // in slow periods
	for steps := 0; taken <= count; steps++ {
		h = math.Min(h, float64(count)-at)
		e := w.stride(s, h*j.period)
		if steps > mostSlowSteps || math.IsNaN(e) {
			return false
		}
		if e <= allowed {
			for ; taken <= count && float64(taken) <= at+h+sampleSlack; taken++ {
				w.at((float64(taken)-at)/h, h*j.period, 2*s.n)
				j.take(&w.between)
			}
			at += h
			w.a, w.k[0] = w.next, w.k[6]
		}
		h *= regrow(e, allowed)
	}
	return true
}

// regrow is the factor from a step of error e, where allowed would do, to the
// next one.
func regrow(e, allowed float64) float64 {
	if e <= easyError*allowed {
		return slowGrow
	}
	return math.Max(slowShrink, math.Min(slowGrow, slowSafety*math.Pow(e/allowed, -0.2)))
}

// stride fills next, and the slopes, a step of h seconds on and returns the
// estimated error.
func (w *slowStep) stride(s *slowFlow, h float64) float64 {
	n := 2 * s.n
	for i := range slowStages {
		to := &w.between
		if i == len(slowStages)-1 {
			to = &w.next
		}
		row := &slowStages[i]
		for x := 0; x < n; x++ {
			sum := 0.0
			for j := 0; j <= i; j++ {
				sum += row[j] * w.k[j][x&15]
			}
			to[x&15] = w.a[x&15] + h*sum
		}
		s.rateTo(&w.k[i+1], to)
	}
	e := 0.0
	for x := 0; x < n; x++ {
		sum := 0.0
		for j := range slowError {
			sum += slowError[j] * w.k[j][x&15]
		}
		e += sum * sum
	}
	return h * math.Sqrt(e)
}

// at fills between with the amplitudes a share x of the step, of h seconds,
// after its start: the cubic through both ends and their slopes.
func (w *slowStep) at(x, h float64, n int) {
	x2, x3 := x*x, x*x*x
	end := 3*x2 - 2*x3
	rise, fall := h*(x3-2*x2+x), h*(x3-x2)
	for i := 0; i < n; i++ {
		w.between[i&15] = (1-end)*w.a[i&15] + end*w.next[i&15] + rise*w.k[0][i&15] + fall*w.k[6][i&15]
	}
}

// size is the root of the sum of the first n squares.
func (a *amplitudes) size(n int) float64 {
	s := 0.0
	for _, x := range a[:n] {
		s += x * x
	}
	return math.Sqrt(s)
}
