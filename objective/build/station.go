package build

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// StationKind is what a station is.
type StationKind uint8

// The kinds of station.
const (
	PivotStation   StationKind = iota // a pendulum's pivot: down, sideways, the bar's moment there
	SectionStation                    // a cross-section of a bar: at its support, a joint, a void
	JointStation                      // what holds a part, bar or pendulum on a bar: the joint's own force
	FaceStation                       // a drum's face under its charge when it is laid flat: the weight
	FixingStation                     // an uppermost fixing of the bracket: pull and shear, a doubled load
)

// Triple is what a station carries, largest sizes: N, N, N m. Of a pivot: down,
// sideways in the plane of swing, and the moment of the bar that it holds; of a
// section: axial force, shear, bending moment; of a joint: along the bar, across it,
// and the moment about the nearest place of the bar's axis; of a face and a fixing:
// the pull, the shear, nought.
type Triple struct{ Along, Across, Moment float64 }

func (t *Triple) raise(along, across, moment float64) {
	t.Along = max(t.Along, math.Abs(along))
	t.Across = max(t.Across, math.Abs(across))
	t.Moment = max(t.Moment, math.Abs(moment))
}

// Station is a place of a design that carries load. Rest is what it carries at rest,
// Most the bound while all swing, Moved what Observe found, at most. Use is what
// governs there; it is not Known where nothing can be judged.
type Station struct {
	Kind              StationKind
	Place             Place
	At                float64 // along the bar, from its first end, m; of a section
	Rest, Most, Moved Triple
	Use               Use
	Governs           bool // of all sections of its bar, the one with the largest utilisation
}

// lever is a force of a station as it follows from the fields: what hangs beyond,
// and where and on which axes it is told.
type lever struct {
	station  int
	pendulum int // whose frame and field
	mo       moments
	hung     uint8
	at       space.Vec // the moment's point
	u        space.Vec // "along"
	free     bool      // a pivot's own: on the wall's axes, no moment
}

// Stations are all the places of one design that carry load. It allocates, and is
// for one design at a time: List, then Observe as many instants as there are.
type Stations struct {
	List   []Station
	levers []lever
	w      *Workspace
}

// NewStations lists the stations of the design that hangs: pendulum by pendulum its
// pivot, then bar by bar sections and joints, then its drums' faces; last the
// bracket's fixing, where one is given.
func (w *Workspace) NewStations() *Stations {
	x := &Stations{w: w}
	var s Strength
	var pivots pivotLoads
	w.PivotsTo(&pivots)
	w.StrengthTo(&s, nil)
	safety := w.SafetyFactor()
	for i := range w.d.Pendulums {
		x.addPivot(i, &pivots)
		for b := w.root[i]; b < w.root[i+1]; b++ {
			x.addSections(b, safety)
			x.addJoints(b, safety)
		}
		x.addFaces(i, safety)
	}
	if s.Wall.Known {
		x.addFixing(&s)
	}
	return x
}

// SafetyFactor is the rig file's, or the usual one.
func (w *Workspace) SafetyFactor() float64 {
	if l := &w.d.Limits[space.Strength]; l.Given {
		return l.Value
	}
	return DefaultSafety
}

// addPivot adds the pivot of pendulum i, and the moment of the bar that it holds.
func (x *Stations) addPivot(i int, pivots *pivotLoads) {
	w := x.w
	p := &pivots[i]
	s := Station{Kind: PivotStation, Place: Place{Part: Part{Pendulum: i}}}
	s.Rest = Triple{Along: p.Load}
	s.Most = Triple{Along: p.Load * p.Factor, Across: p.Side}
	if !(w.fit.Knives[i].Given()) && w.d.Pendulums[i].Pivoted.Kind == space.NoPivotKind {
		s.Use.Missing = true
	}
	w.judgePivot(&s.Use, i, p, &w.fit)
	w.judgeKind(&s.Use, i, pivots)
	at := len(x.List)
	x.List = append(x.List, s)
	x.levers = append(x.levers, lever{station: at, pendulum: i, free: true})
	for b := w.root[i]; b < w.root[i+1]; b++ {
		if w.beams[b].holder < 0 {
			x.addCut(at, b, w.beams[b].support, true)
		}
	}
}

// addCut adds both sides, or the loaded one, of a cross-section to a station.
// momentOnly keeps the forces out: a pivot's are its own.
func (x *Stations) addCut(station, b int, s float64, momentOnly bool) {
	w := x.w
	beam := &w.beams[b]
	t := &x.List[station]
	for _, with := range [2]joined{withJoint, withoutJoint} {
		for _, way := range [2]side{toEnd, toStart} {
			if float64(way)*(beam.support-s) > cutSlack {
				continue
			}
			mo, hung := w.beyond(b, s, way, with)
			f := w.forces(b, s, way, with)
			rest, most := Triple{}, Triple{}
			rest.raise(f.N, f.V, f.M)
			most.raise(math.Abs(f.N)+f.MoreN, math.Abs(f.V)+f.MoreV, math.Abs(f.M)+f.MoreM)
			if momentOnly {
				rest.Along, rest.Across, most.Along, most.Across = 0, 0, 0, 0
			}
			t.Rest.raise(rest.Along, rest.Across, rest.Moment)
			t.Most.raise(most.Along, most.Across, most.Moment)
			l := lever{station: station, pendulum: beam.Pendulum, mo: mo, hung: hung, at: beam.point(s), u: beam.u}
			if momentOnly {
				l.u = space.Vec{}
			}
			x.levers = append(x.levers, l)
		}
	}
}

// addSections adds the sections of beam b: support, joints, voids.
func (x *Stations) addSections(b int, safety float64) {
	w := x.w
	beam := &w.beams[b]
	first := len(x.List)
	add := func(at Place, places ...float64) {
		s := Station{Kind: SectionStation, Place: at, At: places[0]}
		x.List = append(x.List, s)
		k := len(x.List) - 1
		for _, s := range places {
			x.addCut(k, b, s, false)
			x.judge(&x.List[k].Use, b, s, at, safety)
		}
	}
	add(Place{Part: beam.Part}, beam.support)
	for e, past := w.seams[beam.Pendulum], w.seams[beam.Pendulum+1]; e < past; e++ {
		if j := &w.joins[e]; j.beam == b {
			add(j.place, j.at)
		}
	}
	for k := range beam.bar.Voids {
		v := beam.void(k)
		at := Place{Part: beam.Part, Kind: AtRecess + PlaceKind(v.kind), Index: k}
		if v.kind == space.Hole {
			add(at, clamp(v.at, beam.long))
			continue
		}
		add(at, clamp(v.at, beam.long), clamp(v.at-v.along/2, beam.long), clamp(v.at+v.along/2, beam.long))
	}
	x.mark(first)
}

// judge puts the utilisation of one cross-section, as judgeBeam does.
func (x *Stations) judge(u *Use, b int, s float64, at Place, safety float64) {
	beam := &x.w.beams[b]
	stuff := &x.w.m.stuff[beam.bar.Of]
	switch {
	case stuff.refused:
		u.put(Ceiling, Refused, at)
	case !(stuff.bending > 0):
		u.Missing = true
	default:
		var allow allowance
		allow.of(beam, stuff, safety)
		u.Missing = u.Missing || !(stuff.shear > 0)
		x.w.judgeCut(u, b, s, withJoint, at, &allow)
		x.w.judgeCut(u, b, s, withoutJoint, at, &allow)
	}
}

// mark marks the worst of the sections as of first.
func (x *Stations) mark(first int) {
	worst := first
	for k := first; k < len(x.List); k++ {
		if u := &x.List[k].Use; u.Known && (!x.List[worst].Use.Known || u.Value > x.List[worst].Use.Value) {
			worst = k
		}
	}
	x.List[worst].Governs = x.List[worst].Use.Known
}

// addJoints adds the joints of what beam b holds: with the screws or the plate that
// the file names for each, else without a utilisation.
func (x *Stations) addJoints(b int, safety float64) {
	w := x.w
	beam := &w.beams[b]
	fastened := map[space.Held]bool{}
	for k := range beam.bar.Screws {
		s := &beam.bar.Screws[k]
		at := Place{Part: beam.Part, Kind: AtScrews, Index: k}
		w.judgeScrews(&x.addJoint(b, s.Holds, at).Use, b, s, at)
		fastened[s.Holds] = true
	}
	for k := range beam.bar.Plates {
		p := &beam.bar.Plates[k]
		at := Place{Part: beam.Part, Kind: AtPlate, Index: k}
		w.judgePlate(&x.addJoint(b, p.Holds, at).Use, b, p, at, safety)
		fastened[p.Holds] = true
	}
	for e, past := w.seams[beam.Pendulum], w.seams[beam.Pendulum+1]; e < past; e++ {
		if j := &w.joins[e]; j.beam == b && !fastened[j.place.held()] {
			x.addJoint(b, j.place.held(), j.place).Use.Missing = true
		}
	}
}

// held is what a joint at a place of a bar holds.
func (p Place) held() space.Held {
	kind := [...]space.HeldKind{AtBar: space.HeldBar, AtDrum: space.HeldDrum, AtBlock: space.HeldBlock, AtLump: space.HeldLump, AtPendulum: space.HeldPendulum}
	return space.Held{Kind: kind[p.Kind], Index: p.Index}
}

// addJoint adds one joint without its utilisation; the pointer is good until the next
// station is added.
func (x *Stations) addJoint(b int, held space.Held, at Place) *Station {
	w := x.w
	beam := &w.beams[b]
	h, most := w.borneOn(b, held), w.pullOn(b, held)
	s, _ := beam.foot(h.at)
	l := lever{station: len(x.List), pendulum: beam.Pendulum, mo: h.mo, hung: h.hung, at: beam.point(s), u: beam.u}
	x.levers = append(x.levers, l)
	t := Station{Kind: JointStation, Place: at, At: s, Most: Triple{most.along, most.across, most.moment}}
	p := w.load(0, beam.Pendulum, &h.mo, h.hung)
	t.Rest.raise(l.of(&p))
	x.List = append(x.List, t)
	return &x.List[len(x.List)-1]
}

// of splits a push along the lever's axes.
func (l *lever) of(p *push) (along, across, moment float64) {
	return dot(p.f, l.u), dot(p.f, left(l.u)), p.t - cross(l.at, p.f)
}

// addFaces adds the faces of pendulum i's charged drums.
func (x *Stations) addFaces(i int, safety float64) {
	for k := range x.w.d.Pendulums[i].Drums {
		d := &x.w.d.Pendulums[i].Drums[k]
		if len(d.Charges) == 0 {
			continue
		}
		s := Station{Kind: FaceStation, Place: Place{Part: Part{i, DrumPart, k}}}
		load, _ := x.w.chargeOf(d)
		s.Rest.Along, s.Most.Along = load, Bump*load
		x.w.judgeFace(&s.Use, i, k, safety)
		x.List = append(x.List, s)
	}
}

func (x *Stations) addFixing(s *Strength) {
	bracket := x.w.bracketOf()
	pull, shear := bracket.Fixing(s.Hanging, divide(s.PullOut, s.Hanging))
	t := Station{Kind: FixingStation, Use: s.Wall, Most: Triple{Along: pull, Across: shear}}
	t.Rest = Triple{Along: pull / Bump, Across: shear / Bump}
	x.List = append(x.List, t)
}

// Observe raises what the stations carried to that of one instant of a motion: angles
// from the design pose, rates and accelerations by pendulum (rad, rad/s, rad/s²). The
// kinematics are those of full rotations; nothing is left out but the dry friction of
// pivots and the pen's drag.
func (x *Stations) Observe(angle, rate, acceleration *[motion.Max]float64) {
	var in instant
	in.fill(x.w, angle, rate, acceleration)
	for k := range x.levers {
		l := &x.levers[k]
		t := &x.List[l.station]
		if l.free {
			t.Moved.raise(in.down[l.pendulum], in.side[l.pendulum], 0)
			continue
		}
		p := in.field[l.pendulum].on(&l.mo)
		for j, hung := 0, l.hung; hung != 0; j, hung = j+1, hung>>1 {
			if hung&1 == 1 {
				p.add(in.push[j])
			}
		}
		t.Moved.raise(l.of(&p))
	}
}
