package build

import (
	"math"

	"evenswing/space"
)

// judgePivot judges the metal of pendulum i's pivot.
func (w *Workspace) judgePivot(u *Use, i int, p *Pivot, fit *Fittings) {
	at := Place{Part: Part{Pendulum: i}}
	if seat := &fit.Seats[i]; seat.Thick > 0 {
		u.put(SeatUse(p.Load*p.Factor, seat.Thick, seat.Long, seat.Strength), SeatBearing, at)
	}
	knife := &fit.Knives[i]
	if !knife.Given() {
		return
	}
	e := 0.0
	if b := w.balanceOf(i); b.Known {
		e = b.Off
	}
	q, _ := LineLoad(p.Load, knife.Long, e)
	u.put(knife.Use(q).Governs(knife), KnifeEdge, at)
}

// judgeWall judges what holds everything on the wall.
func (w *Workspace) judgeWall(s *Strength, fit *Fittings) {
	s.StandOffs = true
	for i := range w.d.Pendulums {
		p := &w.d.Pendulums[i]
		if p.Parent != space.Wall {
			continue
		}
		load := w.rest.G * w.rest.Mu[i]
		s.Hanging += load
		off := p.Edge.Z
		if !off.Given {
			off = w.d.StandOff
		}
		s.StandOffs = s.StandOffs && off.Given && finite(load*off.Value)
		s.PullOut += load * off.Value
	}
	if !s.StandOffs {
		s.PullOut = 0
	}
	if fit.Bracket.Fixings == 0 || !s.StandOffs {
		return
	}
	off := divide(s.PullOut, s.Hanging)
	s.Pull, _ = fit.Bracket.Fixing(s.Hanging, off)
	s.Pull = min(s.Pull, math.MaxFloat64)
	s.Wall.put(fit.Bracket.Use(s.Hanging, off), Fixings, Place{})
}
