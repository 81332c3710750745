package build

// span is a piece of a beam between two neighbouring places at which something
// changes: where it is held, a joint, an end of a void, its own end. What lies
// beyond it is summed once and serves the sag, the springing and the strength.
//
// Inside a span the wood is the same all along, so that in case 0 and in the modes
// the shear is a square and the moment a cube of the place at most: its ends tell
// its middle (span.middle).
type span struct {
	inner, outer float64 // m along the beam; inner is nearer to where it is held
	wood         float64 // its own mass, kg
	hung         uint8   // pendulums that hang at its outer end or beyond
	near, far    ending  // just beyond inner, without its joints; at outer, with its joints
	whole        bool    // some wood is left of its section
	ei, ga       float64 // stiffness in bending (N m²) and in shear (N)
}

// ending is what lies beyond an end of a span: moments on the beam's own axes,
// along it and across it from the pivot, and the inner force of every case.
type ending struct {
	mo    moments
	force [maxCases]inner
}

// inner is axial force, shear and moment of one case, signed as those of Forces.
type inner struct{ n, v, m float64 }

// arms are the ways out of a beam's support.
var arms = [2]side{toEnd, toStart}

// arm is the spans of beam b on one side of its support, from there outward.
func (w *Workspace) arm(b int, way side) []span {
	beam := &w.beams[b]
	if way == toEnd {
		return w.spans[beam.spans[0]:beam.spans[1]]
	}
	return w.spans[beam.spans[1]:beam.spans[2]]
}

// cut lists the spans of all beams.
func (w *Workspace) cut() {
	w.spans = w.spans[:0]
	for b := range w.beams {
		beam := &w.beams[b]
		beam.spans[0] = len(w.spans)
		for k, way := range arms {
			w.cutArm(b, way)
			beam.spans[k+1] = len(w.spans)
			w.sumArm(b, way)
		}
	}
}

// cutArm appends the spans of one arm.
func (w *Workspace) cutArm(b int, way side) {
	beam := &w.beams[b]
	w.markArm(beam, b, way)
	at := 0.0
	for _, t := range w.marks {
		if t-at <= cutSlack {
			continue
		}
		w.spans = w.spans[:len(w.spans)+1]
		s := &w.spans[len(w.spans)-1]
		s.inner, s.outer = beam.support+float64(way)*at, beam.support+float64(way)*t
		at = t
		net, _, ok := w.sectionAt(b, (s.inner+s.outer)/2)
		if s.whole = ok; ok {
			stuff := &w.m.stuff[beam.bar.Of]
			s.ei, s.ga = stuff.e*net.I, stuff.g*net.A
		}
	}
}

// sumArm sums what lies beyond each span of an arm, from the tip inward.
func (w *Workspace) sumArm(b int, way side) {
	beam, list := &w.beams[b], w.arm(b, way)
	var mo moments
	hung := uint8(0)
	for k := len(list) - 1; k >= 0; k-- {
		s := &list[k]
		for e, past := w.seams[beam.Pendulum], w.seams[beam.Pendulum+1]; e < past; e++ {
			j := &w.joins[e]
			if j.beam != b || float64(way)*(j.at-s.outer) <= -cutSlack || k+1 < len(list) && float64(way)*(j.at-s.outer) > cutSlack {
				continue
			}
			own := beam.along(&j.mo)
			mo.add(&own)
			hung |= j.hung
		}
		s.far.mo, s.hung = mo, hung
		wood := beam.between(min(s.inner, s.outer), max(s.inner, s.outer))
		own := beam.along(&wood)
		mo.add(&own)
		s.wood, s.near.mo = own.m, mo
	}
}

// along turns moments to the beam's own axes.
func (b *beam) along(mo *moments) moments {
	return moments{mo.m, mo.x*b.u.X + mo.y*b.u.Y, mo.x*b.n.X + mo.y*b.n.Y, mo.j}
}

// strain works out the inner forces of cases from up to past at the ends of all
// spans.
func (w *Workspace) strain(from, past int) {
	for b := range w.beams {
		beam := &w.beams[b]
		for _, way := range arms {
			list := w.arm(b, way)
			for k := range list {
				s := &list[k]
				for c := from; c < past; c++ {
					e := beam.field(&w.swing.field[c][beam.Pendulum])
					load := w.hanging(c, beam, s.hung)
					s.near.force[c] = beam.feels(&e, &s.near.mo, &load, s.inner, way)
					s.far.force[c] = beam.feels(&e, &s.far.mo, &load, s.outer, way)
				}
			}
		}
	}
}

// field turns a field to the beam's own axes.
func (b *beam) field(e *field) field { return field{b.axes(e.f), e.turn, e.out} }

// hanging is the push of pendulums in case c on the beam's own axes.
func (w *Workspace) hanging(c int, b *beam, hung uint8) (sum push) {
	for j := 0; hung != 0; j, hung = j+1, hung>>1 {
		if hung&1 == 1 {
			p := &w.swing.push[c][j]
			sum.add(push{b.axes(p.f), p.t})
		}
	}
	return sum
}

// feels is the inner force at s of a field and a push on what lies beyond, all on
// the beam's own axes.
func (b *beam) feels(e *field, mo *moments, load *push, s float64, way side) inner {
	p := e.on(mo)
	p.add(*load)
	k := float64(way)
	return inner{k * p.f.X, k * p.f.Y, k * (p.t - (b.start.X+s)*p.f.Y + b.start.Y*p.f.X)}
}

// middle is the inner force of case 0 or of a mode half way along a span of wood
// that feels turn (field.turn): with V = V₀ … V₁ outward and h its length,
//
//	V½ = ½(V₀ + V₁) + ⅛ m turn h, M½ = ½(M₀ + M₁) ± ⅛ h (V₁ − V₀),
//
// the sign that of the way: M' = −V but for a constant, V' = −(m/h)(f + turn s).
// The axial force is left out.
func (s *span) middle(c int, turn float64) inner {
	a, b := &s.near.force[c], &s.far.force[c]
	h := s.outer - s.inner // signed: towards the beam's start it is negative
	return inner{0, (a.v+b.v)/2 + s.wood*turn*max(h, -h)/8, (a.m+b.m)/2 + h*(b.v-a.v)/8}
}
