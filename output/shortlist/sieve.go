package shortlist

import (
	"slices"

	"evenswing/output/dataset"
)

// sieve holds the lists of leaders that a ranking has found so far. A design
// that none of them has a place for is passed over before it costs memory or
// sorting. Empty, it lets everything pass.
type sieve []leaders

// leaders are a family in the making: the designs of one distance.
type leaders struct {
	*family
	most    int          // leaders that are wanted
	meeting bool         // it takes designs that meet every limit alone
	full    bool         // it has all that are wanted,
	last    dataset.Best // and this is the last of them
}

// newSieve is the sieve of lists after their pool was cut down to the designs
// of kept, in rising order.
func newSieve(lists []leaders, kept []int) sieve {
	for k := range lists {
		l := &lists[k]
		for n, design := range l.leaders {
			l.leaders[n], _ = slices.BinarySearch(kept, design)
		}
		l.recent = slices.Clone(l.leaders)
		if l.full = len(l.leaders) == l.most; l.full {
			l.last = l.pool.marks[l.leaders[l.most-1]]
		}
	}
	return lists
}

// closed tells whether no list has a place for a design of that mark, wherever
// it lies.
func (s sieve) closed(mark *dataset.Best) bool {
	for k := range s {
		if !s[k].closed(mark) {
			return false
		}
	}
	return len(s) > 0
}

// passes tells whether a list has a place for a design of its pool.
func (s sieve) passes(design int) bool {
	for k := range s {
		if s[k].passes(design) {
			return true
		}
	}
	return len(s) == 0
}

func (l *leaders) closed(mark *dataset.Best) bool {
	return l.meeting && !mark.Meets || l.full && !mark.Before(l.last)
}

// passes tells whether no better leader is near.
func (l *leaders) passes(design int) bool {
	mark := &l.pool.marks[design]
	if l.closed(mark) {
		return false
	}
	point := l.pool.point(design)
	for n, leader := range l.recent {
		if near(point, l.pool.point(leader), l.limit) && l.pool.marks[leader].Before(*mark) {
			l.turnedAway(n)
			return false
		}
	}
	return true
}
