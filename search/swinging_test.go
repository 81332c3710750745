package search

import (
	"testing"

	"evenswing/objective"
)

// moved is a toy whose motion is f once more, with a hundred added; points of a
// higher score than the gate are not asked.
type moved struct{ *toy }

func (p moved) NewScorer() Scorer { return &movedScorer{p.toy.NewScorer().(*toyScorer)} }

type movedScorer struct{ *toyScorer }

func (s *movedScorer) Averages() bool             { return true }
func (s *movedScorer) Swings() int                { return 0 }
func (s *movedScorer) SwingsTo([]float64) bool    { return false }
func (s *movedScorer) Residuals() int             { return 0 }
func (s *movedScorer) ResidualsTo([]float64) bool { return true }
func (s *movedScorer) SlopesTo([]float64) bool    { return true }

func (s *movedScorer) Score(point []float64) objective.Verdict {
	v := s.toyScorer.Score(point)
	if v.Worst <= 1 {
		v.Meets = objective.NotKnown
	}
	return v
}

func (s *movedScorer) ScoreAveraged(point []float64, gate float64) objective.Verdict {
	v := s.toyScorer.Score(point)
	if v.Score > gate {
		return v
	}
	v.Score, v.At = v.Score+100, objective.Averaged
	return v
}

// The first part asks the screen, the last one the averaged motion within its
// gate; all evaluations are used; what keeps every limit was asked, and a score of
// the screen is never taken for better than one of the motion.
func TestSwingingSearch(t *testing.T) {
	for _, n := range []int{1, 5, 40, 200, 1000, 12_345, 60_000} {
		m := newMemory()
		var stages [StageCount]int
		screened, averaged := 0, 0
		m.see = func(row *Row) error {
			stages[row.Stage]++
			if row.Verdict.At == objective.Averaged {
				averaged++
			} else {
				screened++
			}
			return nil
		}
		plan := NewPlan(n, 9)
		plan.Epochs = 1 + n/30_000
		mustRun(t, moved{mixed(4)}, plan, m, 1)
		if screened+averaged != n {
			t.Errorf("%d evaluations of %d", screened+averaged, n)
		}
		if n < 1000 {
			continue
		}
		if stages[Taken] == 0 || averaged < n/2 || screened < n/5 {
			t.Errorf("%d evaluations: %d taken up, %d averaged, %d screened", n, stages[Taken], averaged, screened)
		}
		last := m.states[Task{plan.Epochs - 1, 0}]
		s, err := decodeState(last, plan, Task{plan.Epochs - 1, 0}, 6)
		if err != nil {
			t.Fatal(err)
		}
		if best := s.Summary.Best.Verdict; best.At != objective.Averaged || best.Score < 100 || n > 10_000 && best.Score > 100.001 {
			t.Errorf("%d evaluations: the best is %+v", n, best)
		}
	}
}

// A candidate that the motion was not asked for stands behind all that it was,
// and before those that cannot exist; among themselves they keep their order.
func TestBehind(t *testing.T) {
	const largest, impossible = 1e6, 2e6
	last := float64(largest)
	for _, score := range []float64{2, 3, 1000, 1e6, 1.9e6} {
		b := behind(score)
		if !(b > last && b < impossible) {
			t.Errorf("behind(%g) = %g, after %g", score, b, last)
		}
		last = b
	}
}

// Rows of a rig whose drift is limited, on any cores, killed on the way.
func TestSameSwingingRows(t *testing.T) {
	p := loadRig(t, "four-drift")
	plan := Plan{Seed: 7, Evaluations: 4_000, Islands: 2, Epochs: 3, Motions: 1}
	want := newMemory()
	mustRun(t, p, plan, want, 1)
	got := newMemory()
	killed(t, p, got, plan, 1500, 2)
	if len(got.rows) == plan.Islands*plan.Epochs {
		t.Error("the run was not killed")
	}
	got.see = func(*Row) error { return nil }
	mustRun(t, p, plan, got, 2)
	same(t, "killed", got, want)
}
