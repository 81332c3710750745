// Package space reads a rig file and turns points of the unit cube into
// designs.
//
// It reads what the maker wrote: pendulums, parts, unknowns with their ranges,
// formulas, targets and limits. It makes a Rig, whose Decoder fills a Design
// of plain numbers for every candidate without allocating. Package objective
// takes the Design next. This package knows no mechanics and scores nothing.
package space
