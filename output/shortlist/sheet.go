package shortlist

import (
	"evenswing/objective"
	"evenswing/output/report"
	"evenswing/space"
)

// sheetOf turns a scored design into a sheet of the page, without its pictures
// and its place in the list.
func sheetOf(e *objective.Evaluator, w *objective.Workspace) report.Sheet {
	a, d, rig := w.Account(), w.Design(), e.Rig()
	s := report.Sheet{
		Score: a.Score, Meets: w.Meets,
		Unknowns: report.UnknownsOf(rig, d.Unknowns),
		Lead:     report.HoldsLead(rig, d),
	}
	for i, p := range a.Pendulums {
		s.Mass += p.Mass
		s.Pendulums = append(s.Pendulums, pendulumOf(d, i, p))
	}
	for _, r := range d.Targets.Ratios {
		slow, fast := a.Pendulums[r.Slow], a.Pendulums[r.Fast]
		s.Ratios = append(s.Ratios, report.Ratio{Slow: slow.Name, Fast: fast.Name, Is: slow.Period / fast.Period, Want: r.Is, Within: r.Within})
	}
	for k, c := range a.Criteria {
		s.Criteria = append(s.Criteria, report.Criterion{
			Kind: e.Subjects()[k].Criterion, Subject: c.Subject, Unit: c.Unit,
			Value: given(c.Value), Allowed: given(c.Allowed), Utilisation: given(c.Utilisation),
		})
	}
	for _, t := range a.Triads {
		s.Triads = append(s.Triads, report.Triad{
			A: ownerOf(a, t.A), B: ownerOf(a, t.B), C: ownerOf(a, t.C), Detuning: t.Detuning, Exchange: t.Exchange,
		})
	}
	if a.WallPull != nil {
		s.Wall = space.Optional{Value: *a.WallPull, Given: true}
	}
	return s
}

func pendulumOf(d *space.Design, i int, p objective.PendulumAccount) report.Pendulum {
	x := report.Pendulum{Name: p.Name, Tilt: p.Tilt, Period: p.Period, Share: p.Share, Mass: p.Mass, Load: p.PivotLoad, Hanging: p.Hanging}
	for _, t := range d.Targets.Periods {
		if t.Pendulum == i {
			x.Target, x.Within = space.Optional{Value: t.Want, Given: true}, t.Within
		}
	}
	return x
}

func given(x *float64) space.Optional {
	if x == nil {
		return space.Optional{}
	}
	return space.Optional{Value: *x, Given: true}
}

// ownerOf names the pendulum whose own mode it is, counted from 1.
func ownerOf(a *objective.Account, mode int) string {
	for _, p := range a.Pendulums {
		if p.Mode == mode {
			return p.Name
		}
	}
	return ""
}
