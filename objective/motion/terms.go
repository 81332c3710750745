package motion

// Term is one cause of change in an averaged motion: a resonant coupling of
// modes, or the dampers.
type Term struct {
	Kind  TermKind
	Modes [4]int // as Kind says, the others −1
}

// TermKind tells what a term does.
type TermKind uint8

// The kinds of term.
const (
	Driving     TermKind = iota // 0 and 1 (which may be one mode) drive 2 and are driven by it: ω₀ + ω₁ ≈ ω₂
	OwnShift                    // the swing of 0 shifts its own frequency
	OtherShift                  // the swings of 0 and 1 shift one another's frequencies
	Trading                     // 0 and 1 trade energy with 2 and 3 at fourth order
	Trebling                    // 0, 1 and 2 trade energy with 3: ω₀ + ω₁ + ω₂ ≈ ω₃
	Decaying                    // the dampers
	AllCoupling                 // all of these but the dampers: what is left is linear
)

// none stands where a term has no further mode.
const none = -1

// TermsTo appends to dst the terms of a that are not nought, couplings first, in
// a fixed order; AllCoupling, which is their sum, is not among them.
func (a *Averaged) TermsTo(dst []Term) []Term {
	s := &a.flow
	for _, t := range s.cubic.triad[:s.cubic.triads] {
		if t.Of != 0 {
			dst = append(dst, Term{Driving, [4]int{s.products.first[t.Product], s.products.second[t.Product], t.Mode, none}})
		}
	}
	for _, b := range s.quartic.block[:s.quartic.blocks] {
		for i := b.From; i < b.To; i++ {
			for j := b.From; j <= i; j++ {
				if s.quartic.weight[i][j] != 0 {
					dst = append(dst, s.products.term(i, j))
				}
			}
		}
	}
	for _, t := range s.quartic.cube[:s.quartic.cubes] {
		if t.Of != 0 {
			dst = append(dst, Term{Trebling, [4]int{t.K, t.L, t.M, t.O}})
		}
	}
	if s.damping.any {
		dst = append(dst, Term{Decaying, [4]int{none, none, none, none}})
	}
	return dst
}

// term is what the products i and j of one block do to one another.
func (p *products) term(i, j int) Term {
	k, l := p.first[i], p.second[i]
	switch {
	case i != j:
		return Term{Trading, [4]int{p.first[j], p.second[j], k, l}}
	case k == l:
		return Term{OwnShift, [4]int{k, none, none, none}}
	}
	return Term{OtherShift, [4]int{k, l, none, none}}
}

// WithoutTo is MeasureTo with one term switched off, which is put back after.
func (a *Averaged) WithoutTo(dst *Measures, t Term, from *[Max]float64, until float64) Doubt {
	saved := a.flow
	a.flow.switchOff(t)
	doubt := a.MeasureTo(dst, from, until)
	a.flow = saved
	return doubt
}

// switchOff makes a term nought.
func (s *slowFlow) switchOff(t Term) {
	m, p, q := t.Modes, &s.products, &s.quartic
	switch t.Kind {
	case Driving:
		for i := range s.cubic.triad[:s.cubic.triads] {
			if x := &s.cubic.triad[i]; x.Product == p.at[m[0]][m[1]] && x.Mode == m[2] {
				x.Of = 0
			}
		}
	case OwnShift:
		i := p.at[m[0]][m[0]]
		q.weight[i][i] = 0
	case OtherShift:
		i := p.at[m[0]][m[1]]
		q.weight[i][i] = 0
	case Trading:
		i, j := p.at[m[0]][m[1]], p.at[m[2]][m[3]]
		q.weight[i][j], q.weight[j][i] = 0, 0
	case Trebling:
		for i := range q.cube[:q.cubes] {
			if x := &q.cube[i]; [4]int{x.K, x.L, x.M, x.O} == m {
				x.Of = 0
			}
		}
	case Decaying:
		s.damping.any = false
	case AllCoupling:
		s.cubic.triads, q.blocks, q.cubes = 0, 0, 0
		s.pull = [maxProducts][2]float64{}
	}
}
