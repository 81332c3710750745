package space

import (
	"strings"

	"evenswing/space/quantity"
)

var (
	targetKeys = []string{"periods", "ratios", "drawing_time"}
	ratioKeys  = []string{"slow", "fast", "is", "within"}
)

// Defaults of the targets.
const (
	usualPeriodWithin = "1 %"
	usualRatioWithin  = "0.5 %"
	usualDrawingTime  = "240 s"
)

// readTargets reads the periods and ratios that the maker wants.
func (r *reader) readTargets(top section) {
	var s section
	if e, ok := top.at["targets"]; ok {
		s = r.section(e.spot, targetKeys)
	} else {
		s = section{spot: spot{where: "targets"}, reader: r}
	}
	t := &r.rig.template.Targets
	if e, ok := s.at["periods"]; ok {
		r.readPeriods(e.spot, t)
	}
	if e, ok := s.at["ratios"]; ok {
		r.readRatios(e.spot, t)
	}
	r.orElse(s, "drawing_time", quantity.Time, positive, usualDrawingTime, &t.DrawingTime)
}

func (r *reader) readPeriods(at spot, t *Targets) {
	list := r.entries(at)
	t.Periods = make([]PeriodTarget, len(list))
	for i, e := range list {
		t.Periods[i].Pendulum = r.bodyIndex(e.name)
		if t.Periods[i].Pendulum < 0 {
			r.noBody(e.atKey(), e.name)
		}
		r.readPeriod(e.spot, &t.Periods[i])
	}
}

// readPeriod reads `6 s within 1 %`.
func (r *reader) readPeriod(at spot, t *PeriodTarget) {
	text, ok := r.text(at, "a period such as `3 s within 1 %`")
	if !ok {
		return
	}
	start := lead(at.value())
	want, within, given := strings.Cut(text, " within ")
	n := r.piece(at, start, strings.TrimSpace(want), quantity.Time, positive)
	r.put(n, &t.Want)
	if !given {
		r.assume(at.where, "within "+usualPeriodWithin)
		r.put(r.literal(mustParse(usualPeriodWithin, quantity.Number)), &t.Within)
		return
	}
	skip := len(want) + len(" within ") + len(within) - len(strings.TrimLeft(within, " "))
	n = r.piece(at, start+skip, strings.TrimSpace(within), quantity.Number, positive)
	r.put(n, &t.Within)
}

// readRatios reads the list of ratios; one alone needs no list.
func (r *reader) readRatios(at spot, t *Targets) {
	list := r.list(at)
	t.Ratios = make([]RatioTarget, len(list))
	for i, item := range list {
		r.readRatio(item, &t.Ratios[i])
	}
}

func (r *reader) readRatio(at spot, t *RatioTarget) {
	s := r.section(at, ratioKeys)
	t.Slow, t.Fast = -1, -1
	if at, ok := s.need("slow", r.anyBody()); ok {
		t.Slow = r.bodyNamed(at)
	}
	if at, ok := s.need("fast", r.anyBody()); ok {
		t.Fast = r.bodyNamed(at)
	}
	if t.Slow >= 0 && t.Slow == t.Fast {
		r.wrong(s.at["fast"].spot, 0, "`slow` and `fast` are the same pendulum", "two different pendulums", "name another")
	}
	r.needed(s, "is", "2", quantity.Number, positive, &t.Is)
	r.orElse(s, "within", quantity.Number, positive, usualRatioWithin, &t.Within)
}

// anyBody is a pendulum to name in an example.
func (r *reader) anyBody() string {
	if len(r.bodies) == 0 {
		return "arm"
	}
	return r.bodies[0].name
}
