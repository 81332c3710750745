package main

import (
	"regexp"
	"testing"
)

// unmarked are the numbers that a page may write without a mark: where they may
// stand and what else must be there, with the reason.
var unmarked = []struct{ at, text *regexp.Regexp }{
	// What the search did; run.json has it.
	{regexp.MustCompile(`header\.heading`), nil},
	// Links, and words that say which design it is about.
	{regexp.MustCompile(` a$`), nil},
	{regexp.MustCompile(`figure\.line h3\.stage$`), regexp.MustCompile(`^What design \d+ draws`)},
	{regexp.MustCompile(`label\.choose$`), regexp.MustCompile(`^Print design \d+ alone$`)},
	// Sentences that never change, and what a hand sets.
	{regexp.MustCompile(`dl\.terms|section\.cautions`), nil},
	{regexp.MustCompile(`div\.controls`), nil},
	{regexp.MustCompile(`^reads `), regexp.MustCompile(`^No pen|^20 swings`)},
	{regexp.MustCompile(`^tunes `), regexp.MustCompile(`2 sigma|\(1 sigma\)|^(1 mm|100 g|1/32 in|4 oz|1°)$|rounds? of these steps`)},
	// What the rig file says, or leaves to the program.
	{regexp.MustCompile(`dl\.notes`), nil},
	{regexp.MustCompile(`figure\.line figcaption$`), regexp.MustCompile(`^Sheet .* mm wide\.`)},
	{regexp.MustCompile(`^moves `), regexp.MustCompile(`followed for`)},
	// From which angles it is let go; how this design differs from the others.
	{regexp.MustCompile(`^moves .*bdi\.value$`), regexp.MustCompile(`[+−]\d+(\.\d+)?°`)},
	{regexp.MustCompile(`div\.apart ul li bdi$`), regexp.MustCompile(`here`)},
	// Twenty times a period that is marked; a swing that is so many times another.
	{regexp.MustCompile(`^reads .*td\.number$`), regexp.MustCompile(`^\d+\.\d\d s$`)},
	{regexp.MustCompile(`^holds `), regexp.MustCompile(`°`)},
	// A map, whose numbers are in NN-holds.csv, and sentences on why it holds.
	{regexp.MustCompile(`^holds .*(figcaption|ul\.plain\.why li)$`), nil},
	// The bench: sizes, places and masses are those of its own tables; what is told of
	// hanging, starting and catching stands nowhere else.
	{regexp.MustCompile(`^(cut|load|carried|hang|safety|start) `), nil},
	// Drawings with something amiss: other designs than the one that files tell of.
	{regexp.MustCompile(`^troubles `), nil},
	// Numbers of modes and of the pendulums in their pictures; how far those turn.
	{regexp.MustCompile(`^modes .*(h5|tbody tr th|figcaption)$`), nil},
	// Limits that stand in the way of all designs, over the whole run.
	{regexp.MustCompile(`section\.hindrance`), nil},
}

// checkLoose: what the page writes without a mark is one of the few kinds; it notes
// which of them there are.
func checkLoose(t *testing.T, list []loose, used []bool) {
	t.Helper()
	for _, l := range list {
		known := false
		for k, u := range unmarked {
			if u.at.MatchString(l.at) && (u.text == nil || u.text.MatchString(l.text)) {
				used[k], known = true, true
				break
			}
		}
		if !known {
			t.Errorf("%s: the page writes %q, and nothing says where that number comes from", l.at, l.text)
		}
	}
}
