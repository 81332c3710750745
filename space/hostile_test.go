package space

import (
	"fmt"
	"strings"
	"testing"
)

// TestHostile reads large files that are made to take long or to crash. Each
// must be refused within a second of one core.
func TestHostile(t *testing.T) {
	const size = hostileSize
	fill := func(head, piece, tail string) string {
		return head + strings.Repeat(piece, (size-len(head)-len(tail))/len(piece)) + tail
	}
	var keys, lumps, values strings.Builder
	for i := 0; keys.Len() < size-100; i++ {
		fmt.Fprintf(&keys, "k%d: 1, ", i)
	}
	for i := 0; lumps.Len() < size-200; i++ {
		fmt.Fprintf(&lumps, "l%d: {at: [0 mm, -1 mm], mass: -2 kg}, ", i)
	}
	for i := 0; values.Len() < size-200; i++ {
		fmt.Fprintf(&values, "  v%d: v%d + 1 mm\n", i, i+1)
	}
	rig := "pendulums: {p: {hangs_from: wall, pivot: [0 mm, 0 mm], lumps: {"
	for name, text := range map[string]string{
		"brackets":        fill("a: ", "[", ""),
		"braces":          fill("a: ", "{", ""),
		"dashes":          fill("", "- ", "x"),
		"comments":        fill("rig: a\n", "#\n", ""),
		"comments inside": fill("rig:\n", "  - #\n", ""),
		"spaces":          fill("rig: a", " ", "b"),
		"one word":        fill("", "a", ": b"),
		"one line":        fill("rig: ", "é", ""),
		"unknown keys":    "{" + keys.String() + "}",
		"bad lumps":       rig + lumps.String() + "}}}",
		"pendulums":       "pendulums: {" + strings.ReplaceAll(keys.String(), ": 1", ": {hangs_from: k1}") + "}",
		"values":          "values:\n" + values.String(),
		"options":         fill("unknowns: {a: ", "b or ", "c}"),
		"unknowns":        "unknowns: {" + strings.ReplaceAll(keys.String(), ": 1", ": 1 to 2 mm") + "}",
		"parentheses":     fill("gravity: ", "(", ""),
		"signs":           fill("gravity: ", "-", "1 m/s2"),
		"sum":             fill("gravity: 0", "+1", " m/s2"),
		"digits":          fill("gravity: ", "9", " m/s2"),
		"exponent":        "gravity: 1e999999999 m/s2",
		"points":          fill("pendulums: {p: {hangs_from: wall, points: {", "a: [0, 0], ", "}}}"),
		"list of ratios":  fill("targets: {ratios: [", "{}, ", "]}"),
		"quotes":          fill(`rig: "`, `\"`, `"`),
		"formula":         fill("values: {v: ", "(1+1)*", "1}\npendulums: {}"),
		"anchors":         fill("rig: [", "&a b, ", "]"),
	} {
		t.Run(name, func(t *testing.T) {
			var err error
			took := cpuTime(t, func() { _, err = Read("hostile.yaml", []byte(text)) })
			if err == nil {
				t.Error("it was read without an error")
			}
			if took > slowest {
				t.Errorf("took %v", took)
			}
			t.Logf("%v", took)
			if text := err.Error(); len(text) > 450*maxMistakes {
				t.Errorf("an error of %d bytes", len(text))
			}
		})
	}
}
