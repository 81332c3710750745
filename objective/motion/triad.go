package motion

import "math"

// MaxTriads is the largest number of triads (a ≤ b < c) of Max modes.
const MaxTriads = Max * Max * (Max - 1) / 2

// nearResonance is the relative detuning within which a triad is listed.
const nearResonance = 0.2

// Triad is three modes whose frequencies nearly add up, ω_a + ω_b ≈ ω_c, and
// what the quadratic coupling lets them exchange. a = b is a 2:1 resonance.
type Triad struct {
	A, B, C  int     // modes, A ≤ B < C
	Detuning float64 // (ω_c − ω_a − ω_b)/ω_c
	Kappa    float64 // signed coupling, SI; its modulus is what matters
	Exchange float64 // fraction of the rig's energy that this triad alone moves within the time
}

// Triads are the triads within 20 % of resonance.
type Triads struct {
	Count int
	List  [MaxTriads]Triad
	Worst int // the one with the largest exchange, then coupling; −1 if none
}

// release is what a start from rest gives to the modes.
type release struct {
	b      [Max]float64 // √(ω/2) q, signed, small ones raised to the seed
	action [Max]float64 // I = b²
	energy float64      // Σ ω I
}

// seedShare is the least amplitude given to a mode, as a share of the largest:
// no hand releases a rig cleaner.
const seedShare = 0.01

// TriadsTo fills t for the release phi (deviations from rest, rad, speeds
// zero) over time T (s). About rest the cubic part of the Lagrangian is
//
//	L₃ = Σ_{i≺j} A_ij (φⱼ − φᵢ) φ̇ᵢ φ̇ⱼ
//
// and its average over a triad's phases gives Λ and κ, derived in
// coupling below. The exchange is the exact solution of the averaged
// equations of one triad (elliptic functions), the others left out.
func (f *Forest) TriadsTo(t *Triads, m *Modes, r *Rest, phi *[Max]float64, T float64) {
	n := f.N
	t.Count, t.Worst = 0, -1
	started := false
	var start release
	for c := n - 1; c > 0; c-- {
		for a := 0; a < c; a++ {
			for b := a; b < c; b++ {
				sigma := m.Omega[c] - m.Omega[a] - m.Omega[b]
				if math.Abs(sigma) > nearResonance*m.Omega[c] {
					continue
				}
				if !started {
					f.releaseTo(&start, m, r, phi)
					started = true
				}
				x := &t.List[t.Count]
				x.A, x.B, x.C, x.Detuning = a, b, c, sigma/m.Omega[c]
				x.Kappa = f.coupling(m, r, a, b, c)
				x.Exchange = exchange(&start, m, x, sigma, T)
				if t.Worst < 0 || t.worse(x) {
					t.Worst = t.Count
				}
				t.Count++
			}
		}
	}
}

func (t *Triads) worse(x *Triad) bool {
	w := &t.List[t.Worst]
	if x.Exchange != w.Exchange {
		return x.Exchange > w.Exchange
	}
	return math.Abs(x.Kappa) > math.Abs(w.Kappa)
}

// releaseTo projects a start from rest on the modes: q = Vᵀ M φ = U ᵀK^½ φ/ω.
func (f *Forest) releaseTo(s *release, m *Modes, r *Rest, phi *[Max]float64) {
	n := f.N
	var x [Max]float64
	for i := 0; i < n; i++ {
		x[i] = math.Sqrt(r.G*r.S[i]) * phi[i]
	}
	largest := 0.0
	for k := 0; k < n; k++ {
		q := 0.0
		for i := 0; i < n; i++ {
			q += m.U[i][k] * x[i]
		}
		s.b[k] = q / math.Sqrt(2*m.Omega[k])
		largest = max(largest, math.Abs(s.b[k]))
	}
	s.energy = 0
	for k := 0; k < n; k++ {
		if math.Abs(s.b[k]) < seedShare*largest {
			s.b[k] = math.Copysign(seedShare*largest, s.b[k])
		}
		s.action[k] = s.b[k] * s.b[k]
		s.energy += m.Omega[k] * s.action[k]
	}
}

// coupling is κ. In modal coordinates L₃ = Σ Γ_{p;qr} q_p q̇_q q̇_r with
// Γ_{p;qr} = Σ_{i≺j} A_ij (v_jp − v_ip) v_iq v_jr; with
// Γ̂_{p;qr} = Γ_{p;qr} + Γ_{p;rq} the averaged L₃ is ¼ A_a A_b A_c cos ψ Λ,
//
//	Λ_abc = ω_b ω_c Γ̂_{a;bc} + ω_a ω_c Γ̂_{b;ac} − ω_a ω_b Γ̂_{c;ab}   (a ≠ b)
//	Λ_aac = ω_a ω_c Γ̂_{a;ac} − ω_a² Γ_{c;aa}                         (2:1)
//
// and κ = Λ/√(2 ω_a ω_b ω_c), or Λ √(2/ω_c)/(2 ω_a) for 2:1, so that
// H = σ I_c + κ √(I_a I_b I_c) cos ψ, or σ I_c + κ I_a √I_c cos ψ
// (method: Nayfeh and Mook, Nonlinear Oscillations, 1979, chapter 6).
func (f *Forest) coupling(m *Modes, r *Rest, a, b, c int) float64 {
	wa, wb, wc := m.Omega[a], m.Omega[b], m.Omega[c]
	sum := 0.0
	for p := range f.Pairs {
		x := r.A[p]
		if x == 0 {
			continue
		}
		i, j := f.Pairs[p].I, f.Pairs[p].J
		vi, vj := &m.V[i], &m.V[j]
		bc := vi[b]*vj[c] + vi[c]*vj[b]
		ac := vi[a]*vj[c] + vi[c]*vj[a]
		ab := vi[a]*vj[b] + vi[b]*vj[a]
		sum += x * (wb*wc*(vj[a]-vi[a])*bc + wa*wc*(vj[b]-vi[b])*ac - wa*wb*(vj[c]-vi[c])*ab)
	}
	if a == b {
		// Each term above is twice its own in Λ_aac: Γ̂_{a;ac} stands twice, Γ̂_{c;aa} is 2 Γ_{c;aa}.
		return 0.5 * sum * math.Sqrt(2/wc) / (2 * wa)
	}
	return sum / math.Sqrt(2*wa*wb*wc)
}

// exchange is the share of the energy that the triad moves within T when it is
// released from rest: I_c runs between two roots of the cubic P(I) with
// İ² = P, as an elliptic function of time.
func exchange(s *release, m *Modes, t *Triad, sigma, T float64) float64 {
	k2 := t.Kappa * t.Kappa
	if k2 == 0 || s.energy == 0 {
		return 0
	}
	start := s.action[t.C]
	cos := 1.0
	if t.Kappa*s.b[t.A]*s.b[t.B]*s.b[t.C] > 0 {
		cos = -1
	}
	kc := math.Abs(t.Kappa) * cos
	var c3, c2, c1 float64
	if t.A == t.B {
		ia := s.action[t.A]
		j := ia + 2*start
		h := sigma*start + kc*ia*math.Sqrt(start)
		c3, c2, c1 = 4*k2, -4*j*k2-sigma*sigma, k2*j*j+2*h*sigma
	} else {
		ia, ib := s.action[t.A], s.action[t.B]
		j1, j2 := ia+start, ib+start
		h := sigma*start + kc*math.Sqrt(ia*ib*start)
		c3, c2, c1 = k2, -k2*(j1+j2)-sigma*sigma, k2*j1*j2+2*h*sigma
	}
	// start is a root: what is left is c3 I² + q1 I + q0.
	q1 := c2 + c3*start
	q0 := c1 + start*q1
	lo, hi := quadraticRoots(c3, q1, q0)
	return m.Omega[t.C] * swept(start, lo, hi, c3, T) / s.energy
}

// quadraticRoots returns the roots of a x² + b x + c, a > 0, lesser first; a
// slightly negative discriminant, which only rounding makes, counts as nought.
func quadraticRoots(a, b, c float64) (lo, hi float64) {
	root := math.Sqrt(max(0, b*b-4*a*c))
	q := -0.5 * (b + math.Copysign(root, b))
	if q == 0 {
		return 0, 0
	}
	lo, hi = q/a, c/q
	if lo > hi {
		lo, hi = hi, lo
	}
	return lo, hi
}

// swept is how far I moves within T from its start at one turning point; lo
// and hi are the two other roots of P, lead its leading coefficient. With
// r1 ≤ r2 ≤ r3, m = (r2−r1)/(r3−r1) and s = ½√(lead (r3−r1)), it is
// (r2−r1) sn²(sT|m) from r1 and (r2−r1)(1 − cd²(sT|m)) from r2.
func swept(start, lo, hi, lead, T float64) float64 {
	r1, r2, r3 := lo, start, hi // from r2
	fromLow := start <= lo
	if fromLow {
		r1, r2 = start, lo
	} else if start > hi {
		r2, r3 = hi, start // only when two roots meet
	}
	width, span := r2-r1, r3-r1
	if !(width > 0) || !(span > 0) {
		return 0
	}
	m := width / span
	u := 0.5 * math.Sqrt(lead*span) * T
	if u >= completeK(m) {
		return width
	}
	sn2, dn2 := jacobi(u, m)
	if fromLow {
		return width * sn2
	}
	// 1 − cd² = (1−m) sn²/dn²
	return width * (1 - m) * sn2 / dn2
}
