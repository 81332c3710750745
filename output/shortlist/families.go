package shortlist

import "math"

// Apart is how far two designs of different families are from one another: the
// root mean square, over the searched unknowns, of their differences in the
// unit cube, where every range has length 1. Two points drawn evenly are 0.41
// apart on average; polished designs of one kind agree within a few hundredths.
const Apart = 0.15

// halvings is how often the distance is halved where there are fewer families
// than designs asked for, before any two different designs do: 0.15 to 0.0023,
// less than a workshop can build apart.
const halvings = 6

// distances are those asked for, one after the other; the last takes any
// design that is not the same.
func distances() []float64 {
	list := make([]float64, 0, halvings+2)
	for k := range halvings + 1 {
		list = append(list, math.Ldexp(Apart, -k))
	}
	return append(list, 0)
}

// family is a growing set of designs of which no two are within a distance.
type family struct {
	pool    *pool
	limit   float64 // the distance squared, times the number of unknowns
	leaders []int
	recent  []int // the leaders, those that turned designs away last in front
}

func newFamily(p *pool, apart float64) *family {
	return &family{pool: p, limit: apart * apart * float64(p.unknowns)}
}

// take adds a design unless it is within the distance of a leader.
func (f *family) take(design int) bool {
	point := f.pool.point(design)
	for n, leader := range f.recent {
		if near(point, f.pool.point(leader), f.limit) {
			f.turnedAway(n)
			return false
		}
	}
	f.add(design)
	return true
}

// turnedAway brings the leader that did it to the front, half way: sooner next
// time.
func (f *family) turnedAway(n int) {
	f.recent[n], f.recent[n/2] = f.recent[n/2], f.recent[n]
}

// add adds a design, near a leader or not.
func (f *family) add(design int) {
	f.leaders = append(f.leaders, design)
	f.recent = append(f.recent, design)
}

// near tells whether the squared distance of two points is at most limit.
func near(a, b []float32, limit float64) bool {
	sum := 0.0
	for i, x := range a {
		d := float64(x) - float64(b[i])
		sum += d * d
		if sum > limit {
			return false
		}
	}
	return true
}

// squared is the square of the distance of two designs, in mean over the
// unknowns; 0 where there are none.
func (p *pool) squared(i, j int) float64 {
	sum := 0.0
	a, b := p.point(i), p.point(j)
	for k, x := range a {
		d := float64(x) - float64(b[k])
		sum += d * d
	}
	return sum / float64(max(len(a), 1))
}
