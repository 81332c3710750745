package durable

import (
	"io"
	"os"
)

// FS is what this program asks of a file system. Disk is the real one.
type FS interface {
	// Create makes a new file; one of that name must not be there. The file
	// counts as held until it is closed.
	Create(name string) (Output, error)
	Open(name string) (Input, error)
	ReadFile(name string) ([]byte, error)
	Stat(name string) (os.FileInfo, error)
	Rename(from, to string) error
	Remove(name string) error
	MkdirAll(name string) error
	// SyncDir makes the names in a folder survive a power cut.
	SyncDir(name string) error
	// Names lists a folder: for tidying up, never to decide what exists, since
	// a shared folder's listing can be stale.
	Names(dir string) ([]string, error)
	// Abandoned tells whether nobody holds the file: its writer is dead.
	Abandoned(name string) bool
}

// Output is a file being written.
type Output interface {
	io.Writer
	Sync() error
	Close() error
}

// Input is a file being read.
type Input interface {
	io.Reader
	io.ReaderAt
	io.Closer
	Size() int64
}
