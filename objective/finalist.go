package objective

import "evenswing/space"

// FinalistColumns lists the columns of the rows of finalists: those of every
// candidate, then what the full motion adds. It must not be changed.
func (e *Evaluator) FinalistColumns() []Column { return e.finalistColumns }

// listFinalistColumns works them out; FinalistRowTo writes the same order.
func (e *Evaluator) listFinalistColumns(d *space.Design) []Column {
	l := &columnList{taken: map[string]bool{}}
	for _, c := range e.columns {
		l.taken[c.Name] = true
	}
	l.list = append(l.list, e.columns...)
	add := func(unit, text string, pieces ...string) { l.add(FigureColumn, 0, unit, text, pieces...) }
	add("", "largest share of the energy in the wrong mode within the drawing time, worst of the releases", "exchange")
	add("", "drift of the ratio while it swings: standard deviation over mean, worst pair and release", "drift")
	add("", "irregularity of the passes of the line", "trace")
	add("m", "least distance of the line from the paper's edge; negative: it runs off", "paper_margin")
	add("", "median distance of neighbouring passes over the line's width; null where the figure has no period", "spacing")
	for k := range d.Targets.Ratios {
		t := &d.Targets.Ratios[k]
		slow, fast := e.rig.Pendulums[t.Slow].Name, e.rig.Pendulums[t.Fast].Name
		pair := slow + " over " + fast
		add := func(unit, text string, pieces ...string) { l.add(FigureColumn, k, unit, text, pieces...) }
		add("", "mean ratio of the periods of "+pair+" while they swing, of the release that keeps it farthest from the wanted one", "ratio_kept", Slug(slow), Slug(fast))
		add("", "drift of the ratio of "+pair, "drift", Slug(slow), Slug(fast))
		add("", "that mean ratio of "+pair+" over the linear one, minus 1", "pull", Slug(slow), Slug(fast))
	}
	for i := range e.rig.Pendulums {
		name := e.rig.Pendulums[i].Name
		slug := Slug(name)
		add := func(unit, text string, pieces ...string) { l.add(FigureColumn, i, unit, text, pieces...) }
		add("s", "mean period of "+name+" while it swings", "period_kept", slug)
		add("", "foreign swing in "+name+" over its own", "ripple", slug)
		add("s", "halving time of the own mode of "+name+" that its dampers reach", "halves_in", slug)
		add("rad", "largest deviation of "+name+" from rest", "largest", slug)
	}
	if len(d.Targets.Ratios) > 0 {
		listHolding(add)
	}
	before := len(l.list)
	e.listTuning(d, func(i int, unit, text string, pieces ...string) { l.add(FigureColumn, i, unit, text, pieces...) })
	e.tuningColumns = len(l.list) - before
	for k := range e.subjects {
		if s := &e.subjects[k]; s.Limited && s.From == Swung {
			l.add(UtilisationColumn, k, "", "demand over allowance of "+s.Title()+"; 1 is on the limit", "use", s.Criterion.String(), Slug(s.Name))
		}
	}
	return l.list
}

// FinalistRowTo writes the figures after SwingUp, WorkHolding and WorkTuning in the order of
// FinalistColumns. Periods and ratios keep their linear figures in their
// columns; their utilisations, score and worst are those of the motion.
func (w *Workspace) FinalistRowTo(values []float32, missing []bool) {
	e, d := w.evaluator, &w.decoder.Design
	w.RowTo(values, missing)
	r := rowWriter{values: values, missing: missing, at: len(e.columns)}
	if !w.Exists {
		r.skip(len(e.finalistColumns) - r.at)
		return
	}
	x := w.Swinging()
	for _, figure := range []space.Optional{x.Exchange, x.Drift, x.Trace, x.Margin, x.Spacing} {
		r.optional(figure)
	}
	for k := range d.Targets.Ratios {
		h := &x.Ratios[k]
		r.optional(h.Kept)
		r.optional(h.Drift)
		r.optional(h.Pull)
	}
	for i := range d.Pendulums {
		r.optional(x.Periods[i])
		r.optional(x.Ripple[i])
		r.putIf(x.HalvesIn[i] > 0, x.HalvesIn[i])
		r.put(x.Largest[i])
	}
	if len(d.Targets.Ratios) > 0 {
		w.Holding().put(&r)
	}
	w.putTuning(&r, e.tuningColumns)
	for k := range e.subjects {
		if s := &e.subjects[k]; s.Limited && s.From == Swung {
			r.putIf(w.known[k], w.utilisations[k])
		}
	}
}

func (r *rowWriter) optional(x space.Optional) { r.putIf(x.Given, x.Value) }

// Finalist is a Workspace seen by what writes the rows of finalists.
type Finalist struct{ *Workspace }

// RowTo is FinalistRowTo.
func (f Finalist) RowTo(values []float32, missing []bool) { f.FinalistRowTo(values, missing) }
