package report

import (
	"math"
	"slices"
	"strconv"

	"evenswing/space"
)

// Difference is one unknown in which a design differs from the others.
type Difference struct {
	Unknown string
	Words   string  // the value here and theirs, with units
	Size    float64 // in cube units: 1 is the whole range
}

// What is worth saying: the largest differences, and none that is small.
const (
	mostDifferences = 3
	leastDifference = 0.1 // of the range
	leastMinority   = 0.5 // of the others chose otherwise
)

func least(u *space.Unknown) float64 {
	if u.Kind == space.Choice {
		return leastMinority
	}
	return leastDifference
}

// Apart lists the unknowns in which design i differs most from the mean of the
// others, the largest difference first, at most three, none below a tenth of
// its range, no choice that most of the others made too.
//
// values[k] are design k's unknowns, in SI and in the rig's order. The measure
// is |x − mean of the others|/(Hi − Lo); for a choice, the share of the others
// that chose otherwise. An unknown that is held or has no range is left out.
func Apart(rig *space.Rig, values [][]float64, i int) []Difference {
	var list []Difference
	for u := range rig.Unknowns {
		size := apartBy(&rig.Unknowns[u], values, i, u)
		if size >= least(&rig.Unknowns[u]) {
			list = append(list, Difference{rig.Unknowns[u].Name, apartWords(&rig.Unknowns[u], values, i, u), size})
		}
	}
	slices.SortStableFunc(list, func(a, b Difference) int {
		switch {
		case a.Size > b.Size:
			return -1
		case a.Size < b.Size:
			return 1
		}
		return 0
	})
	return list[:min(len(list), mostDifferences)]
}

// apartBy is the difference of one unknown in cube units, 0 where there is
// nothing to compare.
func apartBy(u *space.Unknown, values [][]float64, i, index int) float64 {
	span := u.Hi - u.Lo
	if len(values) < 2 || u.Fixed || !(span > 0) {
		return 0
	}
	if u.Kind == space.Choice {
		same := sameChoice(values, i, index)
		return 1 - float64(same)/float64(len(values)-1)
	}
	return math.Abs(values[i][index]-meanOfOthers(values, i, index)) / span
}

func apartWords(u *space.Unknown, values [][]float64, i, index int) string {
	text, unit := valueText(u, values[i][index])
	if u.Kind == space.Choice {
		return text + ", as in " + countOf(sameChoice(values, i, index), len(values)-1)
	}
	mean := significant(meanOfOthers(values, i, index)/factorOf(u), meanDigits)
	return withUnit(text, unit) + " here, " + withUnit(mean, unit) + " on average in the others"
}

// meanDigits are the figures of a mean, which no one builds.
const meanDigits = 3

func countOf(some, all int) string {
	switch some {
	case 0:
		return "none of the others"
	case all:
		return "all the others"
	}
	return strconv.Itoa(some) + " of the " + strconv.Itoa(all) + " others"
}

// sameChoice counts the other designs that chose as design i did.
func sameChoice(values [][]float64, i, index int) int {
	same := 0
	for k := range values {
		if k != i && values[k][index] == values[i][index] {
			same++
		}
	}
	return same
}

func meanOfOthers(values [][]float64, i, index int) float64 {
	sum := 0.0
	for k := range values {
		if k != i {
			sum += values[k][index]
		}
	}
	return sum / float64(len(values)-1)
}
