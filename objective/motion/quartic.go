package motion

// quartic is the resonant fourth order, Z₄ = (1/24) Σ w_{αβγδ} x_α x_β x_γ x_δ
// of two amplitudes and two conjugates, or of three against one. With
//
//	W_{ab;cd} = (½ Σ_e (G_{a;ce} G_{b;ed} + G_{b;ce} G_{a;ed}) − M₂_{ab;cd}) ρ_aρ_bπ_cπ_d,
//
// the kinetic part of w is −2 Σ σ_cσ_d W_{ab;cd} over the six choices of the
// two factors ab taken for q, the potential part −g Σ_i S_i v_iα v_iβ v_iγ v_iδ
// ρρρρ, and the part of second order in H₃, over the six ordered splits
// (βγ|δε) of the four factors,
//
//	½ Σ Σ_k (h_{βγk} c_{δεk̄} − h_{βγk̄} c_{δεk}).
type quartic struct {
	kinetic [maxProducts][maxProducts]float64 // W by the products of ab and cd
	blocks  int
	block   [maxProducts]block
	weight  [maxProducts][maxProducts]float64 // by products that share a block, symmetric
	cubes   int
	cube    [maxCubes]cubeTerm
}

// block is a run of products of the same number: Z₄ has the terms
// Σ weight_ij P_i P̄_j over its products P.
type block struct{ From, To int }

// cubeTerm is a term Of (a_k a_l a_m ā_o + its conjugate), k ≤ l ≤ m, that
// 3:1 and the like make resonant.
type cubeTerm struct {
	K, L, M, O int
	Of         float64
}

// maxCubes bounds the terms klmō: Max(Max+1)(Max+2)/6 cubes with every mode
// that is in none of their factors' places.
const maxCubes = Max * (Max + 1) * (Max + 2) / 6 * (Max - 1)

// fourthOrder fills nf.quartic.
func (nf *normalForm) fourthOrder() {
	nf.kinetic()
	p, q := &nf.products, &nf.quartic
	q.blocks, q.cubes = 0, 0
	for from := 0; from < p.count; {
		to := from + 1
		for to < p.count && p.number[to] == p.number[from] {
			to++
		}
		for i := from; i < to; i++ {
			for j := from; j <= i; j++ {
				w := 0.25 * p.twice(i) * p.twice(j) * nf.twoAndTwo(i, j)
				q.weight[i][j], q.weight[j][i] = w, w
			}
		}
		q.block[q.blocks] = block{from, to}
		q.blocks++
		from = to
	}
	nf.listCubes()
}

// kinetic fills W.
func (nf *normalForm) kinetic() {
	p, g := &nf.products, &nf.geometry
	for i := 0; i < p.count; i++ {
		a, b := &nf.cubic.shear[p.first[i]&7], &nf.cubic.shear[p.second[i]&7]
		row := nf.quartic.kinetic[i][:p.count]
		for j := range row {
			c, d := p.first[j]&7, p.second[j]&7
			s := 0.0
			for e := 0; e < nf.n; e++ {
				s += a[c][e&7]*b[d][e&7] + b[c][e&7]*a[d][e&7]
			}
			row[j] = 0.5 * s
		}
		for x := 0; x < g.pairs; x++ {
			s := 0.5 * g.b[x] * g.apart[x][p.first[i]&7] * g.apart[x][p.second[i]&7]
			both := g.both[x][:len(row)]
			for j := range row {
				row[j] -= s * both[j]
			}
		}
	}
}

// twoAndTwo is w of klm̄ō, i being the product of k and l, j that of m and o.
func (nf *normalForm) twoAndTwo(i, j int) float64 {
	p, w := &nf.products, &nf.quartic.kinetic
	k, l, m, o := p.first[i]&7, p.second[i]&7, p.first[j]&7, p.second[j]&7
	km, lo, ko, lm := p.at[k][m], p.at[l][o], p.at[k][o], p.at[l][m]
	kinetic := w[i][j] + w[j][i] - w[km][lo] - w[lo][km] - w[ko][lm] - w[lm][ko]
	second := nf.straight(i, j) - nf.crossed(k, m, l, o) - nf.crossed(k, o, l, m)
	return -2*kinetic - nf.potential(i, j) + 0.5*second
}

// potential is Σ_i g S_i v v v v ρρρρ of two products.
func (nf *normalForm) potential(i, j int) float64 {
	g, s := &nf.geometry, 0.0
	for at := 0; at < g.bodies; at++ {
		s += g.weight[at&7] * g.square[at&7][i] * g.square[at&7][j]
	}
	return s
}

// straight is the second-order sum of the splits (kl|m̄ō) and (m̄ō|kl).
func (nf *normalForm) straight(i, j int) float64 {
	c, s := &nf.cubic, 0.0
	ui, uj, ci, cj := &c.hOff[i], &c.hOff[j], &c.cOff[i], &c.cOff[j]
	vi, vj, di, dj := &c.hSum[i], &c.hSum[j], &c.cSum[i], &c.cSum[j]
	for e := 0; e < nf.n; e++ {
		s += ui[e&7]*cj[e&7] + uj[e&7]*ci[e&7] - vi[e&7]*dj[e&7] - vj[e&7]*di[e&7]
	}
	return s
}

// crossed is, its sign turned, that of the splits (km̄|lō) and (lō|km̄).
func (nf *normalForm) crossed(k, m, l, o int) float64 {
	u, c, s := &nf.cubic.hTurn, &nf.cubic.cTurn, 0.0
	uk, ck, um, cm := &u[k][m], &c[k][m], &u[m][k], &c[m][k]
	ul, cl, uo, co := &u[l][o], &c[l][o], &u[o][l], &c[o][l]
	for e := 0; e < nf.n; e++ {
		s += uk[e&7]*co[e&7] + um[e&7]*cl[e&7] + ul[e&7]*cm[e&7] + uo[e&7]*ck[e&7]
	}
	return s
}

// listCubes fills the terms of three against one.
func (nf *normalForm) listCubes() {
	p, q, t := &nf.products, &nf.quartic, &nf.lattice
	for k := 0; k < nf.n; k++ {
		for l := k; l < nf.n; l++ {
			for m := l; m < nf.n; m++ {
				number := t.number[k] + t.number[l] + t.number[m]
				for o := 0; o < nf.n; o++ {
					if t.number[o] == number {
						of := p.sixth(k, l, m) * nf.threeAndOne(k, l, m, o)
						q.cube[q.cubes] = cubeTerm{k, l, m, o, of}
						q.cubes++
					}
				}
			}
		}
	}
}

// sixth is a sixth of how often klm stands in a sum over all three.
func (p *products) sixth(k, l, m int) float64 {
	switch {
	case k == m:
		return 1.0 / 6
	case k == l || l == m:
		return 0.5
	}
	return 1
}

// threeAndOne is w of klmō.
func (nf *normalForm) threeAndOne(k, l, m, o int) float64 {
	p, w := &nf.products, &nf.quartic.kinetic
	kl, km, lm, ko, lo, mo := p.at[k][l], p.at[k][m], p.at[l][m], p.at[k][o], p.at[l][o], p.at[m][o]
	kinetic := w[ko][lm] + w[lo][km] + w[mo][kl] - w[kl][mo] - w[km][lo] - w[lm][ko]
	second := nf.bent(kl, m, o) + nf.bent(km, l, o) + nf.bent(lm, k, o)
	return -2*kinetic - nf.potential(kl, mo) + 0.5*second
}

// bent is the second-order sum of the splits (kl|mō) and (mō|kl), i = (k, l).
func (nf *normalForm) bent(i, m, o int) float64 {
	c, s := &nf.cubic, 0.0
	uo, co, um, cm := &c.hTurn[o][m], &c.cTurn[o][m], &c.hTurn[m][o], &c.cTurn[m][o]
	for e := 0; e < nf.n; e++ {
		s += um[e]*c.cOff[i][e] - c.hOff[i][e]*cm[e] - c.hSum[i][e]*co[e] - uo[e]*c.cSum[i][e]
	}
	return s
}
