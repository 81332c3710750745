package search

import (
	"math"

	"evenswing/space"
)

// candidate is a point with what is known of it.
type candidate struct {
	Point  []float64 `json:"point"`
	ID     int64     `json:"id"` // of its row
	Score  float64   `json:"score"`
	Passes bool      `json:"passes"`
}

func (c candidate) clone() candidate {
	c.Point = append([]float64(nil), c.Point...)
	return c
}

// cell is the number of the value that a stepped or choice gene takes at t.
func cell(t float64, count int) int {
	return max(0, min(int(t*float64(count)), count-1))
}

// middle is the coordinate in the middle of a cell.
func middle(cell, count int) float64 {
	return (float64(cell) + 0.5) / float64(count)
}

// snap moves the coordinates of stepped and choice genes to the middle of
// their cells, so that equal designs are equal points.
func snap(point []float64, genes []space.Gene) {
	for i, g := range genes {
		if g.Count > 0 {
			point[i] = middle(cell(point[i], g.Count), g.Count)
		}
	}
}

// distance is the root mean square difference of two points; two unlike words
// of a choice differ by choiceDistance.
func distance(a, b []float64, genes []space.Gene) float64 {
	sum := 0.0
	for i, g := range genes {
		d := a[i] - b[i]
		if g.Count > 0 && !g.Ordered && d != 0 {
			d = choiceDistance
		}
		sum += d * d
	}
	return math.Sqrt(sum / float64(len(genes)))
}

// choiceDistance: another material is as far as half of a range.
const choiceDistance = 0.5
