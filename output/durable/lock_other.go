//go:build !unix

package durable

import (
	"errors"
	"os"
)

// Held is a lock: the file's being there. It does not die with its process:
// after a crash the maker removes the file that the error names.
type Held struct {
	file *os.File
	path string
}

// Lock makes the lock file; where it is there already, a HeldError.
func Lock(path string) (*Held, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
	if errors.Is(err, os.ErrExist) {
		return nil, probe(path)
	}
	if err == nil {
		err = writeLock(f, "")
	}
	if err != nil {
		return nil, fault("locking", path, err)
	}
	return &Held{f, path}, nil
}

// Unlock removes the lock file.
func (h *Held) Unlock() error {
	if err := h.file.Close(); err != nil {
		return err
	}
	return os.Remove(h.path)
}

func probe(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return fault("opening", path, err)
	}
	defer f.Close()
	return &HeldError{Path: path, Holder: holderIn(f) + " (if it is dead, remove that file)"}
}
