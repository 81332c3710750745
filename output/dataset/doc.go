// Package dataset keeps what a run finds: every candidate, one row each, in
// Parquet files that any reader of that format opens without this program.
//
// It takes rows and states from search, whose Recorder and Store it
// implements, and leaves a RUN folder: run.json, rig.yaml, candidates/, state/.
// It reads them back column by column for output/shortlist, output/explorer
// and cmd. It computes nothing about designs and chooses none.
package dataset
