package motion

import "math"

// yield is what a wall bracket that gives does to a motion.
//
// The bracket moves sideways by F/k, F the sideways force of all that hangs on
// it. To first order in 1/k, with the accelerations of the stiff rig put in for
// those in F,
//
//	V′ = V − (u·φ)²/2k,  u = K M⁻¹ s,  s_i = S_i,
//
// which moves ω_k² by −(ω_k² Σ S_i v_ik)²/k as build.BracketTo has it, and
// couples the modes besides. By place.
type yield struct {
	given bool
	way   [Max]float64 // u/√k
}

// leastBracket is the least stiffness that is followed, over that at which the
// first order would leave some swing without any: what is left out is then of the
// order of a sixteenth.
const leastBracket = 4

// Yield gives d a wall bracket of a stiffness (N/m, sideways), all root bodies
// on it; false where it is so soft that the first order says nothing, d then as
// it was.
func (d *Dynamics) Yield(stiffness float64) bool {
	var u [Max]float64
	worst := 0.0
	for k := 0; k < d.n; k++ {
		push := 0.0 // Σ S_i v_ik
		for at := 0; at < d.n; at++ {
			push += d.shape[at][k] * d.s[at]
		}
		for at := 0; at < d.n; at++ {
			u[at] += d.weight[at] * d.shape[at][k] * push
		}
		worst += d.omega[k] * d.omega[k] * push * push
	}
	if !(stiffness > leastBracket*worst) {
		return false
	}
	d.yield = yield{given: true}
	for at := 0; at < d.n; at++ {
		d.yield.way[at] = u[at] / math.Sqrt(stiffness)
	}
	return true
}

// push adds the torques of a bracket that gives.
func (y *yield) push(phi, torque *[Max]float64, n int) {
	along := 0.0
	for i := 0; i < n; i++ {
		along += y.way[i] * phi[i]
	}
	for i := 0; i < n; i++ {
		torque[i] += y.way[i] * along
	}
}

// Yielding is the angular frequency of mode k on a bracket that gives, rad/s, to
// first order; without one, that of the mode.
func (d *Dynamics) Yielding(k int) float64 {
	along := 0.0
	for at := 0; at < d.n; at++ {
		along += d.yield.way[at] * d.shape[at][k]
	}
	return math.Sqrt(math.Max(0, d.omega[k]*d.omega[k]-along*along))
}
