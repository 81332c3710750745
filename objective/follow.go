package objective

import "evenswing/objective/tuning"

// following is how worked-out unknowns follow the others: with F their
// conditions, dw = −(∂F/∂w)⁻¹ ∂F/∂x dx for those that hold; one that stopped at
// an end of its range stays there.
type following struct {
	worked  *workedOut
	numbers [][]float64 // by job: derivatives of all numbers of the design
	seeds   []tuning.Bodies
	pairs   [maxJobs][maxJobs]float64 // [condition][unknown]
}

func newFollowing(k *workedOut, numbers int) following {
	f := following{worked: k}
	if k == nil {
		return f
	}
	f.seeds = make([]tuning.Bodies, len(k.jobs))
	for range k.jobs {
		f.numbers = append(f.numbers, make([]float64, numbers))
	}
	return f
}

// has tells whether an unknown is worked out.
func (k *workedOut) has(unknown int) bool {
	if k == nil {
		return false
	}
	for i := range k.jobs {
		if k.jobs[i].unknown == unknown {
			return true
		}
	}
	return false
}

// load works out ∂F/∂w at the candidate.
func (f *following) load(s *Slopes) {
	k := f.worked
	if k == nil {
		return
	}
	k.bodies, k.moments = s.rig.Bodies, s.rig.Moments // of the rig as it hangs
	for c := range k.jobs {
		j := &k.jobs[c]
		j.mover.SlopesTo(j.steps)
		f.seeds[c] = tuning.Bodies{}
		clear(f.numbers[c])
		for i, place := range j.mover.Places() {
			f.numbers[c][place] += j.steps[i]
			s.slopes.AddTo(&f.seeds[c], place, j.steps[i])
		}
		f.sagAlong(s, c)
	}
	for r := range k.jobs {
		j := &k.jobs[r]
		for c := range k.jobs {
			f.pairs[r][c] = k.slopeAlong(j, &f.seeds[c], f.at(c, j.wantPlace))
		}
		k.system.pinned[r] = !j.inside
	}
}

// sagAlong adds how the sag changes along a job's unknown.
func (f *following) sagAlong(s *Slopes, c int) {
	if s.sag == nil {
		return
	}
	j := &f.worked.jobs[c]
	s.seed = f.seeds[c]
	copy(s.numbers, f.numbers[c])
	s.sag.addTo(s, sagStep*(j.hi-j.lo))
	f.seeds[c] = s.seed
}

// at is the derivative of a number by a job's unknown; place −1 is no number.
func (f *following) at(c, place int) float64 {
	if place < 0 {
		return 0
	}
	return f.numbers[c][place]
}

// addTo lets the worked-out unknowns follow the direction in s.
func (f *following) addTo(s *Slopes) {
	k := f.worked
	if k == nil {
		return
	}
	n := len(k.jobs)
	for r := range k.jobs {
		j := &k.jobs[r]
		dWant := 0.0
		if j.wantPlace >= 0 {
			dWant = s.numbers[j.wantPlace]
		}
		for c := range k.jobs {
			k.system.a[r][c] = f.pairs[r][c] * (k.jobs[c].hi - k.jobs[c].lo)
		}
		k.system.a[r][n] = -k.slopeAlong(j, &s.seed, dWant)
	}
	k.system.solve(n)
	for c := range k.jobs {
		step := k.system.step[c] * (k.jobs[c].hi - k.jobs[c].lo)
		if step == 0 {
			continue
		}
		s.seed.Add(&f.seeds[c], step, k.w.evaluator.forest.N)
		for i, x := range f.numbers[c] {
			s.numbers[i] += step * x
		}
	}
}
