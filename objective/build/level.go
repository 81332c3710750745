package build

import "math"

// mostOff is the largest share of an edge's length to which eccentricity counts
// in its line load: at half the length it tips off, and the load grows without
// bound.
const mostOff = 0.49

// LineLoad is the largest line load (N/m) and the length in contact (m) of an
// edge that carries f (N) at e (m) from its middle: (f/L)(1+6|e|/L) within a
// sixth of the length, 2f/(3(L/2−|e|)) on 3(L/2−|e|) beyond. Source: pressure
// that falls off evenly, no pull; read. e is capped at 0.49 L.
func LineLoad(f, long, e float64) (q, contact float64) {
	if !(long > 0) {
		return math.Inf(1), 0
	}
	e = min(math.Abs(e), mostOff*long)
	if e <= long/6 {
		return f / long * (1 + 6*e/long), long
	}
	contact = 3 * (long/2 - e)
	return 2 * f / contact, contact
}

// EdgeUse is the utilisation of balance: 1 where the edge starts to lift, 3
// where it tips off.
func EdgeUse(e, long float64) float64 { return bounded(divide(math.Abs(e), long/6)) }

// OffMiddle is where the load of an edge falls (m from its middle) when it is e
// by the masses alone, the rig stands out of level by phi (rad) along z and is
// pushed along z by share of its weight, c (m) below the edge.
func OffMiddle(e, c, phi, share float64) float64 {
	return math.Abs(e) + c*math.Sin(math.Abs(phi)) + c*math.Abs(share)
}

// TwoEdges is how f (N) at e from the middle of two edges, apart (m), is
// shared: the one on e's side first.
func TwoEdges(f, e, apart float64) (near, far float64) {
	if !(apart > 0) {
		return f / 2, f / 2
	}
	return f * (0.5 + e/apart), f * (0.5 - e/apart)
}
