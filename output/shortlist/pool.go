package shortlist

import (
	"cmp"
	"slices"

	"evenswing/output/dataset"
)

// pool holds designs, their points side by side in one array.
type pool struct {
	unknowns int
	marks    []dataset.Best // by design: what it is ranked by
	points   []float32      // designs x unknowns, in the unit cube
}

func (p *pool) point(i int) []float32 {
	return p.points[i*p.unknowns : (i+1)*p.unknowns]
}

// push adds a design, row i of columns.
func (p *pool) push(mark dataset.Best, columns [][]float32, i int) {
	p.marks = append(p.marks, mark)
	for _, column := range columns {
		p.points = append(p.points, column[i])
	}
}

// pop takes the last one off.
func (p *pool) pop() {
	p.marks = p.marks[:len(p.marks)-1]
	p.points = p.points[:len(p.points)-p.unknowns]
}

// add copies a design of another pool.
func (p *pool) add(from *pool, i int) {
	p.marks = append(p.marks, from.marks[i])
	p.points = append(p.points, from.point(i)...)
}

// rank lists the designs from the best to the last: those that keep every
// limit by score, then the others by their hardest limit and then by score;
// equals by id, so that the order is the same however they came.
func (p *pool) rank() []int {
	order := make([]int, len(p.marks))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		x, y := &p.marks[a], &p.marks[b]
		switch {
		case x.Before(*y):
			return -1
		case y.Before(*x):
			return 1
		}
		return cmp.Compare(a, b) // the same design twice
	})
	return order
}

// keep drops all designs but those listed.
func (p *pool) keep(list []int) {
	kept := pool{unknowns: p.unknowns}
	for _, i := range list {
		kept.add(p, i)
	}
	p.marks = append(p.marks[:0], kept.marks...)
	p.points = append(p.points[:0], kept.points...)
}
