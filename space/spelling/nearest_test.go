package spelling

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestNearest(t *testing.T) {
	known := []string{"long_arm", "lintel_plates", "drop", "ring", "mm", "kg", "m", "g"}
	for word, want := range map[string]string{
		"long_amr":      "long_arm",
		"longarm":       "long_arm",
		"lintel_plate":  "lintel_plates",
		"Ring":          "ring",
		"rign":          "ring",
		"KG":            "kg",
		"MM":            "mm",
		"mn":            "mm",
		"G":             "g",
		"q":             "",
		"":              "",
		"tray":          "",
		"lntl_plts":     "",
		"something_odd": "",
	} {
		got, ok := Nearest(word, known)
		if got != want || ok != (want != "") {
			t.Errorf("Nearest(%q) = %q, %v, want %q", word, got, ok, want)
		}
	}
}

// TestNearestLong: a very long word costs no more than a long one.
func TestNearestLong(t *testing.T) {
	if got, ok := Nearest(strings.Repeat("x", 1<<16), []string{"drop"}); ok {
		t.Errorf("a word of 65,536 letters is taken for %q", got)
	}
}

// TestDistanceIsPlainLevenshteinOrLess checks against the recursive
// definition of the Levenshtein distance: swaps can only shorten it, and a
// swap stands for two changes at most.
func TestDistanceIsPlainLevenshteinOrLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.StringMatching(`[abc]{0,6}`).Draw(t, "a")
		b := rapid.StringMatching(`[abc]{0,6}`).Draw(t, "b")
		d, plain := distance(a, b), levenshtein(a, b)
		if d > plain || 2*d < plain || d != distance(b, a) || (d == 0) != (a == b) {
			t.Fatalf("distance(%q, %q) = %d, back %d, plain %d", a, b, d, distance(b, a), plain)
		}
	})
}

func levenshtein(a, b string) int {
	if a == "" || b == "" {
		return len(a) + len(b)
	}
	if a[0] == b[0] {
		return levenshtein(a[1:], b[1:])
	}
	return 1 + min(levenshtein(a[1:], b), levenshtein(a, b[1:]), levenshtein(a[1:], b[1:]))
}
