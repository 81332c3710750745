package search

import "evenswing/objective"

// Best is a candidate that no other candidate beats.
type Best struct {
	ID      int64             `json:"id"` // NoParent while there is none
	Verdict objective.Verdict `json:"verdict"`
}

// Better tells whether b comes before c: a candidate that the averaged motion
// was asked for before one that the screen alone judged, for their scores cannot
// be compared; a candidate that keeps every limit before one that does not, one that exists before one that does not; then the
// lower score where limits are kept, the lower hardest limit where not; then the
// earlier row, so that the best of a run does not depend on its cores.
func (b Best) Better(c Best) bool {
	if b.ID == NoParent || c.ID == NoParent {
		return b.ID != NoParent
	}
	if x, y := b.Verdict.At, c.Verdict.At; x != y && b.Verdict.Exists && c.Verdict.Exists {
		return x > y
	}
	if r, s := b.rank(), c.rank(); r != s {
		return r < s
	}
	if b.rank() == notMet && b.Verdict.Worst != c.Verdict.Worst {
		return b.Verdict.Worst < c.Verdict.Worst
	}
	if b.Verdict.Score != c.Verdict.Score {
		return b.Verdict.Score < c.Verdict.Score
	}
	return b.ID < c.ID
}

const (
	met = iota
	notMet
	notThere
)

func (b Best) rank() int {
	switch {
	case !b.Verdict.Exists:
		return notThere
	case passes(b.Verdict):
		return met
	}
	return notMet
}

// Summary is what one island has found so far, all its epochs together.
type Summary struct {
	Evaluations int   `json:"evaluations"` // a set of derivatives counts as four
	Best        Best  `json:"best"`
	FirstMeets  int64 `json:"first_meets"` // id of the first row that meets every limit, or NoParent
}

func newSummary() Summary {
	return Summary{Best: Best{ID: NoParent}, FirstMeets: NoParent}
}

func (s *Summary) add(id int64, v objective.Verdict) {
	s.Evaluations++
	if s.FirstMeets == NoParent && v.Exists && v.Meets == objective.Yes {
		s.FirstMeets = id
	}
	if b := (Best{id, v}); b.Better(s.Best) {
		s.Best = b
	}
}
