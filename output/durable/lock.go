package durable

import (
	"errors"
	"fmt"
	"os"
)

// HeldError says that another process works here.
type HeldError struct {
	Path   string
	Holder string // "process 1234 on host"; "another process" where unknown
}

func (e *HeldError) Error() string {
	return fmt.Sprintf("%s is held by %s; let it finish or stop it, or choose another folder", e.Path, e.Holder)
}

// holder is what a lock file says of the process that holds it.
func holder() string {
	host, err := os.Hostname()
	if err != nil {
		return fmt.Sprintf("process %d", os.Getpid())
	}
	return fmt.Sprintf("process %d on %s", os.Getpid(), host)
}

// longestHolder bounds what is read of a lock file.
const longestHolder = 300

// readHolder reads who holds a lock.
func readHolder(f *os.File) string {
	var line [longestHolder]byte
	n, _ := f.ReadAt(line[:], 0)
	for i, c := range line[:n] {
		if c == '\n' {
			return string(line[:i])
		}
	}
	return "another process" // it has not written its name yet
}

// writeHolder writes who holds a lock; the old name goes first.
func writeHolder(f *os.File) error {
	if err := f.Truncate(0); err != nil {
		return err
	}
	_, err := f.WriteAt([]byte(holder()+"\n"), 0)
	return err
}

// Holder tells who holds a lock, and whether anybody does.
func Holder(path string) (string, bool) {
	var held *HeldError
	if !errors.As(probe(path), &held) {
		return "", false
	}
	return held.Holder, true
}
