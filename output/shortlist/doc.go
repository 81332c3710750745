// Package shortlist picks, out of all the candidates of a run, a few designs
// that are good and different, and writes them for the maker.
//
// It reads the rows of a run through output/dataset, column by column and shard
// by shard, and leaves a ranked list: as a table, as filled-in rig files, and as
// the sheets that output/report prints. It judges no design anew: what a row
// says of its score and its limits holds.
package shortlist
