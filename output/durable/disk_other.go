//go:build !unix

package durable

import (
	"errors"
	"os"
)

var errNoLocks = errors.New("this system has no locks that die with their holder")

func hold(*os.File) error { return errNoLocks }

// Abandoned answers false: without locks a dead writer cannot be told from a
// living one, and its file is left.
func (Disk) Abandoned(string) bool { return false }

// SyncDir does nothing: such a system flushes names with the files.
func (Disk) SyncDir(string) error { return nil }
