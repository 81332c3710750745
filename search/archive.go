package search

import (
	"slices"

	"evenswing/space"
)

// insertElite puts a candidate among the elites, which stay sorted by score
// and more than apart from one another: of neighbours the best one stays. At
// most most elites are kept.
func insertElite(elites []candidate, c candidate, genes []space.Gene, apart float64, most int) []candidate {
	near := func(e candidate) bool { return distance(e.Point, c.Point, genes) <= apart }
	for _, e := range elites {
		if e.Score <= c.Score && near(e) {
			return elites
		}
	}
	elites = slices.DeleteFunc(elites, near)
	at, _ := slices.BinarySearchFunc(elites, c, byScore)
	elites = slices.Insert(elites, at, c.clone())
	return elites[:min(len(elites), most)]
}

// byScore orders candidates; of equal scores the earlier row comes first.
func byScore(a, b candidate) int {
	switch {
	case a.Score < b.Score:
		return -1
	case a.Score > b.Score:
		return 1
	case a.ID < b.ID:
		return -1
	case a.ID > b.ID:
		return 1
	}
	return 0
}

func sortCandidates(list []candidate) { slices.SortFunc(list, byScore) }
