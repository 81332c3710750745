package spelling

import "strings"

const (
	// slipsPerLetter: one slip in three letters still lets the word be seen.
	slipsPerLetter = 3
	// longest bounds the work: no word of the trade is longer, in runes.
	longest = 64
)

// Nearest is the known word that takes the fewest slips (a letter changed,
// left out, put in, or two neighbours swapped) to turn into word, upper and
// lower case being alike. ok is false when none is near: more than one slip
// in three letters, at least one being allowed, or no letter in common. Of
// equally near words the one that starts alike wins, then the first listed.
func Nearest(word string, known []string) (nearest string, ok bool) {
	best := slipsAllowed(word) + 1
	for _, candidate := range known {
		slips := distance(word, candidate)
		nearer := slips < best || slips == best && ok &&
			startsAlike(word, candidate) && !startsAlike(word, nearest)
		if nearer && slips < len([]rune(word)) {
			nearest, best, ok = candidate, slips, true
		}
	}
	return nearest, ok
}

func slipsAllowed(word string) int {
	return max(1, len([]rune(word))/slipsPerLetter)
}

func startsAlike(a, b string) bool {
	x, y := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	return len(x) > 0 && len(y) > 0 && x[0] == y[0]
}

// distance is the optimal string alignment distance of a and b in lower case:
// the Levenshtein distance with swaps of neighbours, no part edited twice.
// Words longer than longest are as far from everything as they are long.
func distance(a, b string) int {
	x, y := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	if len(x) > longest || len(y) > longest {
		return max(len(x), len(y))
	}
	var before, last, row [longest + 1]int
	for j := range y {
		last[j+1] = j + 1
	}
	for i := range x {
		row[0] = i + 1
		for j := range y {
			row[j+1] = min(last[j+1]+1, row[j]+1, last[j]+differ(x[i], y[j]))
			if i > 0 && j > 0 && x[i] == y[j-1] && x[i-1] == y[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last = last, row
	}
	return last[len(y)]
}

func differ(a, b rune) int {
	if a == b {
		return 0
	}
	return 1
}
