package motion

import "math"

// normalForm is the Hamiltonian of one candidate, without losses, up to fourth
// order in the amplitudes and freed of every term that turns fast.
//
// In the modes, q = VᵀMφ with momenta p, the potential has no cubic term and
//
//	H₂ = ½ Σ (p_k² + ω_k² q_k²)
//	H₃ = −½ pᵀ M₁ p
//	H₄ = ½ pᵀ (M₁² − M₂) p − (g/24) Σ_i S_i φ_i⁴
//
// where the mass matrix is 1 + M₁(q) + M₂(q) + ...,
//
//	M₁_bc = Σ_a G_{a;bc} q_a,  G_{a;bc} = Σ_{i≺j} A (v_ja − v_ia)(v_ib v_jc + v_jb v_ic)
//	M₂_bc = Σ_ad Σ_{i≺j} ½B (v_ja − v_ia)(v_jd − v_id)(v_ib v_jc + v_jb v_ic) q_a q_d.
//
// The amplitudes are z_k = √(ω_k/2) q_k − i p_k/√(2ω_k), with ż_k = i ∂H/∂z̄_k;
// with σ = −1 for a conjugate and 1 otherwise,
//
//	q_k = ρ_k (z_k + z̄_k),  p_k = iπ_k (z_k − z̄_k),  ρ = 1/√(2ω),  π = √(ω/2),
//
// so that every coefficient below is real and symmetric. A Lie transform whose
// generator χ takes away what of H₃ is not resonant (releasemap.go) leaves
//
//	Z = Σ ω_k |z_k|² + Z₃ + Z₄,  Z₄ = resonant part of H₄ + ½{H₃, χ},
//
// Z₃ the resonant part of H₃, of which {Z₃, χ} has none (method: Nayfeh and Mook, Nonlinear Oscillations, 1979; the coefficients are
// derived in the files cubic.go and quartic.go). Frames turning as in lattice
// make Z independent of time: slowflow.go.
type normalForm struct {
	n        int
	omega    [Max]float64
	rho, pi  [Max]float64
	lattice  lattice
	products products
	geometry geometry
	cubic    cubic
	quartic  quartic
}

// geometry is what the expansion needs of the pairs i ≺ j, by Forest.Pairs.
type geometry struct {
	pairs  int
	n      int // modes
	bodies int
	a, b   [MaxPairs]float64              // A and B of Rest
	apart  [MaxPairs][Max]float64         // ρ_a (v_ja − v_ia)
	both   [MaxPairs][maxProducts]float64 // π_bπ_c (v_ib v_jc + v_jb v_ic)
	weight [Max]float64                   // g S_i by body
	square [Max][maxProducts]float64      // ρ_bρ_c v_ib v_ic by body
}

// expand fills nf for the rest pose r of f, its modes m and bands b.
func (nf *normalForm) expand(f *Forest, r *Rest, m *Modes, b *Bands) {
	nf.n = m.N
	for k := 0; k < nf.n; k++ {
		nf.omega[k] = m.Omega[k]
		nf.rho[k] = 1 / math.Sqrt(2*m.Omega[k])
		nf.pi[k] = math.Sqrt(m.Omega[k] / 2)
	}
	nf.lattice.lay(b)
	nf.products.list(&nf.lattice, nf.n)
	nf.survey(f, r, m)
	nf.thirdOrder()
	nf.fourthOrder()
}

// survey fills the geometry.
func (nf *normalForm) survey(f *Forest, r *Rest, m *Modes) {
	g, p := &nf.geometry, &nf.products
	g.pairs, g.n, g.bodies = len(f.Pairs), nf.n, f.N
	for x := range f.Pairs {
		vi, vj := &m.V[f.Pairs[x].I], &m.V[f.Pairs[x].J]
		g.a[x], g.b[x] = r.A[x], r.B[x]
		for k := 0; k < nf.n; k++ {
			g.apart[x][k] = nf.rho[k] * (vj[k] - vi[k])
		}
		for i := 0; i < p.count; i++ {
			k, l := p.first[i]&7, p.second[i]&7
			g.both[x][i] = nf.pi[k] * nf.pi[l] * (vi[k]*vj[l] + vj[k]*vi[l])
		}
	}
	for at := 0; at < f.N; at++ {
		g.weight[at] = r.G * r.S[at]
		for i := 0; i < p.count; i++ {
			k, l := p.first[i]&7, p.second[i]&7
			g.square[at][i] = nf.rho[k] * nf.rho[l] * m.V[at][k] * m.V[at][l]
		}
	}
}
