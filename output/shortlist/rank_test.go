package shortlist_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/shortlist"
)

// design is a made-up design; all figures here are invented.
type design struct {
	dataset.Best
	exists bool
	point  []float32
}

// rows turns designs into columns.
func rows(unknowns int, designs []design) shortlist.Rows {
	r := shortlist.Rows{Points: make([][]float32, unknowns)}
	for _, d := range designs {
		r.IDs = append(r.IDs, d.ID)
		r.Scores = append(r.Scores, float32(d.Score))
		r.Worst = append(r.Worst, float32(d.Worst))
		r.Meets = append(r.Meets, answer(d.Meets))
		r.Exists = append(r.Exists, answer(d.exists))
		for k := range unknowns {
			r.Points[k] = append(r.Points[k], d.point[k])
		}
	}
	return r
}

func answer(yes bool) objective.Meets {
	if yes {
		return objective.Yes
	}
	return objective.No
}

// clusters makes designs in tight heaps of 0.02 around so many centres, some of
// them failing limits, in an order that has nothing to do with their rank.
func clusters(unknowns, centres, count int, seed uint64) []design {
	r := rand.New(rand.NewPCG(seed, 1))
	heaps := make([][]float64, centres)
	for c := range heaps {
		for range unknowns {
			heaps[c] = append(heaps[c], 0.1+0.8*r.Float64())
		}
	}
	designs := make([]design, count)
	for i := range designs {
		c := r.IntN(centres)
		d := design{exists: r.IntN(20) > 0}
		d.ID = int64(i)*7 + int64(seed)<<40
		d.Meets = c%2 == 0
		d.Score = float64(float32(0.1*float64(c%5) + 0.01*float64(r.IntN(40)))) // with ties
		d.Worst = float64(float32(1 + d.Score + 0.1*float64(c%3)))
		for k := range unknowns {
			d.point = append(d.point, float32(heaps[c][k]+0.02*(r.Float64()-0.5)))
		}
		designs[i] = d
	}
	return designs
}

func rms(a, b []float32) float64 {
	sum := 0.0
	for i := range a {
		d := float64(a[i]) - float64(b[i])
		sum += d * d
	}
	return math.Sqrt(sum / float64(len(a)))
}

// plainly is the rule as it is told, with everything in memory: sort, then go
// down the list again and again with the distance halved, first past those
// that fail a limit.
func plainly(designs []design, top int) (chosen []int64, nearer, families int) {
	var sorted []design
	for _, d := range designs {
		if d.exists {
			sorted = append(sorted, d)
		}
	}
	slices.SortFunc(sorted, func(a, b design) int {
		if a.Before(b.Best) {
			return -1
		}
		return 1
	})
	var meeting, list []design
	for _, d := range sorted {
		if d.Meets && clear(d, meeting, shortlist.Apart) {
			meeting = append(meeting, d)
		}
	}
	halved := []float64{0.15, 0.075, 0.0375, 0.01875, 0.009375, 0.0046875, 0.00234375, 0}
	for pass, apart := range append(halved[:3:3], halved...) {
		for _, d := range sorted {
			if (d.Meets || pass >= 3) && len(list) < top && clear(d, list, apart) {
				list = append(list, d)
			}
		}
	}
	var ranked []design
	for _, d := range sorted { // by rank again
		for _, c := range list {
			if c.ID == d.ID {
				chosen = append(chosen, d.ID)
				if !clear(d, ranked, shortlist.Apart) {
					nearer++
				}
				ranked = append(ranked, d)
			}
		}
	}
	return chosen, nearer, len(meeting)
}

func clear(d design, from []design, apart float64) bool {
	for _, o := range from {
		if rms(d.point, o.point) <= apart {
			return false
		}
	}
	return true
}

func ids(l shortlist.List) (list []int64) {
	for _, d := range l.Designs {
		list = append(list, d.ID)
	}
	return list
}

func one(unknowns, top int, designs []design) shortlist.List {
	r := shortlist.NewRanking(unknowns, top)
	r.Add(rows(unknowns, designs))
	return shortlist.Join([]*shortlist.Ranking{r})
}

// TestAgainstThePlainRule compares with the rule told plainly.
func TestAgainstThePlainRule(t *testing.T) {
	for _, c := range []struct{ unknowns, centres, count, top int }{
		{3, 40, 2000, 10}, // more families than wanted
		{3, 4, 2000, 10},  // fewer: fill up with nearer ones
		{1, 3, 500, 12},
		{8, 200, 3000, 100},
		{17, 30, 1000, 1},
		{2, 1, 3, 10}, // fewer designs than wanted
		{5, 10, 1, 10},
		{5, 10, 0, 10},
	} {
		t.Run(fmt.Sprint(c), func(t *testing.T) {
			designs := clusters(c.unknowns, c.centres, c.count, 5)
			list := one(c.unknowns, c.top, designs)
			chosen, nearer, families := plainly(designs, c.top)
			if !slices.Equal(ids(list), chosen) || list.Nearer != nearer || list.Families != families {
				t.Errorf("chose %v, %d nearer, %d families; want %v, %d, %d", ids(list), list.Nearer, list.Families, chosen, nearer, families)
			}
			checkDistances(t, list)
		})
	}
}

// checkDistances checks the distances told, and that designs are as far apart
// as is said.
func checkDistances(t *testing.T, list shortlist.List) {
	t.Helper()
	within := 0
	for i, d := range list.Designs {
		nearest := math.Inf(1)
		better := false
		for j, o := range list.Designs {
			if i == j {
				continue
			}
			between := rms(d.Point, o.Point)
			nearest = min(nearest, between)
			better = better || j < i && between <= shortlist.Apart
		}
		if better {
			within++
		}
		if len(list.Designs) == 1 {
			nearest = 0
		}
		if math.Abs(nearest-d.Distance) > 1e-12 { // the same sum, rounded otherwise
			t.Errorf("design %d: distance %v, want %v", i, d.Distance, nearest)
		}
	}
	if within != list.Nearer {
		t.Errorf("%d designs are near a better one, %d are said to be", within, list.Nearer)
	}
}

// TestOrderOfShards: any order of shards and any size of batches gives the
// same list.
func TestOrderOfShards(t *testing.T) {
	const unknowns, top, shards = 4, 20, 5
	var parts [][]design
	for s := range shards {
		parts = append(parts, clusters(unknowns, 30, 700, uint64(s)))
	}
	var first shortlist.List
	r := rand.New(rand.NewPCG(2, 3))
	for trial, batch := range []int{1, 7, 333, 700, 701} {
		order := r.Perm(shards)
		var rankings []*shortlist.Ranking
		for _, s := range order {
			ranking := shortlist.NewRanking(unknowns, top)
			for chunk := range slices.Chunk(parts[s], batch) {
				ranking.Add(rows(unknowns, chunk))
			}
			if trial%2 == 0 {
				ranking.Settle()
			}
			rankings = append(rankings, ranking)
		}
		list := shortlist.Join(rankings)
		if trial == 0 {
			first = list
		}
		if !reflect.DeepEqual(list, first) {
			t.Errorf("order %v, batches of %d: %v, first %v", order, batch, ids(list), ids(first))
		}
	}
	if len(first.Designs) != top || first.Families == 0 {
		t.Errorf("%d designs, %d families", len(first.Designs), first.Families)
	}
}

// TestManyRows goes through several chunks. The heaps are far apart, so that
// each is one family wherever the chunks end, and the best of each is the best
// of all its rows.
func TestManyRows(t *testing.T) {
	const unknowns, count, top = 3, 200_000, 8
	designs := make([]design, count)
	r := rand.New(rand.NewPCG(4, 4))
	best := make(map[int]dataset.Best)
	for i := range designs {
		heap := r.IntN(8)
		d := design{exists: true, point: make([]float32, unknowns)}
		d.Best = dataset.Best{ID: int64(i), Score: float64(float32(r.Float64())), Worst: 0.5, Meets: true}
		for k := range unknowns {
			d.point[k] = float32(0.25+0.5*float64(heap>>k&1)) + 0.05*float32(r.Float64())
		}
		designs[i] = d
		if b, ok := best[heap]; !ok || d.Before(b) {
			best[heap] = d.Best
		}
	}
	list := one(unknowns, top, designs)
	if list.Families != 8 || list.Nearer != 0 || len(list.Designs) != top {
		t.Fatalf("%d families, %d nearer, %d designs", list.Families, list.Nearer, len(list.Designs))
	}
	for _, d := range list.Designs {
		heap := 0
		for k, x := range d.Point {
			if x > 0.5 {
				heap |= 1 << k
			}
		}
		if d.Best != best[heap] {
			t.Errorf("heap %d is led by %+v, its best is %+v", heap, d.Best, best[heap])
		}
	}
}

// TestMostFamilies counts to the bound and no further.
func TestMostFamilies(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 9))
	designs := make([]design, 3000)
	for i := range designs {
		d := design{exists: true}
		d.Best = dataset.Best{ID: int64(i), Score: float64(i), Meets: true}
		for range 17 { // points drawn evenly in 17 dimensions are all far apart
			d.point = append(d.point, float32(r.Float64()))
		}
		designs[i] = d
	}
	list := one(17, 10, designs)
	if list.Families != shortlist.MostFamilies || len(list.Designs) != 10 || list.Designs[9].ID != 9 {
		t.Errorf("%d families, designs %v", list.Families, ids(list))
	}
}

// TestWhatIsNotRanked: designs that cannot exist never appear; a design whose
// limits are not all computed ranks as one that fails.
func TestWhatIsNotRanked(t *testing.T) {
	r := rows(1, []design{
		{Best: dataset.Best{ID: 1, Score: -5, Meets: true}, point: []float32{0}},
		{Best: dataset.Best{ID: 2, Score: 0, Worst: 0.1}, exists: true, point: []float32{0.3}},
		{Best: dataset.Best{ID: 3, Score: 9, Worst: 0.9, Meets: true}, exists: true, point: []float32{0.6}},
	})
	r.Meets[1] = objective.NotKnown
	ranking := shortlist.NewRanking(1, 10)
	ranking.Add(r)
	list := shortlist.Join([]*shortlist.Ranking{ranking})
	if !slices.Equal(ids(list), []int64{3, 2}) || list.Families != 1 || list.Designs[1].Meets {
		t.Errorf("%+v", list)
	}
}

// TestNothingSearched: a rig without searched unknowns has one design.
func TestNothingSearched(t *testing.T) {
	list := one(0, 10, []design{
		{Best: dataset.Best{ID: 4, Score: 1, Meets: true}, exists: true},
		{Best: dataset.Best{ID: 5, Score: 1, Meets: true}, exists: true},
	})
	if !slices.Equal(ids(list), []int64{4}) || list.Families != 1 {
		t.Errorf("%+v", list)
	}
	if empty := shortlist.Join(nil); len(empty.Designs) != 0 {
		t.Errorf("nothing joined gives %+v", empty)
	}
}

// BenchmarkRanking ranks rows in 17 unknowns, a third of them spread evenly.
func BenchmarkRanking(b *testing.B) {
	const unknowns, count = 17, 100_000
	designs := append(clusters(unknowns, 60, 2*count/3, 1), clusters(unknowns, count/3, count/3, 2)...)
	columns := rows(unknowns, designs)
	for b.Loop() {
		r := shortlist.NewRanking(unknowns, 10)
		r.Add(columns)
		if l := shortlist.Join([]*shortlist.Ranking{r}); len(l.Designs) != 10 {
			b.Fatal(len(l.Designs))
		}
	}
	b.ReportMetric(float64(len(designs))*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
}
