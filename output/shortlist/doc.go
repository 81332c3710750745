// Package shortlist picks, out of all the candidates of a run, a few designs
// that are good and different, and writes them for the maker.
//
// It reads the rows of a run through output/dataset, column by column and shard
// by shard, and leaves a ranked list: as a table, as filled-in rig files, and as
// the sheets that output/report prints. It judges no row anew: what a row says of
// its score and its limits holds. The best become finalists: their full motion is
// followed, the ten best settle on it, and that ranks them.
package shortlist
