//go:build unix

package durable

import (
	"os"
	"syscall"
	"time"
)

// Held is a lock; it dies with its process, however that dies.
type Held struct{ file *os.File }

// A look by Holder takes the lock for an instant: a second try a little later
// tells it from a process that stays.
const (
	tries = 5
	pause = 20 * time.Millisecond
)

// Lock takes the lock of a folder, a file in it that stays; the second process
// gets a HeldError that names the first.
func Lock(path string) (*Held, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o666)
	if err != nil {
		return nil, fault("locking", path, err)
	}
	if err := take(f); err != nil {
		defer f.Close()
		return nil, refused(f, path, err)
	}
	if err := writeLock(f, ""); err != nil {
		_ = f.Close()
		return nil, fault("locking", path, err)
	}
	return &Held{f}, nil
}

func take(f *os.File) (err error) {
	for range tries {
		if err = hold(f); err == nil || !heldElsewhere(err) {
			return err
		}
		time.Sleep(pause)
	}
	return err
}

func refused(f *os.File, path string, err error) error {
	if heldElsewhere(err) {
		return &HeldError{Path: path, Holder: holderIn(f)}
	}
	return fault("locking", path, err)
}

// Unlock gives the lock back.
func (h *Held) Unlock() error { return h.file.Close() }

// probe looks at a lock without keeping it.
func probe(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return fault("opening", path, err)
	}
	defer f.Close()
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_SH|syscall.LOCK_NB); err != nil {
		return refused(f, path, err)
	}
	return nil
}
