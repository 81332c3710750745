package shortlist

import (
	"math"
	"slices"

	"evenswing/objective"
	"evenswing/output/dataset"
)

// Sizes that bound memory: a Ranking holds chunkRows designs and what it keeps
// of earlier ones, however many rows it is shown; settled, at most MostFamilies
// and eight times the designs asked for.
const (
	// chunkRows is how many designs are gathered before all but the leaders of
	// their families are dropped.
	chunkRows = 1 << 16
	// MostFamilies is how many families that meet every limit are kept of a
	// shard, and counted in all.
	MostFamilies = 1024
)

// Rows are designs to be ranked, column by column.
type Rows struct {
	IDs           []int64
	Scores, Worst []float32
	Meets, Exists []objective.Meets
	Screened      []bool      // the averaged motion did not enter; nil: nowhere
	Points        [][]float32 // by searched unknown, then row; in the unit cube
}

// Ranking finds designs that are good and different. Each shard of a run has
// one of its own; Join puts them together. It belongs to one goroutine.
//
// It goes through the designs from the best to the last and takes each that is
// more than a distance from all it took before. What it finds depends on which
// rows a shard holds, in their order, and on nothing else: neither on batches,
// cores nor the order of shards. A design that is dropped because it is near a
// better one stays dropped, even where that better one falls later to a still
// better one: that is the price of bounded memory. It is why shards do not
// share what they found: with one ranking an island, of 938 families in ten
// million rows 855 are found.
type Ranking struct {
	top     int
	pool    pool
	leading int   // designs of the pool that were kept from earlier chunks
	sieve   sieve // of those
}

// NewRanking starts a ranking of designs with so many searched unknowns, of
// which the best top are wanted.
func NewRanking(unknowns, top int) *Ranking {
	return &Ranking{top: max(top, 1), pool: pool{unknowns: unknowns}}
}

// Add shows it rows. Designs that cannot exist are passed over, and those that
// the leaders found so far leave no place for.
func (r *Ranking) Add(rows Rows) {
	for i, exists := range rows.Exists {
		if exists != objective.Yes {
			continue
		}
		mark := rows.mark(i)
		if r.sieve.closed(&mark) {
			continue
		}
		r.pool.push(mark, rows.Points, i)
		if !r.sieve.passes(len(r.pool.marks) - 1) {
			r.pool.pop()
		}
		if len(r.pool.marks) == r.leading+chunkRows {
			r.reduce()
		}
	}
}

// mark is what row i is ranked by.
func (rows *Rows) mark(i int) dataset.Best {
	return dataset.Best{
		ID: rows.IDs[i], Score: float64(rows.Scores[i]), Worst: float64(rows.Worst[i]),
		Meets: rows.Meets[i] == objective.Yes, Averaged: rows.Screened != nil && !rows.Screened[i],
	}
}

// screened tells whether a row lacks the averaged motion that its rig asks for.
func (rows *Rows) screened(i int) bool { return rows.Screened != nil && rows.Screened[i] }

// Closed tells whether no design can be chosen any more that fails a limit,
// its hardest limit and its score being no better than these, with the averaged
// motion or without.
func (r *Ranking) Closed(worst, score float32, averaged bool) bool {
	return r.sieve.closed(&dataset.Best{Worst: float64(worst), Score: float64(score), Averaged: averaged})
}

// reduce drops what no shortlist can need: it keeps the leaders of families
// that meet every limit, and at each distance the first top leaders.
func (r *Ranking) reduce() {
	order := r.pool.rank()
	lists := []leaders{{family: r.meeting(order), most: MostFamilies, meeting: true}}
	for _, apart := range distances() {
		f := newFamily(&r.pool, apart)
		for _, design := range order {
			if f.take(design) && len(f.leaders) == r.top {
				break
			}
		}
		lists = append(lists, leaders{family: f, most: r.top})
	}
	var kept []int
	for k := range lists {
		kept = append(kept, lists[k].leaders...)
	}
	slices.Sort(kept)
	kept = slices.Compact(kept)
	r.pool.keep(kept)
	r.leading = len(r.pool.marks)
	r.sieve = newSieve(lists, kept)
}

// Settle drops all that is no longer needed once a shard has been shown to its
// end, memory included. More rows may follow.
func (r *Ranking) Settle() {
	r.reduce()
	r.pool.marks = slices.Clone(r.pool.marks)
	r.pool.points = slices.Clone(r.pool.points)
}

// meeting finds the leaders of the families that meet every limit, at most
// MostFamilies.
func (r *Ranking) meeting(order []int) *family {
	f := newFamily(&r.pool, Apart)
	for _, design := range order {
		if !r.pool.marks[design].Meets || len(f.leaders) == MostFamilies {
			break
		}
		f.take(design)
	}
	return f
}

// List is a shortlist.
type List struct {
	Designs []Chosen // from the best to the last
	// Families is how many families meet every limit, MostFamilies meaning
	// that many or more.
	Families int
	// Nearer is how many of Designs are within Apart of a better one: there
	// were too few families to choose from.
	Nearer int
}

// Chosen is a design of a shortlist.
type Chosen struct {
	dataset.Best
	Point []float32 // in the unit cube
	// Distance to the nearest other design of the list; 0 for one alone.
	Distance float64
}

// Join makes one shortlist of rankings that were started alike, in any order.
func Join(rankings []*Ranking) List {
	if len(rankings) == 0 {
		return List{}
	}
	all := NewRanking(rankings[0].pool.unknowns, rankings[0].top)
	for _, r := range rankings {
		r.Settle()
		for i := range r.pool.marks {
			all.pool.add(&r.pool, i)
		}
	}
	order := all.pool.rank()
	chosen, nearer := all.choose(order)
	list := List{Families: len(all.meeting(order).leaders), Nearer: nearer}
	for _, i := range chosen {
		list.Designs = append(list.Designs, all.chosen(i, chosen))
	}
	return list
}

// variations is how many of distances designs that meet every limit may fill a
// list up with before designs that fail one come in: a variation of a design
// that works is worth more to a maker than a different one that does not.
const variations = 3

// choose takes the best designs that are apart, and where they are too few
// fills up with nearer ones, at half the distance and so on: first among those
// that meet every limit, then among all. It lists them by rank and counts the
// nearer ones.
func (r *Ranking) choose(order []int) (chosen []int, nearer int) {
	meeting := 0
	for meeting < len(order) && r.pool.marks[order[meeting]].Meets {
		meeting++
	}
	for _, apart := range distances()[:variations] {
		chosen = r.fill(chosen, order[:meeting], apart)
	}
	for _, apart := range distances() {
		chosen = r.fill(chosen, order, apart)
	}
	place := make([]int, len(order))
	for n, design := range order {
		place[design] = n
	}
	slices.SortFunc(chosen, func(a, b int) int { return place[a] - place[b] })
	families := newFamily(&r.pool, Apart)
	for _, design := range chosen {
		if !families.take(design) {
			families.add(design)
			nearer++
		}
	}
	return chosen, nearer
}

// fill appends to chosen, up to the top wanted, designs of order that are apart
// from all of it.
func (r *Ranking) fill(chosen, order []int, apart float64) []int {
	f := newFamily(&r.pool, apart)
	f.leaders, f.recent = chosen, slices.Clone(chosen)
	for _, design := range order {
		if len(f.leaders) == r.top {
			break
		}
		f.take(design)
	}
	return f.leaders
}

func (r *Ranking) chosen(design int, all []int) Chosen {
	nearest := math.Inf(1)
	for _, other := range all {
		if other != design {
			nearest = min(nearest, r.pool.squared(design, other))
		}
	}
	if len(all) == 1 {
		nearest = 0
	}
	return Chosen{Best: r.pool.marks[design], Point: slices.Clone(r.pool.point(design)), Distance: math.Sqrt(nearest)}
}
