package shortlist_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"evenswing/output/dataset"
	"evenswing/output/shortlist"
)

// scattered are designs drawn evenly in so many dimensions that all are far
// apart; a tenth of them meet every limit.
func scattered(count int) []design {
	r := rand.New(rand.NewPCG(6, 2))
	designs := make([]design, count)
	for i := range designs {
		d := design{exists: true}
		d.Best = dataset.Best{ID: int64(i), Score: float64(float32(r.Float64())), Worst: float64(float32(1 + r.Float64())), Meets: r.IntN(10) == 0}
		for range 17 {
			d.point = append(d.point, float32(r.Float64()))
		}
		designs[i] = d
	}
	return designs
}

// TestEarlyRejection: where no design is near another, the best are the best,
// however many rows are passed over unseen.
func TestEarlyRejection(t *testing.T) {
	const top = 25
	designs := scattered(150_000)
	list := one(17, top, designs)
	slices.SortFunc(designs, func(a, b design) int {
		if a.Before(b.Best) {
			return -1
		}
		return 1
	})
	for k, id := range ids(list) {
		if designs[k].ID != id {
			t.Fatalf("number %d is design %d, want %d", k+1, id, designs[k].ID)
		}
	}
	if len(list.Designs) != top || list.Families != shortlist.MostFamilies {
		t.Errorf("%d designs, %d families", len(list.Designs), list.Families)
	}
}

// TestClosed: a ranking is closed to what is worse than all it has, once it has
// as many as are wanted, and never before.
func TestClosed(t *testing.T) {
	designs := scattered(70_000)
	for k := range designs {
		designs[k].Meets = false
	}
	r := shortlist.NewRanking(17, 10)
	if r.Closed(1e9, 1e9, false) {
		t.Error("closed before it was shown anything")
	}
	r.Add(rows(17, designs))
	r.Settle()
	slices.SortFunc(designs, func(a, b design) int {
		if a.Before(b.Best) {
			return -1
		}
		return 1
	})
	ninth, eleventh := designs[8], designs[10]
	if r.Closed(float32(ninth.Worst), float32(ninth.Score), false) || !r.Closed(float32(eleventh.Worst), float32(eleventh.Score), false) {
		t.Errorf("open to hardest limits of %v, closed to %v?", ninth.Worst, eleventh.Worst)
	}
	few := shortlist.NewRanking(17, 10)
	few.Add(rows(17, designs[:9]))
	few.Settle()
	if few.Closed(1e9, 1e9, false) {
		t.Error("closed with a place left")
	}
}
