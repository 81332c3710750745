package drawing

import (
	"math"

	"evenswing/space"
)

// thinned is a chain of points without those that lie within a distance of the
// straight line between the ones that stay (Douglas and Peucker, 1973). Its
// ends stay.
func thinned(points []space.Vec, within float64) []space.Vec {
	if len(points) < 3 {
		return points
	}
	keep := make([]bool, len(points))
	keep[0], keep[len(points)-1] = true, true
	spans := [][2]int{{0, len(points) - 1}}
	for len(spans) > 0 {
		s := spans[len(spans)-1]
		spans = spans[:len(spans)-1]
		if at, far := farthestFrom(points, s[0], s[1]); far > within {
			keep[at] = true
			spans = append(spans, [2]int{s[0], at}, [2]int{at, s[1]})
		}
	}
	var kept []space.Vec
	for i, p := range points {
		if keep[i] {
			kept = append(kept, p)
		}
	}
	return kept
}

// farthestFrom is the point between i and j that is farthest from the straight
// line from i to j.
func farthestFrom(points []space.Vec, i, j int) (at int, far float64) {
	for k := i + 1; k < j; k++ {
		if d := segmentDistance(points[k], points[i], points[j]); d > far && !math.IsInf(d, 0) {
			at, far = k, d
		}
	}
	return at, far
}
