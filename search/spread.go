package search

// latinTo fills points with a Latin hypercube: cut every coordinate into as
// many equal slices as there are points, and each slice holds one point, at a
// random place. Source: McKay, Beckman and Conover, Technometrics 21 (1979)
// 239-245.
func latinTo(points [][]float64, d *dice) {
	if len(points) == 0 {
		return
	}
	order := make([]int, len(points))
	for j := range points[0] {
		d.shuffleTo(order)
		for i, slice := range order {
			points[i][j] = (float64(slice) + d.float()) / float64(len(points))
		}
	}
}
