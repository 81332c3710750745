package motion

import "math"

const (
	// fastCycle is the number of steps in a cycle of the fastest mode, fastSlow
	// the least in a slow period: 32 where the fastest mode is twice as fast.
	fastCycle, fastSlow = 15.5, 24
	// mostFast is the number of steps in a slow period beyond which the accurate
	// path is the faster one.
	mostFast = 128
	// startTolerance is that of the accurate path to the first four points.
	startTolerance = 1e-7
	// fastTolerance is that of the accurate path where it stands in for the fast
	// one: drifts are then right to 0.1 % in the 90th percentile.
	fastTolerance = 1e-5
	// wholeSteps keeps a time that is a whole number of steps from losing one
	// to rounding.
	wholeSteps = 1e-9
)

// fast follows the motion by the fast path, with steps half as long where they
// turn out too long, and by the accurate path to fastTolerance where the fast
// one will not do: dry friction and drag change too suddenly for its
// polynomials.
func (w *Workspace) fast(dst *Measures, d *Dynamics, b *Bands, y *point, until float64) {
	if !d.losses.rubs && d.losses.drag == 0 && !d.yield.given {
		per := max(fastSlow, 2*int(math.Ceil(0.5*fastCycle*d.fastest()/b.Base)))
		for ; per <= mostFast; per *= 2 {
			if *dst = (Measures{Followed: Fast}); w.skim(d, b, y, until, per) {
				return
			}
		}
	}
	*dst = Measures{}
	dst.Ending = w.track(d, b, y, until, fastTolerance)
}

// skim follows the fast path with per steps a slow period, and takes a sample
// every second one; false where that is not to be trusted.
func (w *Workspace) skim(d *Dynamics, b *Bands, y *point, until float64, per int) bool {
	k := &w.skimmer
	w.slow.open(b, per/2)
	w.crest = crest{}
	k.ready(d, w.slow.period/float64(per))
	w.begin(d, y, startTolerance)
	k.whole = w.equations.energy(d, y)
	last := int(until/k.h + wholeSteps)
	for i := 0; i <= last; i++ {
		if i < fastPoints && !w.skimStart(d, float64(i)*k.h) {
			return false
		}
		if i >= fastPoints {
			k.predict()
		}
		w.skimForces(d, i%2 == 0)
		if i >= fastPoints && !k.correct() {
			return false
		}
		if i%2 == 0 && !w.skimSample(d, i/2) {
			return false
		}
	}
	return true
}

// skimStart brings k to one of the first points.
func (w *Workspace) skimStart(d *Dynamics, t float64) bool {
	for w.walk.t < t {
		if w.advance(d, t) != Whole {
			return false
		}
	}
	k := &w.skimmer
	k.y = w.walk.y
	d.linearTo(&k.z, &k.y)
	k.guess = k.z
	return true
}

// skimForces finds the forces at the predicted state, and on the way its
// momenta, if they are wanted.
func (w *Workspace) skimForces(d *Dynamics, momenta bool) {
	k, e := &w.skimmer, &w.equations
	e.turn(d, &k.y.phi)
	e.push(d, &k.y.rate)
	e.inertia(d)
	if momenta {
		k.momenta = [Max]float64{}
		e.momenta(d, &k.y.rate, &k.momenta)
	}
	e.factor(d.n)
	k.acc = e.torque
	e.solve(d.n, &k.acc)
	k.forces()
}

// skimSample hands sample number to the slow amplitudes. Their momenta are the
// true ones, VᵀM(φ)φ̇ of the predicted state plus the correction's VᵀM(0)Δφ̇.
func (w *Workspace) skimSample(d *Dynamics, number int) bool {
	k := &w.skimmer
	j := number % w.slow.per
	if j == 0 && number > 0 {
		w.slow.close()
		if !k.sound(w.equations.energy(d, &k.y)) {
			return false
		}
	}
	k.lost += 2 * k.h * d.losses.power(d, &k.y)
	z := k.z
	for m := 0; m < k.n; m++ {
		z.im[m&7] += dot(&k.impulse[m&7], &k.momenta, k.wide) - k.guess.im[m&7]
	}
	w.slow.take(j, &z)
	w.crest.see(d, &k.y, 2*k.h*float64(number))
	return true
}
