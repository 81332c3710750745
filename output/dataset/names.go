package dataset

import (
	"fmt"
	"path/filepath"

	"evenswing/search"
)

// The names in a RUN folder.
const (
	runFile          = "run.json"
	rigFile          = "rig.yaml"
	lockFile         = "lock"
	candidatesFolder = "candidates"
	stateFolder      = "state"

	candidatesEnd = ".parquet"
	stateEnd      = ".state"
	sumEnd        = ".sum"
)

func taskName(t search.Task) string { return fmt.Sprintf("e%04d-i%02d", t.Epoch, t.Island) }

// RunPath is where a run says what it is; it is written last when a run begins.
func RunPath(dir string) string { return filepath.Join(dir, runFile) }

// RigPath is where the rig of a run is.
func RigPath(dir string) string { return filepath.Join(dir, rigFile) }

// LockPath is the lock of a run, for durable.Lock.
func LockPath(dir string) string { return filepath.Join(dir, lockFile) }

// CandidatesPath is where the rows of a task are: the mark that it is finished.
func CandidatesPath(dir string, t search.Task) string {
	return filepath.Join(dir, candidatesFolder, taskName(t)+candidatesEnd)
}

// StatePath is where the state of a task is.
func StatePath(dir string, t search.Task) string {
	return filepath.Join(dir, stateFolder, taskName(t)+stateEnd)
}

// SumPath is where the length and check sum of a task's candidates file are.
func SumPath(dir string, t search.Task) string {
	return filepath.Join(dir, stateFolder, taskName(t)+sumEnd)
}
