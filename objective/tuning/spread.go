package tuning

import (
	"math"
	"slices"

	"evenswing/objective/mass"
	"evenswing/objective/motion"
	"evenswing/space"
)

// Spread is what a maker's errors of measure do to a rig's targets, to first
// order: var = Σ (∂e/∂s)² σ_s² over the independent sources s, by the exact
// derivatives at the design. It holds for errors that are small against the
// distance of the modes; where two modes are nearly equal, builds drawn by chance
// tell more.
type Spread struct {
	Targets  []Target
	Sources  []Source
	design   *space.Design
	numbers  []*float64
	n        int                // pendulums
	children [motion.Max][]int  // of every pendulum
	periods  [motion.Max]Bodies // by pendulum: gradient of ln of its own mode's period
	tilts    [motion.Max]Bodies
	own      [motion.Max]covariance
	felt     [motion.Max][]int         // by pendulum: the figures that feel its parts, rising
	carried  [figures][4]float64       // scratch: by figure that is felt, the covariance times its gradient
	lengths  [motion.Max][]int         // by pendulum: places of lengths that are wrong by themselves
	others   []int                     // the sources that are not among these
	joint    [figures][figures]float64 // L of the covariance L Lᵀ of all figures
	made     [][2]int                  // by target: the figure that it is, and the one taken off it
	detail   []float64                 // by source, then target: ∂e/∂s σ_s
}

// figures is the largest number of figures that all targets are made of: of each
// pendulum ln of its own period, then the tilts.
const figures = 2 * motion.Max

// covariance is that of a pendulum's own mass, first moment and inertia.
type covariance [4][4]float64

// NewSpread makes the spread of the candidates that a design will hold, one after
// the other; it also tells which cuts go right through. It allocates.
func (l *Layout) NewSpread(d *space.Design) *Spread {
	s := &Spread{Targets: NewTargets(d), Sources: l.Sources(d), design: d, numbers: d.Numbers(), n: len(d.Pendulums)}
	s.detail = make([]float64, len(s.Sources)*len(s.Targets))
	for i := range d.Pendulums {
		s.felt[i] = figuresOf(d, i)
	}
	for k := range s.Sources {
		if x := &s.Sources[k]; x.Kind == Length && len(x.places) == 1 {
			s.lengths[x.Pendulum] = append(s.lengths[x.Pendulum], x.places[0])
		} else {
			s.others = append(s.others, k)
		}
	}
	for t := range s.Targets {
		s.made = append(s.made, madeOf(&s.Targets[t], d))
	}
	for i := range d.Pendulums {
		if p := d.Pendulums[i].Parent; p != space.Wall {
			s.children[p] = append(s.children[p], i)
		}
	}
	return s
}

// figuresOf lists the figures that the parts of a pendulum move: every period, and
// the tilts of itself and of all that carries it.
func figuresOf(d *space.Design, pendulum int) (list []int) {
	n := len(d.Pendulums)
	for k := range n {
		list = append(list, k)
	}
	for i := pendulum; i != space.Wall; i = d.Pendulums[i].Parent {
		list = append(list, n+i)
	}
	slices.Sort(list)
	return list
}

// To works the spread out for the design's present candidate, loaded in r, with
// its slopes. It allocates nothing.
//
// The errors of one pendulum's parts act through four numbers: their covariance
// is gathered first, then carried to the figures, G C Gᵀ.
func (s *Spread) To(r *Rig, slopes *Slopes) {
	n := s.n
	for i := 0; i < n; i++ {
		r.PeriodGradientTo(&s.periods[i], r.modes.Own[i])
		r.TiltGradientTo(&s.tilts[i], i)
		s.own[i] = covariance{}
		for _, place := range s.lengths[i] {
			s.own[i].add(&slopes.numbers[place], s.design.Tolerance.Length)
		}
		clear(s.joint[i][:2*n])
		clear(s.joint[n+i][:2*n])
	}
	for _, k := range s.others {
		source := &s.Sources[k]
		sd := source.Sd(&s.design.Tolerance)
		if source.Kind > Density {
			s.addHanging(source, sd, r)
			continue
		}
		e := source.effect(r, slopes, s.numbers)
		s.own[source.Pendulum].add(&e.own, sd)
	}
	for i := 0; i < n; i++ {
		s.addOwn(i)
	}
	factorise(&s.joint, 2*n)
}

// figure is the gradient of a figure.
func (s *Spread) figure(k int) *Bodies {
	if k < s.n {
		return &s.periods[k]
	}
	return &s.tilts[k-s.n]
}

// addHanging adds an error of an edge or a seat to the joint covariance: the same
// as its effect on every figure, written out. Of the tilts it moves one alone, that
// of the pendulum whose edge or whose child's seat it is.
func (s *Spread) addHanging(source *Source, sd float64, r *Rig) {
	var x [motion.Max]float64
	i, b, n, tilts := source.Pendulum, &r.Bodies, s.n, source.Pendulum
	switch source.Kind {
	case SeatX:
		for k := range n {
			x[k] = sd * s.periods[k].PivotX[i]
		}
		tilts = r.Forest.Parent[i]
	case SeatY:
		for k := range n {
			x[k] = sd * s.periods[k].PivotY[i]
		}
		tilts = r.Forest.Parent[i]
	case EdgeX:
		for k := range n {
			x[k] = sd * s.edgeX(&s.periods[k], i, b)
		}
	default:
		for k := range n {
			x[k] = sd * s.edgeY(&s.periods[k], i, b)
		}
	}
	for k := range n {
		row, y := &s.joint[k], x[k]
		for l := 0; l <= k; l++ {
			row[l] += y * x[l]
		}
	}
	g, row := &s.tilts[tilts], &s.joint[n+tilts]
	var y float64
	switch source.Kind {
	case SeatX:
		y = sd * g.PivotX[i]
	case SeatY:
		y = sd * g.PivotY[i]
	case EdgeX:
		y = sd * s.edgeX(g, i, b)
	default:
		y = sd * s.edgeY(g, i, b)
	}
	for l := range n {
		row[l] += y * x[l]
	}
	row[n+tilts] += y * y
}

// edgeX is what the edge of pendulum i a unit to the right does to a figure.
func (s *Spread) edgeX(g *Bodies, i int, b *Bodies) float64 {
	x := -b.Mass[i]*g.Mx[i] - 2*b.Mx[i]*g.Inertia[i]
	for _, c := range s.children[i] {
		x -= g.PivotX[c]
	}
	return x
}

// edgeY is that of the edge a unit up.
func (s *Spread) edgeY(g *Bodies, i int, b *Bodies) float64 {
	x := -b.Mass[i]*g.My[i] - 2*b.My[i]*g.Inertia[i]
	for _, c := range s.children[i] {
		x -= g.PivotY[c]
	}
	return x
}

// addOwn adds the errors of one pendulum's parts to the joint covariance.
func (s *Spread) addOwn(i int) {
	c := &s.own[i]
	c.mirror()
	h := &s.carried
	for at, k := range s.felt[i] {
		b, y := s.figure(k), &h[at]
		m, mx, my, inertia := b.Mass[i], b.Mx[i], b.My[i], b.Inertia[i]
		for a := range 4 {
			y[a] = c[a][0]*m + c[a][1]*mx + c[a][2]*my + c[a][3]*inertia
		}
		row := &s.joint[k]
		for to, l := range s.felt[i][:at+1] {
			y := &h[to]
			row[l] += m*y[0] + mx*y[1] + my*y[2] + inertia*y[3]
		}
	}
}

// add puts the square of a slope, sd times, on top of the lower half.
func (c *covariance) add(e *mass.Slope, sd float64) {
	m, x, y, i := sd*e.Mass, sd*e.Mx, sd*e.My, sd*e.Inertia
	c[0][0] += m * m
	c[1][0] += x * m
	c[1][1] += x * x
	c[2][0] += y * m
	c[2][1] += y * x
	c[2][2] += y * y
	c[3][0] += i * m
	c[3][1] += i * x
	c[3][2] += i * y
	c[3][3] += i * i
}

// mirror fills the upper half.
func (c *covariance) mirror() {
	for i := range 4 {
		for j := range i {
			c[j][i] = c[i][j]
		}
	}
}

// rankless is the share of a variance below which what is left of it counts as
// rounding.
const rankless = 1e-13

// factorise puts L of C = L Lᵀ, C given by its lower half, in the place of C; a
// column of nought where C has no rank left.
func factorise(c *[figures][figures]float64, n int) {
	for j := 0; j < n; j++ {
		variance, left := c[j][j], c[j][j]
		for k := 0; k < j; k++ {
			left -= c[j][k] * c[j][k]
		}
		if !(left > rankless*variance) {
			for i := j; i < n; i++ {
				c[i][j] = 0
			}
			continue
		}
		root := math.Sqrt(left)
		c[j][j] = root
		for i := j + 1; i < n; i++ {
			sum := c[i][j]
			for k := 0; k < j; k++ {
				sum -= c[i][k] * c[j][k]
			}
			c[i][j] = sum / root
		}
	}
}

// errorsTo fills dst with what one of 2n independent errors of size 1, which
// together are as good as all sources, does to every target.
func (s *Spread) errorsTo(dst []float64, c int) {
	for k := range s.Targets {
		plus, minus := s.made[k][0], s.made[k][1]
		dst[k] = s.joint[plus][c]
		if minus >= 0 {
			dst[k] -= s.joint[minus][c]
		}
	}
}

// Sd is the standard deviation of a target's error.
func (s *Spread) Sd(target int) float64 {
	plus, minus := s.made[target][0], s.made[target][1]
	sum := 0.0
	for c := range 2 * s.n {
		x := s.joint[plus][c]
		if minus >= 0 {
			x -= s.joint[minus][c]
		}
		sum += x * x
	}
	return math.Sqrt(sum)
}

// madeOf is the figure that a target is, and the one that is taken off it; −1 for
// none.
func madeOf(t *Target, d *space.Design) [2]int {
	switch t.Kind {
	case Period:
		return [2]int{d.Targets.Periods[t.Index].Pendulum, -1}
	case Ratio:
		p := &d.Targets.Ratios[t.Index]
		return [2]int{p.Slow, p.Fast}
	}
	return [2]int{len(d.Pendulums) + t.Index, -1}
}
