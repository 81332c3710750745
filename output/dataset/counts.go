package dataset

import (
	"encoding/json"
	"fmt"

	"evenswing/objective"
	"evenswing/search"
)

// Counts sums up a file, or several.
type Counts struct {
	Rows   int64            `json:"rows"`
	Stages map[string]int64 `json:"stages"` // rows by stage; a stage without rows is left out
	Exists int64            `json:"exists"`
	Meets  int64            `json:"meets"`
	Best   *Best            `json:"best,omitempty"`
}

// Best is the best row of a file: the best score of those that keep every
// limit, or else the least hardest limit.
type Best struct {
	ID    int64   `json:"id"`
	Score float64 `json:"score"`
	Worst float64 `json:"worst"`
	Meets bool    `json:"meets"`
	// Averaged: the averaged motion entered. Scores of rows where it did are
	// not compared with those of others; such rows come first.
	Averaged bool `json:"averaged,omitempty"`
}

// Before tells whether b ranks before o; equals rank by id.
func (b Best) Before(o Best) bool {
	switch {
	case b.Averaged != o.Averaged:
		return b.Averaged
	case b.Meets != o.Meets:
		return b.Meets
	case !b.Meets && b.Worst != o.Worst:
		return b.Worst < o.Worst
	case b.Score != o.Score:
		return b.Score < o.Score
	}
	return b.ID < o.ID
}

func newCounts() Counts { return Counts{Stages: make(map[string]int64)} }

// add counts a row, all but its stage; one that cannot exist is never the best.
func (c *Counts) add(row *search.Row, averaged bool) {
	c.Rows++
	if row.Verdict.Meets == objective.Yes {
		c.Meets++
	}
	if !row.Verdict.Exists {
		return
	}
	c.Exists++
	c.offer(Best{
		ID: row.ID, Score: row.Verdict.Score, Worst: row.Verdict.Worst,
		Meets: row.Verdict.Meets == objective.Yes, Averaged: averaged,
	})
}

func (c *Counts) offer(b Best) {
	if c.Best == nil {
		c.Best = new(Best)
		*c.Best = b
	} else if b.Before(*c.Best) {
		*c.Best = b
	}
}

// Add adds another file's counts.
func (c *Counts) Add(o Counts) {
	if c.Stages == nil {
		c.Stages = make(map[string]int64)
	}
	c.Rows += o.Rows
	c.Exists += o.Exists
	c.Meets += o.Meets
	for stage, n := range o.Stages {
		c.Stages[stage] += n
	}
	if o.Best != nil {
		c.offer(*o.Best)
	}
}

// encode writes the counts as JSON, with the rows of each stage.
func (c *Counts) encode(stages [search.StageCount]int64) (string, error) {
	for stage, n := range stages {
		if n > 0 {
			c.Stages[search.Stage(stage).String()] = n
		}
	}
	text, err := json.Marshal(c)
	if err != nil {
		return "", fmt.Errorf("summing up the file (a fault of this program): %w", err)
	}
	return string(text), nil
}
