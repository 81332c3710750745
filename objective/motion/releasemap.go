package motion

// releaseMap takes a release from rest to the amplitudes of the normal form:
// the flow dz_k/ds = ½ Σ c_{k̄βγ} x_β x_γ of the generator, from s = 0 to −1.
//
// From rest z is real, c is, and so z stays real: over the products ab,
//
//	dz_k/ds = Σ of_{k;ab} z_a z_b,  of = ½·(2 if a ≠ b)·(c_{abk̄} − c_{kab̄} − c_{kbā} − c_{abk}).
type releaseMap struct {
	n, count      int
	first, second [maxProducts]int
	of            [Max][maxProducts]float64
	project       [Max][Max]float64 // √(ω_k/2) VᵀM by mode and body
}

// fill works the map out; m and r are those of nf.
func (l *releaseMap) fill(nf *normalForm, r *Rest, m *Modes) {
	p, c := &nf.products, &nf.cubic
	l.n, l.count = nf.n, p.count
	l.first, l.second = p.first, p.second
	for k := 0; k < nf.n; k++ {
		for i := 0; i < p.count; i++ {
			a, b := p.first[i]&7, p.second[i]&7
			s := c.cOff[i][k] - c.cTurn[k][b][a] - c.cTurn[k][a][b] - c.cSum[i][k]
			l.of[k][i] = 0.5 * p.twice(i) * s
		}
		// VᵀM = Ω⁻² VᵀK, and K is diagonal.
		scale := nf.pi[k] / (nf.omega[k] * nf.omega[k])
		for at := 0; at < nf.n; at++ {
			l.project[k][at] = scale * m.V[at][k] * r.G * r.S[at]
		}
	}
}

// linearTo fills z with √(ω/2) q of the release from (deviations from rest,
// rad, by pendulum).
func (l *releaseMap) linearTo(z, from *[Max]float64) {
	for k := 0; k < l.n; k++ {
		s := 0.0
		for at := 0; at < l.n; at++ {
			s += l.project[k][at] * from[at]
		}
		z[k] = s
	}
}

// startTo fills a with the amplitudes that z, of linearTo, begins with.
func (l *releaseMap) startTo(a *amplitudes, z *[Max]float64, d *damping) {
	bent := *z
	l.apply(&bent)
	for k := 0; k < l.n; k++ {
		lag := 0.0
		for o := 0; o < l.n; o++ {
			lag += d.lag[k][o] * z[o]
		}
		a[2*k], a[2*k+1] = bent[k], -lag
	}
}

// apply turns z into amplitudes of the normal form by one Runge-Kutta step of
// order four: the flow is short, and what it leaves out is of fourth order in z
// itself.
func (l *releaseMap) apply(z *[Max]float64) {
	const s = -1.0
	var k1, k2, k3, k4, t [Max]float64
	l.slope(&k1, z)
	l.ahead(&t, z, &k1, s/2)
	l.slope(&k2, &t)
	l.ahead(&t, z, &k2, s/2)
	l.slope(&k3, &t)
	l.ahead(&t, z, &k3, s)
	l.slope(&k4, &t)
	for k := 0; k < l.n; k++ {
		z[k] += s / 6 * (k1[k] + 2*k2[k] + 2*k3[k] + k4[k])
	}
}

// slope fills dz with dz/ds at z.
func (l *releaseMap) slope(dz, z *[Max]float64) {
	var product [maxProducts]float64
	for i := 0; i < l.count; i++ {
		product[i] = z[l.first[i]&7] * z[l.second[i]&7]
	}
	for k := 0; k < l.n; k++ {
		s, of := 0.0, &l.of[k&7]
		for i := 0; i < l.count; i++ {
			s += of[i] * product[i]
		}
		dz[k&7] = s
	}
}

// ahead fills t with z + s·k.
func (l *releaseMap) ahead(t, z, k *[Max]float64, s float64) {
	for i := 0; i < l.n; i++ {
		t[i&7] = z[i&7] + s*k[i&7]
	}
}
