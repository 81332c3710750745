package tuning

// Detail works out what every source by itself does, for Effect and Dominant: for
// the candidate of the last To, with the same arguments.
func (s *Spread) Detail(r *Rig, slopes *Slopes) {
	for k := range s.Sources {
		source := &s.Sources[k]
		e := source.effect(r, slopes, s.numbers)
		sd := source.Sd(&s.design.Tolerance)
		for t := range s.Targets {
			plus, minus := s.made[t][0], s.made[t][1]
			x := e.on(s.figure(plus), r.Forest)
			if minus >= 0 {
				x -= e.on(s.figure(minus), r.Forest)
			}
			s.detail[k*len(s.Targets)+t] = sd * x
		}
	}
}

// Effect is what a standard deviation of a source does to a target's error.
func (s *Spread) Effect(source, target int) float64 { return s.detail[source*len(s.Targets)+target] }

// Dominant is the source that adds most to a target's variance, and its share; −1
// where there is no variance.
func (s *Spread) Dominant(target int) (source int, share float64) {
	source = -1
	sum, most := 0.0, 0.0
	for k := range s.Sources {
		x := s.Effect(k, target)
		sum += x * x
		if x*x > most {
			source, most = k, x*x
		}
	}
	if source < 0 {
		return -1, 0
	}
	return source, most / sum
}
