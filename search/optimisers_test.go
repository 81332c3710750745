package search

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"slices"
	"testing"

	"evenswing/objective"
	"evenswing/space"
)

// published is a test problem with a known answer.
type published struct {
	low, high []float64
	steps     []int // 0 for continuous, by unknown; nil for all continuous
	f         func(x []float64) float64
	broken    func(x []float64) float64   // largest relative breach of a constraint; nil for none
	roots     func(x []float64) []float64 // whose squares add up to f; nil where f is no such sum
}

// record is what testdata/checks/optimisers.json says of a problem.
type record struct {
	Name   string
	Least  float64
	At     []float64
	Source string
	Check  []struct {
		At    []float64
		Value float64
	}
	Within      float64
	Evaluations int
}

func loadRecords(t *testing.T) []record {
	t.Helper()
	data, err := os.ReadFile("../testdata/checks/optimisers.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Problems []record }
	if err := json.Unmarshal(data, &file); err != nil || len(file.Problems) != 11 {
		t.Fatalf("%d problems, %v", len(file.Problems), err)
	}
	return file.Problems
}

// The formulas give the published values at the published points.
func TestPublishedFormulas(t *testing.T) {
	for _, r := range loadRecords(t) {
		p := publishedProblems[r.Name]
		// Points have 8 digits or more; constrained minima lie on steep sides.
		if got := p.f(r.At); math.Abs(got-r.Least) > 1e-7*max(1, math.Abs(r.Least)) {
			t.Errorf("%s: %v at the minimum, want %v", r.Name, got, r.Least)
		}
		if p.broken != nil && p.broken(r.At) > 1e-7 {
			t.Errorf("%s: the minimum breaks a constraint by %v", r.Name, p.broken(r.At))
		}
		for _, c := range r.Check {
			if got := p.f(c.At); math.Abs(got-c.Value) > 1e-12*max(1, c.Value) && math.Abs(got-c.Value) > 1e-8 {
				t.Errorf("%s: f(%v) = %v, want %v", r.Name, c.At, got, c.Value)
			}
		}
	}
}

// Every seed reaches the published minimum in the stated evaluations, and none
// gets below it: by breeding and simplex, and by all three stages where the
// problem also hands out residuals.
func TestPublishedMinima(t *testing.T) {
	for _, r := range loadRecords(t) {
		for _, squares := range []bool{false, true} {
			t.Run(fmt.Sprintf("%s, least squares %v", r.Name, squares), func(t *testing.T) {
				t.Parallel()
				reachMinimum(t, &publishedRun{publishedProblems[r.Name], r, squares})
			})
		}
	}
}

func reachMinimum(t *testing.T, p *publishedRun) {
	t.Helper()
	r, most, descents := &p.record, 0, 0
	budget := r.Evaluations
	if p.squares {
		budget += standard.descents * mostDescent // what least squares may spend before the others begin
	}
	for seed := range uint64(6) {
		plan := Plan{Seed: seed + 1, Evaluations: budget, Islands: 1, Epochs: 1}
		m := newMemory()
		m.see = func(row *Row) error {
			if row.Stage == LeastSquares {
				descents++
			}
			return nil
		}
		s, err := RunTask(t.Context(), p, plan, Task{}, counted{m})
		if err != nil || s.FirstMeets == NoParent {
			t.Fatalf("seed %d: %+v after %d evaluations, %v", plan.Seed, s.Best, s.Evaluations, err)
		}
		_, first := RowTask(s.FirstMeets)
		most = max(most, first+1)
		if s.Best.Verdict.Score < -1e-6 {
			t.Errorf("seed %d: below the minimum by %v", plan.Seed, -s.Best.Verdict.Score)
		}
	}
	if (descents > 0) != p.squares {
		t.Errorf("%d evaluations by least squares", descents)
	}
	t.Logf("%s: within %v after %d evaluations at most, of %d; %d by least squares", r.Name, r.Within, most, budget, descents)
}

// counted is a memory that only shows rows to see.
type counted struct{ *memory }

func (c counted) Begin(Task) (Recorder, error) { return counter(c), nil }

type counter struct{ *memory }

func (c counter) Record(row *Row) error { return c.see(row) }
func (counter) Finish() error           { return nil }
func (counter) Discard()                {}

// publishedRun makes a Problem of a published problem: the score is how far a
// point is above the least value, relative to it; a constraint that is broken
// costs ten times its relative breach, which is more than breaking it gains.
type publishedRun struct {
	published
	record
	squares bool // it hands out residuals too
}

func (p *publishedRun) Genes() []space.Gene {
	genes := continuous(len(p.low))
	for i, n := range p.steps {
		genes[i].Count, genes[i].Ordered = n, true
	}
	return genes
}

func (p *publishedRun) NewScorer() Scorer {
	s := &publishedScorer{p, make([]float64, len(p.low)), make([]float64, len(p.low))}
	if p.squares {
		return &publishedSquares{s, s.Genes()}
	}
	return s
}

type publishedScorer struct {
	*publishedRun
	x, point []float64
}

// publishedSquares writes the score as a sum of squares: f's own where it is one, else
// the root of how far the point is above the least value; and that of what breaks a
// constraint. Their slopes are differences: these problems know no others.
type publishedSquares struct {
	*publishedScorer
	cube []space.Gene
}

func (s *publishedSquares) Residuals() int {
	if s.roots != nil {
		return len(s.roots(s.low))
	}
	return 2
}

func (s *publishedSquares) ResidualsTo(dst []float64) bool {
	if s.roots != nil {
		copy(dst, s.roots(s.x))
		return true
	}
	above, broken := s.split()
	dst[0], dst[1] = math.Sqrt(max(0, above)), math.Sqrt(10*broken)
	return true
}

func (s *publishedSquares) SlopesTo(dst []float64) bool {
	const h = 1e-6
	at, n, m := slices.Clone(s.point), len(s.point), s.Residuals()
	high, low := make([]float64, m), make([]float64, m)
	clear(dst)
	for i := range at {
		if s.cube[i].Count > 0 {
			continue
		}
		point := slices.Clone(at)
		point[i] = at[i] + h
		s.Score(point)
		s.ResidualsTo(high)
		point[i] = at[i] - h
		s.Score(point)
		s.ResidualsTo(low)
		for r := range high {
			dst[r*n+i] = (high[r] - low[r]) / (2 * h)
		}
	}
	s.Score(at)
	return true
}

func (s *publishedScorer) Score(point []float64) objective.Verdict {
	copy(s.point, point)
	for i, t := range point {
		if s.steps != nil && s.steps[i] > 1 {
			t = float64(cell(t, s.steps[i])) / float64(s.steps[i]-1)
		}
		s.x[i] = s.low[i] + (s.high[i]-s.low[i])*t
	}
	above, breach := s.split()
	v := objective.Verdict{Score: above + 10*breach, Exists: true, Meets: objective.No}
	v.Worst = v.Score / s.Within
	if v.Worst <= 1 {
		v.Meets = objective.Yes
	}
	return v
}

// split is how far the point last scored is above the least value, relative to it,
// and its largest relative breach of a constraint.
func (s *publishedScorer) split() (above, breach float64) {
	scale := math.Abs(s.Least)
	if scale == 0 {
		scale = 1
	}
	if s.broken != nil {
		breach = max(0, s.broken(s.x))
	}
	return (s.f(s.x) - s.Least) / scale, breach
}

func (s *publishedScorer) RowTo([]float32, []bool) {}

func fill(n int, v float64) []float64 {
	list := make([]float64, n)
	for i := range list {
		list[i] = v
	}
	return list
}

var publishedProblems = map[string]published{
	"Rosenbrock 2":    {low: fill(2, -5), high: fill(2, 10), f: rosenbrock, roots: rosenbrockRoots},
	"Rosenbrock 5":    {low: fill(5, -5), high: fill(5, 10), f: rosenbrock, roots: rosenbrockRoots},
	"Himmelblau":      {low: fill(2, -5), high: fill(2, 5), f: himmelblau, roots: himmelblauRoots},
	"Rastrigin 5":     {low: fill(5, -5.12), high: fill(5, 5.12), f: rastrigin},
	"Ackley 2":        {low: fill(2, -30), high: fill(2, 35), f: ackley},
	"Hartmann 3":      {low: fill(3, 0), high: fill(3, 1), f: hartmann(hartmann3A, hartmann3P)},
	"Hartmann 6":      {low: fill(6, 0), high: fill(6, 1), f: hartmann(hartmann6A, hartmann6P)},
	"welded beam":     {low: fill(4, 0.1), high: []float64{2, 10, 10, 2}, f: weldedCost, broken: weldedBroken},
	"spring":          {low: []float64{0.05, 0.25, 2}, high: []float64{2, 1.3, 15}, f: springMass, broken: springBroken},
	"pressure vessel": {low: []float64{1. / 16, 1. / 16, 10, 10}, high: []float64{99. / 16, 99. / 16, 200, 200}, steps: []int{99, 99, 0, 0}, f: vesselCost, broken: vesselBroken},
	"three-bar truss": {low: fill(2, 0), high: fill(2, 1), f: trussMass, broken: trussBroken},
}

func rosenbrock(x []float64) float64 {
	sum := 0.0
	for i := range x[1:] {
		a, b := x[i+1]-x[i]*x[i], 1-x[i]
		sum += 100*a*a + b*b
	}
	return sum
}

func rosenbrockRoots(x []float64) (roots []float64) {
	for i := range x[1:] {
		roots = append(roots, 10*(x[i+1]-x[i]*x[i]), 1-x[i])
	}
	return roots
}

func himmelblauRoots(x []float64) []float64 {
	return []float64{x[0]*x[0] + x[1] - 11, x[0] + x[1]*x[1] - 7}
}

func himmelblau(x []float64) float64 {
	a, b := x[0]*x[0]+x[1]-11, x[0]+x[1]*x[1]-7
	return a*a + b*b
}

func rastrigin(x []float64) float64 {
	sum := 0.0
	for _, t := range x {
		sum += t*t + 10 - 10*math.Cos(2*math.Pi*t)
	}
	return sum
}

func ackley(x []float64) float64 {
	squares, cosines, n := 0.0, 0.0, float64(len(x))
	for _, t := range x {
		squares += t * t
		cosines += math.Cos(2 * math.Pi * t)
	}
	return 20 + math.E - 20*math.Exp(-0.2*math.Sqrt(squares/n)) - math.Exp(cosines/n)
}

// hartmann is −Σ αᵢ exp(−Σ Aᵢⱼ (xⱼ − Pᵢⱼ)²), P in units of 1e-4.
func hartmann(a, p [4][]float64) func([]float64) float64 {
	alpha := [4]float64{1, 1.2, 3, 3.2}
	return func(x []float64) float64 {
		sum := 0.0
		for i := range alpha {
			e := 0.0
			for j, t := range x {
				d := t - 1e-4*p[i][j]
				e += a[i][j] * d * d
			}
			sum -= alpha[i] * math.Exp(-e)
		}
		return sum
	}
}

var (
	hartmann3A = [4][]float64{{3, 10, 30}, {0.1, 10, 35}, {3, 10, 30}, {0.1, 10, 35}}
	hartmann3P = [4][]float64{{3689, 1170, 2673}, {4699, 4387, 7470}, {1091, 8732, 5547}, {381, 5743, 8828}}
	hartmann6A = [4][]float64{{10, 3, 17, 3.5, 1.7, 8}, {0.05, 10, 17, 0.1, 8, 14}, {3, 3.5, 1.7, 10, 17, 8}, {17, 8, 0.05, 10, 0.1, 14}}
	hartmann6P = [4][]float64{{1312, 1696, 5569, 124, 8283, 5886}, {2329, 4135, 8307, 3736, 1004, 9991}, {2348, 1451, 3522, 2883, 3047, 6650}, {4047, 8828, 8732, 5743, 1091, 381}}
)

// Welded beam: weld height h and length l, beam height t and thickness b, in
// inches; load 6000 lb at 14 in.
func weldedCost(x []float64) float64 {
	h, l, t, b := x[0], x[1], x[2], x[3]
	return 1.10471*h*h*l + 0.04811*t*b*(14+l)
}

func weldedBroken(x []float64) float64 {
	const load, length, young, shear = 6000.0, 14.0, 30e6, 12e6
	h, l, t, b := x[0], x[1], x[2], x[3]
	arm2 := l*l/4 + (h+t)*(h+t)/4
	direct := load / (math.Sqrt2 * h * l)
	polar := 2 * math.Sqrt2 * h * l * (l*l/12 + (h+t)*(h+t)/4)
	turning := load * (length + l/2) * math.Sqrt(arm2) / polar
	tau := math.Sqrt(direct*direct + direct*turning*l/math.Sqrt(arm2) + turning*turning)
	sigma := 6 * load * length / (b * t * t)
	sag := 4 * load * length * length * length / (young * t * t * t * b)
	buckling := 4.013 * young * t * b * b * b / 6 / (length * length) * (1 - t/(2*length)*math.Sqrt(young/(4*shear)))
	cost := 0.10471*h*h + 0.04811*t*b*(14+l)
	return max(tau/13_600-1, sigma/30_000-1, h/b-1, cost/5-1, 1-h/0.125, sag/0.25-1, 1-buckling/load)
}

// Spring: wire diameter d, coil diameter D, number of coils n.
func springMass(x []float64) float64 { return (x[2] + 2) * x[1] * x[0] * x[0] }

func springBroken(x []float64) float64 {
	w, d, n := x[0], x[1], x[2]
	return max(
		1-d*d*d*n/(71_785*w*w*w*w),
		(4*d*d-w*d)/(12_566*(d*w*w*w-w*w*w*w))+1/(5108*w*w)-1,
		1-140.45*w/(d*d*n),
		(w+d)/1.5-1,
	)
}

// Pressure vessel: thickness of shell and head, radius and length, in inches.
func vesselCost(x []float64) float64 {
	s, h, r, l := x[0], x[1], x[2], x[3]
	return 0.6224*s*r*l + 1.7781*h*r*r + 3.1661*s*s*l + 19.84*s*s*r
}

func vesselBroken(x []float64) float64 {
	s, h, r, l := x[0], x[1], x[2], x[3]
	volume := math.Pi*r*r*l + 4./3*math.Pi*r*r*r
	return max(0.0193*r/s-1, 0.00954*r/h-1, 1-volume/1_296_000, l/240-1)
}

// Three-bar truss: cross-sections of the outer bars and of the middle one.
func trussMass(x []float64) float64 { return 100 * (2*math.Sqrt2*x[0] + x[1]) }

func trussBroken(x []float64) float64 {
	a, b := x[0], x[1]
	area := math.Sqrt2*a*a + 2*a*b
	if area == 0 {
		return 1e6
	}
	return max((math.Sqrt2*a+b)/area-1, b/area-1, 1/(math.Sqrt2*b+a)-1)
}
