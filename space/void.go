package space

import (
	"math"

	"evenswing/space/quantity"
)

// cut is a void while it is read.
type cut struct {
	kind                   VoidKind
	at                     position
	along, across, through number
}

// readVoids reads what is cut out of a bar.
func (r *reader) readVoids(s section, b *body, m beam, bar *Bar) {
	type kind struct {
		key  string
		read func(section, *body, beam, *Void) cut
		keys []string
	}
	type found struct {
		spot
		kind
	}
	var all []found
	for _, k := range []kind{
		{"recess", r.readRecess, recessKeys},
		{"mortise", r.readMortise, mortiseKeys},
		{"hole", r.readHole, holeKeys},
	} {
		if e, ok := s.at[k.key]; ok {
			for _, at := range r.list(e.spot) {
				all = append(all, found{at, k})
			}
		}
	}
	bar.Voids = make([]Void, len(all))
	var cuts []cut
	for i, f := range all {
		c := f.read(r.section(f.spot, f.keys), b, m, &bar.Voids[i])
		r.checkCut(f.spot, c, m)
		cuts = append(cuts, c)
	}
	for i := range all {
		for k := range i {
			r.checkApart(all[i].spot, cuts[k], cuts[i], m)
		}
	}
}

func (r *reader) readRecess(s section, b *body, m beam, v *Void) cut {
	c := r.beginCut(Recess, s, b, v)
	c.along = r.needed(s, "width", "50 mm", quantity.Length, positive, &v.Along)
	c.across = r.needed(s, "depth", "12 mm", quantity.Length, positive, &v.Across)
	c.through = r.readThrough(s, "through", m, v)
	return c
}

func (r *reader) readMortise(s section, b *body, m beam, v *Void) cut {
	c := r.beginCut(Mortise, s, b, v)
	c.along = r.needed(s, "width", "50 mm", quantity.Length, positive, &v.Along)
	c.across = r.needed(s, "height", "20 mm", quantity.Length, positive, &v.Across)
	c.through = r.readThrough(s, "depth", m, v)
	return c
}

func (r *reader) readHole(s section, b *body, m beam, v *Void) cut {
	c := r.beginCut(Hole, s, b, v)
	c.along = r.needed(s, "across", "10 mm", quantity.Length, positive, &v.Along, &v.Across)
	c.across = c.along
	c.through = r.readThrough(s, "depth", m, v)
	return c
}

func (r *reader) beginCut(kind VoidKind, s section, b *body, v *Void) cut {
	v.Kind = kind
	at, _ := r.needPosition(s, "at", b.points, quoted(b.name), &v.At)
	return cut{kind: kind, at: at}
}

// readThrough reads how far a void goes along z: the whole bar if left out.
func (r *reader) readThrough(s section, key string, m beam, v *Void) number {
	if e, ok := s.at[key]; ok {
		n := r.number(e.spot, quantity.Length, positive)
		r.put(n, &v.Through)
		return n
	}
	r.assume(join(s.where, key), "right through the bar")
	r.put(m.thick, &v.Through)
	return m.thick
}

// cutSlack forgives rounding where two sizes meet exactly, m.
const cutSlack = 1e-9

// checkCut refuses a void that is larger than its bar or beside it, where
// nothing in question is moved by an unknown.
func (r *reader) checkCut(at spot, c cut, m beam) {
	r.checkThrough(at, c, m)
	height, ok := r.constant(m.height)
	across, ok2 := r.constant(c.across)
	if !ok || !ok2 {
		return
	}
	if across >= height-cutSlack {
		r.wrong(at, 0, "this cut goes through the whole height of the bar", "less than the bar's height", "make it shallower")
		return
	}
	along, ok := r.constant(c.along)
	s, t, length, ok2 := r.alongBar(c.at, m)
	if !ok || !ok2 {
		return
	}
	reach := across / 2 // of what lies inside the bar, from its middle
	if c.kind == Recess {
		reach = 0
	}
	if s-along/2 < -cutSlack || s+along/2 > length+cutSlack || math.Abs(t)+reach > height/2+cutSlack {
		r.wrong(at, 0, "this cut is not wholly inside the bar", "inside the bar's length and height, in the pendulum's frame", "move it or make it smaller")
	}
}

// checkApart refuses two cuts that take the same wood away, where nothing in
// question is moved by an unknown. Two that leave wood between them along z, or
// meet there, are taken to come from either face.
func (r *reader) checkApart(at spot, a, b cut, m beam) {
	thick, ok := r.constant(m.thick)
	deepA, ok1 := r.constant(a.through)
	deepB, ok2 := r.constant(b.through)
	if !ok || !ok1 || !ok2 || deepA+deepB <= thick+cutSlack {
		return
	}
	boxA, okA := r.box(a, m)
	boxB, okB := r.box(b, m)
	if okA && okB && boxA.meets(boxB) {
		r.wrong(at, 0, "this cut overlaps another one of the same bar", "cuts with wood between them", "move it, or make one cut of the two")
	}
}

// box is what a cut takes: along its bar and across it.
type box struct{ lo, hi [2]float64 }

func (a box) meets(b box) bool {
	for k := range 2 {
		if a.lo[k] >= b.hi[k]-cutSlack || b.lo[k] >= a.hi[k]-cutSlack {
			return false
		}
	}
	return true
}

func (r *reader) box(c cut, m beam) (box, bool) {
	height, ok := r.constant(m.height)
	along, ok1 := r.constant(c.along)
	across, ok2 := r.constant(c.across)
	s, t, _, ok3 := r.alongBar(c.at, m)
	if c.kind == Recess {
		t = math.Copysign((height-across)/2, t)
	}
	return box{[2]float64{s - along/2, t - across/2}, [2]float64{s + along/2, t + across/2}}, ok && ok1 && ok2 && ok3
}

func (r *reader) checkThrough(at spot, c cut, m beam) {
	thick, ok := r.constant(m.thick)
	through, ok2 := r.constant(c.through)
	if ok && ok2 && through > thick+cutSlack {
		r.wrong(at, 0, "this cut is deeper along z than the bar is thick", "at most the bar's thickness", "leave it out for a cut right through")
	}
}

// alongBar is where a point lies: s from the bar's first end along it, t across
// it to the left, and the bar's length, all in metres. ok is false where an
// unknown moves them or the bar has no length.
func (r *reader) alongBar(p position, m beam) (s, t, length float64, ok bool) {
	from, ok1 := r.fixedVec(m.from)
	to, ok2 := r.fixedVec(m.to)
	at, ok3 := r.fixedVec(p)
	dx, dy := to.X-from.X, to.Y-from.Y
	length = math.Hypot(dx, dy)
	if !ok1 || !ok2 || !ok3 || length == 0 {
		return 0, 0, 0, false
	}
	px, py := at.X-from.X, at.Y-from.Y
	return (px*dx + py*dy) / length, (py*dx - px*dy) / length, length, true
}
