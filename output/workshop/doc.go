// Package workshop tells what a builder of one design needs at the bench: where
// the pivots are, what to cut, what metal to get and where it goes, what to
// buy, how the drums are filled, what the pivots carry, in what order to hang
// and load it, how to start it, and what keeps people safe.
//
// It reads a scored objective.Workspace: names from its rig, numbers from its
// design, masses and loads from its account. It makes a Sheet of plain values:
// every figure as text in the maker's units and as a number in SI; tables are
// also written as CSV. Package report shows a Sheet, package shortlist writes
// its files. It opens no file.
//
// It estimates. It is no engineer's check, and says so where weights hang.
package workshop
