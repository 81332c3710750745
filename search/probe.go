package search

import (
	"iter"
	"maps"
	"math"
	"slices"

	"evenswing/objective"
)

// Probed is what a number of even points tell of a space.
type Probed struct {
	Points, Exist, Meet int
	Least               []float64 // least utilisation of each subject; +Inf where no point has one
	Reasons             Reasons
}

// Reasons counts why points cannot exist.
type Reasons map[string]int

// Sorted yields the reasons in the order of the alphabet.
func (r Reasons) Sorted() iter.Seq2[string, int] {
	return func(yield func(string, int) bool) {
		for _, text := range slices.Sorted(maps.Keys(r)) {
			if !yield(text, r[text]) {
				return
			}
		}
	}
}

// Probe scores n points spread evenly over the space of a rig: always the same
// ones.
func Probe(e *objective.Evaluator, n int) Probed {
	points := make([][]float64, n)
	for i := range points {
		points[i] = make([]float64, e.Rig().Dim())
	}
	latinTo(points, newDice(DefaultSeed, Task{}, 0))
	p := Probed{Points: n, Least: make([]float64, len(e.Subjects())), Reasons: Reasons{}}
	for k := range p.Least {
		p.Least[k] = math.Inf(1)
	}
	w := e.NewWorkspace()
	for _, point := range points {
		p.add(w, w.Score(point))
	}
	return p
}

func (p *Probed) add(w *objective.Workspace, v objective.Verdict) {
	if !v.Exists {
		reason, _ := w.Reason()
		p.Reasons[reason]++
		return
	}
	p.Exist++
	if v.Meets == objective.Yes {
		p.Meet++
	}
	for k := range p.Least {
		if u, ok := w.Utilisation(k); ok {
			p.Least[k] = min(p.Least[k], u)
		}
	}
}
