package objective

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"evenswing/objective/tuning"
	"evenswing/space"
)

// workPlan is what is known of a rig's worked-out unknowns before any candidate:
// in which order to solve them, and how. Immutable.
type workPlan struct {
	groups   [][]int   // of jobs, leaves first; each group is solved together
	straight []bool    // by job: its miss is a straight line over its own range
	plain    []bool    // by job: all that it moves of the bodies follows a straight line
	steady   []bool    // by job: its miss rises or falls all over its own range
	starts   [][]start // by group: where to look for solutions; none for one that is straight
	faults   []space.Fault
}

const (
	// samples is how many random candidates are looked at to find out what moves
	// what: a dependence that shows nowhere in the space at these is none.
	samples = 32
	// stations is how many values of an unknown are looked at in each.
	stations = 9
	// sampleSeed starts the random candidates, always the same ones.
	sampleSeed = 5
	// unmoved is the change of a condition over a whole range, against its
	// yardstick (all masses times their distances), that counts as none.
	unmoved = 1e-12
	// crooked is the relative change of slope over a range below which a line is
	// straight: rounding stays below 1e-11.
	crooked = 1e-9
	// gentle is the least slope of a steady condition against its largest.
	gentle = 0.02
	// lame is the determinant of a group's slopes, rows and columns scaled, below
	// which its unknowns cannot keep its conditions apart.
	lame = 1e-9
)

// survey is what the samples showed.
type survey struct {
	moves    [maxJobs][maxJobs]bool // [condition][unknown]
	crooked  [maxJobs]bool
	fancy    [maxJobs]bool // bodies do not follow a straight line
	unsteady [maxJobs]bool
	seen     [maxJobs]bool // its own slope was found at least once
}

// planWork looks at samples of the space; nil where nothing is worked out.
func planWork(e *Evaluator) *workPlan {
	w := e.NewWorkspace()
	k := newWorkedOut(w, &workPlan{})
	if k == nil {
		return nil
	}
	var v survey
	k.sample(func() { k.look(&v) })
	n := len(k.jobs)
	p := &workPlan{straight: make([]bool, n), plain: make([]bool, n), steady: make([]bool, n)}
	for i := range k.jobs {
		p.straight[i] = v.seen[i] && !v.crooked[i]
		p.plain[i] = v.seen[i] && !v.fancy[i]
		p.steady[i] = v.seen[i] && !v.unsteady[i]
	}
	p.groups = v.groups(n)
	for _, g := range p.groups {
		var list []start
		if len(g) > 1 && k.bent(g) {
			list = startsOf(len(g))
		}
		p.starts = append(p.starts, list)
	}
	k.findFaults(p, &v)
	return p
}

// sample calls look with random candidates in place, worked-out unknowns too.
func (k *workedOut) sample(look func()) {
	rng := rand.New(rand.NewPCG(sampleSeed, 0))
	point := make([]float64, k.w.evaluator.rig.Dim())
	for range samples {
		for i := range point {
			point[i] = rng.Float64()
		}
		k.w.decoder.Point(point)
		for i := range k.jobs {
			j := &k.jobs[i]
			j.value = j.lo + rng.Float64()*(j.hi-j.lo)
			j.mover.MoveTo(j.value)
		}
		k.weighAll()
		look()
	}
}

// look takes one sample into the survey.
func (k *workedOut) look(v *survey) {
	for r := range k.jobs {
		j := &k.jobs[r]
		if _, _, ok := k.at(j, j.value); !ok {
			continue
		}
		yard := k.yard(j)
		for c := range k.jobs {
			by := &k.jobs[c]
			if s := k.slope(j, by); math.Abs(s)*(by.hi-by.lo) > unmoved*yard {
				v.moves[r][c] = true
			}
		}
		v.lookAlong(k, r)
	}
}

// lookAlong looks at the slope of a condition over its own unknown's range.
func (v *survey) lookAlong(k *workedOut, at int) {
	j := &k.jobs[at]
	was, least, most := j.value, math.Inf(1), math.Inf(-1)
	var first tuning.Bodies
	for s := range stations {
		x := j.lo + (j.hi-j.lo)*float64(s)/(stations-1)
		if _, slope, ok := k.at(j, x); ok {
			if least > most {
				first = k.change
			}
			v.fancy[at] = v.fancy[at] || !first.Alike(&k.change, crooked)
			least, most = math.Min(least, slope), math.Max(most, slope)
		}
	}
	k.at(j, was)
	if least > most {
		return
	}
	v.seen[at] = true
	largest := math.Max(math.Abs(least), math.Abs(most))
	if most-least > crooked*largest {
		v.crooked[at] = true
	}
	if least*most <= 0 || math.Min(math.Abs(least), math.Abs(most)) < gentle*largest {
		v.unsteady[at] = true
	}
}

// yard is what a condition's miss is measured against: all masses of what hangs
// at its pendulum times their distances.
func (k *workedOut) yard(j *job) float64 {
	if j.want != nil {
		return k.moments.J[j.pendulum]
	}
	f := k.w.evaluator.forest
	sum := k.reach[j.pendulum]
	for c := 0; c < f.N; c++ {
		if f.Parent[c] == j.pendulum {
			sum += math.Abs(k.moments.Mu[c]) * math.Hypot(k.bodies.PivotX[c], k.bodies.PivotY[c])
		}
	}
	return sum
}

// groups puts conditions that need one another together, and before a group
// what it needs: leaves first.
func (v *survey) groups(n int) (list [][]int) {
	needs := v.moves
	for m := 0; m < n; m++ {
		for i := 0; i < n; i++ {
			for j := 0; j < n; j++ {
				needs[i][j] = needs[i][j] || needs[i][m] && needs[m][j]
			}
		}
	}
	placed := make([]bool, n)
	for count := 0; count < n; {
		for i := 0; i < n; i++ {
			if placed[i] || !ready(&needs, placed, i) {
				continue
			}
			var group []int
			for j := 0; j < n; j++ {
				if j == i || needs[i][j] && needs[j][i] {
					group = append(group, j)
					placed[j] = true
					count++
				}
			}
			list = append(list, group)
		}
	}
	return list
}

// ready tells whether all that i needs, but for what needs i too, is placed.
func ready(needs *[maxJobs][maxJobs]bool, placed []bool, i int) bool {
	for j := range placed {
		if needs[i][j] && !needs[j][i] && !placed[j] {
			return false
		}
	}
	return true
}

// start is a place of a group, in shares of its ranges, and how far from the middles
// it is.
type start struct {
	at  []float64
	far float64
}

// gridded is the largest group whose starts are a grid, of 9 by 9 or 5 by 5 by 5
// places; a larger one has a cross of 9 along each range.
const gridded = 3

// startsOf lists starts of n unknowns, nearest to the middles first.
func startsOf(n int) (list []start) {
	each := map[int]int{2: 9, 3: 5}[n]
	add := func(at []float64) {
		far := 0.0
		for _, x := range at {
			far = math.Hypot(far, x-0.5)
		}
		list = append(list, start{at, far})
	}
	if n > gridded {
		add(slices.Repeat([]float64{0.5}, n))
		for i := range n {
			for k := range 9 {
				at := slices.Repeat([]float64{0.5}, n)
				if at[i] = float64(k) / 8; k != 4 {
					add(at)
				}
			}
		}
	} else {
		count := int(math.Pow(float64(each), float64(n)))
		for c := range count {
			at := make([]float64, n)
			for i, left := 0, c; i < n; i++ {
				at[i] = float64(left%each) / float64(each-1)
				left /= each
			}
			add(at)
		}
	}
	slices.SortStableFunc(list, func(a, b start) int { return cmp.Compare(a.far, b.far) })
	return list
}

// bent tells whether the slopes of a group change with where it stands: then it may
// have several solutions.
func (k *workedOut) bent(group []int) (bent bool) {
	k.sample(func() {
		if bent || !k.linearise(group) {
			return
		}
		first := k.system.a
		for _, share := range [...]float64{0, 0.3, 0.7, 1} {
			k.place(group, slices.Repeat([]float64{share}, len(group)))
			if !k.linearise(group) {
				continue
			}
			for r := range group {
				largest := 0.0
				for c := range group {
					largest = math.Max(largest, math.Abs(first[r][c]))
				}
				for c := range group {
					bent = bent || math.Abs(k.system.a[r][c]-first[r][c]) > crooked*largest
				}
			}
		}
	})
	return bent
}

// findFaults lists what no values can solve.
func (k *workedOut) findFaults(p *workPlan, v *survey) {
	names := k.w.evaluator.rig.Pendulums
	for i := range k.jobs {
		if j := &k.jobs[i]; v.seen[i] && !v.moves[i][i] {
			p.faults = append(p.faults, space.Fault{
				Unknown: j.unknown, Text: "it cannot " + j.purpose(names[j.pendulum].Name) + ": nothing that it moves changes that",
				Mend: "let it move a mass or a place that does, or turn it into a searched range",
			})
		}
	}
	if len(p.faults) > 0 {
		return
	}
	for _, g := range p.groups {
		if len(g) > 1 && k.lameGroup(g) {
			p.faults = append(p.faults, k.togetherFault(g))
		}
	}
}

// purpose is what a job is for, in words.
func (j *job) purpose(name string) string {
	if j.want == nil {
		return "level “" + name + "”"
	}
	return "set the period of “" + name + "”"
}

func (k *workedOut) togetherFault(group []int) space.Fault {
	var words []string
	for _, at := range group {
		j := &k.jobs[at]
		rig := k.w.evaluator.rig
		words = append(words, fmt.Sprintf("“%s” should %s", rig.Unknowns[j.unknown].Name, j.purpose(rig.Pendulums[j.pendulum].Name)))
	}
	return space.Fault{
		Unknown: k.jobs[group[len(group)-1]].unknown,
		Text:    strings.Join(words, ", ") + ": these cannot all be done at once, since they move the same thing",
		Mend:    "let one of them move something else, or turn it into a searched range",
	}
}

// lameGroup tells that the unknowns of a group could nowhere keep its
// conditions.
func (k *workedOut) lameGroup(group []int) bool {
	largest := 0.0
	k.sample(func() {
		if k.linearise(group) {
			largest = math.Max(largest, k.system.determinant(len(group)))
		}
	})
	return largest < lame
}

// determinant is that of the slopes, over the product of the rows' lengths.
func (s *system) determinant(n int) float64 {
	a, det := s.a, 1.0
	for i := 0; i < n; i++ {
		length := 0.0
		for j := 0; j < n; j++ {
			length = math.Hypot(length, a[i][j])
		}
		if length == 0 {
			return 0
		}
		for j := 0; j < n; j++ {
			a[i][j] /= length
		}
	}
	for c := 0; c < n; c++ {
		p := c
		for r := c + 1; r < n; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[p][c]) {
				p = r
			}
		}
		if a[p][c] == 0 {
			return 0
		}
		a[c], a[p] = a[p], a[c]
		det *= math.Abs(a[c][c])
		for r := c + 1; r < n; r++ {
			reduce(&a[r], &a[c], c, n)
		}
	}
	return det
}

// Mistakes are what the mechanics finds wrong with the rig file: unknowns that
// should be worked out but cannot be. Nil where there are none, else
// *space.Mistakes.
func (e *Evaluator) Mistakes() error {
	if e.work == nil {
		return nil
	}
	return e.rig.MistakesOf(e.work.faults)
}
