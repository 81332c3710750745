package space

import (
	"bytes"
	"regexp"

	"evenswing/space/quantity"

	"go.yaml.in/yaml/v3"
)

// writtenUnit finds a number and the word or sign after it.
var writtenUnit = regexp.MustCompile(`[0-9.]\s*([a-zA-Z]+|["'″′])(?:[^a-zA-Z0-9/^²³]|$)`)

// WrittenLengths counts the lengths that the rig's file writes in metric units
// and in inches, feet and the like. Comments do not count. A rig without a
// file has none.
func (r *Rig) WrittenLengths() (metric, inch int) {
	root, err := parseNodes(bytes.TrimPrefix(r.Source, byteOrderMark))
	if err != nil || root == nil {
		return 0, 0
	}
	countLengths(root, &metric, &inch)
	return metric, inch
}

// countLengths adds up the scalars of a node; what an alias repeats counts
// where it was written.
func countLengths(n *yaml.Node, metric, inch *int) {
	for _, child := range n.Content {
		countLengths(child, metric, inch)
	}
	if n.Kind != yaml.ScalarNode {
		return
	}
	for _, found := range writtenUnit.FindAllStringSubmatch(n.Value, -1) {
		switch {
		case !isLengthUnit(found[1]):
		case metricLengths[found[1]]:
			*metric++
		default:
			*inch++
		}
	}
}

var metricLengths = map[string]bool{"mm": true, "cm": true, "m": true, "km": true}

func isLengthUnit(word string) bool {
	_, dim, err := quantity.UnitFactor(word)
	return err == nil && dim == quantity.Length
}
