//go:build unix

package durable

import (
	"errors"
	"os"
	"syscall"
)

// hold takes an exclusive lock on an open file; the system drops it when the
// file is closed or the process dies, however it dies.
func hold(f *os.File) error {
	return syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
}

// heldElsewhere tells whether hold failed because somebody else holds the file.
func heldElsewhere(err error) bool { return errors.Is(err, syscall.EWOULDBLOCK) }

// Abandoned tries to hold the file. A file system without locks answers false,
// so that a file whose writer may live is never taken for a dead one's.
func (Disk) Abandoned(name string) bool {
	f, err := os.OpenFile(name, os.O_RDWR, 0)
	if err != nil {
		return false
	}
	defer f.Close()
	return hold(f) == nil
}

// SyncDir flushes a folder.
func (Disk) SyncDir(name string) error {
	d, err := os.Open(name)
	if err != nil {
		return err
	}
	err = d.Sync()
	if closing := d.Close(); err == nil {
		err = closing
	}
	return err
}
