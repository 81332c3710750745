package motion

// cubic is the third order of the Hamiltonian, H₃ = ⅙ Σ h_{αβγ} x_α x_β x_γ
// over x = (z, z̄).
//
// With g_{a;bc} = G_{a;bc} ρ_aπ_bπ_c,
//
//	h_{abc} = g_{a;bc} + g_{b;ac} + g_{c;ab},  h_{abc̄} = g_{c;ab} − g_{a;bc} − g_{b;ac};
//
// conjugating all three changes nothing. The generator has c = h/λ, λ the sum
// of σω, where the term is not resonant and 0 where it is; conjugating all
// three changes its sign. A sum of three frequencies never is resonant.
//
// Arrays by product i = (a, b) and mode c: Sum is abc, Off is abc̄. A resonant
// Off makes the triad term h (z_a z_b z̄_c + conjugate), half of it where a = b,
// so that Triad.Kappa is 2h, or h where a = b.
type cubic struct {
	g            [Max][maxProducts]float64 // g_{a;bc}
	shear        [Max][Max][Max]float64    // g_{a;ce}/π_e by a, c, e
	hSum, cSum   [maxProducts][Max]float64
	hOff, cOff   [maxProducts][Max]float64
	hTurn, cTurn [Max][Max][Max]float64 // of kjm̄ by k, m, j
	triads       int
	triad        [maxTriadTerms]triadTerm
}

// triadTerm is a resonant term of Z₃: Of (z_a z_b z̄_c + its conjugate), for the
// product z_a z_b.
type triadTerm struct {
	Product, Mode int
	Of            float64
}

// maxTriadTerms bounds the resonant terms abc̄: each product with every mode
// but the two in it.
const maxTriadTerms = maxProducts * (Max - 1)

// thirdOrder fills nf.cubic.
func (nf *normalForm) thirdOrder() {
	nf.stretch()
	c, p := &nf.cubic, &nf.products
	c.triads = 0
	for i := 0; i < p.count; i++ {
		a, b := p.first[i]&7, p.second[i]&7
		for k := 0; k < nf.n; k++ {
			own := c.g[k][i]
			others := c.g[a][p.at[b][k]] + c.g[b][p.at[a][k]]
			w := nf.omega[a] + nf.omega[b]
			c.hSum[i][k] = own + others
			c.cSum[i][k] = (own + others) / (w + nf.omega[k])
			h, over := own-others, 0.0
			if p.number[i] == nf.lattice.number[k] {
				c.triad[c.triads] = triadTerm{i, k, 0.5 * p.twice(i) * h}
				c.triads++
			} else {
				over = h / (w - nf.omega[k])
			}
			c.hOff[i][k], c.cOff[i][k] = h, over
			c.hTurn[a][k][b], c.hTurn[b][k][a] = h, h
			c.cTurn[a][k][b], c.cTurn[b][k][a] = over, over
		}
	}
}

// stretch fills g and shear.
func (nf *normalForm) stretch() {
	c, p, q := &nf.cubic, &nf.products, &nf.geometry
	for a := 0; a < nf.n; a++ {
		g := c.g[a][:p.count]
		clear(g)
		for x := 0; x < q.pairs; x++ {
			s := q.a[x] * q.apart[x][a]
			both := q.both[x][:len(g)]
			for i := range g {
				g[i] += s * both[i]
			}
		}
		for i := range g {
			k, l := p.first[i]&7, p.second[i]&7
			c.shear[a][k][l] = g[i] / nf.pi[l]
			c.shear[a][l][k] = g[i] / nf.pi[k]
		}
	}
}
