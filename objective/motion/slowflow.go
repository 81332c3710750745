package motion

// amplitudes are the slow amplitudes a_k of z_k = a_k e^(i frame_k t), real and
// imaginary part of mode k at 2k and 2k+1.
type amplitudes [2 * Max]float64

// slowFlow is how the amplitudes change:
//
//	ȧ_k = i ((ω_k − frame_k) a_k + ∂Z/∂ā_k) − Σ_l slow_kl a_l,
//
// Z the third and fourth order of the normal form and slow the damping. It is
// autonomous: what is resonant does not turn in the frames.
type slowFlow struct {
	normalForm
	damping damping
	detune  [Max]float64            // ω_k − frame_k, rad/s
	product [maxProducts][2]float64 // a_k a_l; scratch
	pull    [maxProducts][2]float64 // ∂Z by the conjugates of the products; scratch
}

// fill works the flow out for the rest pose r of f, its modes m, bands b and
// the dampers of l.
func (s *slowFlow) fill(f *Forest, r *Rest, m *Modes, b *Bands, l *Losses) {
	s.expand(f, r, m, b)
	s.damping.fill(&s.normalForm, f, m, l)
	for k := 0; k < s.n; k++ {
		s.detune[k] = s.omega[k] - s.lattice.frame[k]
	}
}

// rateTo fills d with ȧ at a.
func (s *slowFlow) rateTo(d, a *amplitudes) {
	var g amplitudes // (ω − frame) a + ∂Z/∂ā
	for k := 0; k < s.n; k++ {
		g[2*k&15], g[(2*k+1)&15] = s.detune[k&7]*a[2*k&15], s.detune[k&7]*a[(2*k+1)&15]
	}
	s.multiply(a)
	s.weigh()
	s.meet(&g, a)
	s.spread(&g, a)
	for i := range s.quartic.cube[:s.quartic.cubes] {
		s.quartic.cube[i].add(&g, a)
	}
	for k := 0; k < s.n; k++ {
		d[2*k&15], d[(2*k+1)&15] = -g[(2*k+1)&15], g[2*k&15]
	}
	if s.damping.any {
		s.damping.lose(d, a, s.n)
	}
}

// multiply fills the products.
func (s *slowFlow) multiply(a *amplitudes) {
	p := &s.products
	for i := 0; i < p.count; i++ {
		k, l := 2*p.first[i], 2*p.second[i]
		kr, ki, lr, li := a[k&15], a[(k+1)&15], a[l&15], a[(l+1)&15]
		s.product[i] = [2]float64{kr*lr - ki*li, kr*li + ki*lr}
	}
}

// weigh fills pull with Σ_i weight_ij P_i.
func (s *slowFlow) weigh() {
	q := &s.quartic
	for _, b := range q.block[:q.blocks] {
		p := s.product[b.From:b.To]
		for j := b.From; j < b.To; j++ {
			w := q.weight[j][b.From:b.To]
			x, y := 0.0, 0.0
			for i := range w {
				x += w[i] * p[i][0]
				y += w[i] * p[i][1]
			}
			s.pull[j] = [2]float64{x, y}
		}
	}
}

// meet adds the triads to g and pull.
func (s *slowFlow) meet(g, a *amplitudes) {
	c := &s.cubic
	for i := range c.triad[:c.triads] {
		t := &c.triad[i]
		k := 2 * t.Mode
		p, q := &s.product[t.Product], &s.pull[t.Product]
		g[k&15] += t.Of * p[0]
		g[(k+1)&15] += t.Of * p[1]
		q[0] += t.Of * a[k&15]
		q[1] += t.Of * a[(k+1)&15]
	}
}

// spread adds to g what pull gives to the factors of each product.
func (s *slowFlow) spread(g, a *amplitudes) {
	p := &s.products
	for i := 0; i < p.count; i++ {
		k, l := 2*p.first[i], 2*p.second[i]
		x, y := s.pull[i][0], s.pull[i][1]
		kr, ki, lr, li := a[k&15], a[(k+1)&15], a[l&15], a[(l+1)&15]
		g[k&15] += lr*x + li*y
		g[(k+1)&15] += lr*y - li*x
		g[l&15] += kr*x + ki*y
		g[(l+1)&15] += kr*y - ki*x
	}
}

// add adds one cube to g: its derivatives by ā_o and by ā_k, ā_l, ā_m.
func (t *cubeTerm) add(g, a *amplitudes) {
	at := func(k int) complex128 { return complex(a[2*k&15], a[(2*k+1)&15]) }
	bar := func(k int) complex128 { return complex(a[2*k&15], -a[(2*k+1)&15]) }
	add := func(k int, v complex128) {
		g[2*k&15] += t.Of * real(v)
		g[(2*k+1)&15] += t.Of * imag(v)
	}
	o := at(t.O)
	ko := bar(t.K) * o
	add(t.O, at(t.K)*at(t.L)*at(t.M))
	add(t.K, bar(t.L)*bar(t.M)*o)
	add(t.L, bar(t.M)*ko)
	add(t.M, bar(t.L)*ko)
}
