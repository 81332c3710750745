package durable

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
)

// ErrDiffers says that a file that never changes is there with other bytes.
var ErrDiffers = errors.New("it is there already with other contents, and is never replaced")

// WriteFile makes data the contents of path, whole or not at all, replacing
// what was there. What dead writers of it left goes, too; where the folder may
// not be listed it stays, and does no harm.
func WriteFile(fs FS, path string, data []byte) error {
	f, err := begin(fs, path, data)
	if err != nil {
		return err
	}
	if err := f.Commit(); err != nil {
		return err
	}
	_ = RemoveStale(fs, path)
	return nil
}

// WriteOnce writes a file that never changes: the same bytes again are fine,
// others are ErrDiffers.
func WriteOnce(fs FS, path string, data []byte) error {
	f, err := begin(fs, path, data)
	if err != nil {
		return err
	}
	return f.CommitOnce()
}

func begin(fs FS, path string, data []byte) (*File, error) {
	f, err := Create(fs, path)
	if err != nil {
		return nil, err
	}
	if _, err := f.Write(data); err != nil {
		f.Discard()
		return nil, err
	}
	return f, nil
}

// MakeFolder makes a folder and flushes the one that holds it.
func MakeFolder(fs FS, dir string) error {
	if err := fs.MkdirAll(dir); err != nil {
		return fault("making the folder", dir, err)
	}
	above := filepath.Dir(dir)
	return fault("flushing the folder", above, fs.SyncDir(above))
}

// Exists tells whether path can be opened: by opening it, since a shared
// folder answers that freshly where its listing may be stale.
func Exists(fs FS, path string) (bool, error) {
	f, err := fs.Open(path)
	if errors.Is(err, os.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, fault("opening", path, err)
	}
	return true, fault("closing", path, f.Close())
}

// sameBytes compares a new file with the one that may have its name already:
// false where there is none, ErrDiffers where the bytes are others.
func sameBytes(fs FS, fresh, path string) (bool, error) {
	old, err := fs.Open(path)
	if errors.Is(err, os.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, fault("opening", path, err)
	}
	defer old.Close()
	now, err := fs.Open(fresh)
	if err != nil {
		return false, fault("opening", fresh, err)
	}
	defer now.Close()
	equal, err := equalContents(old, now)
	if err == nil && !equal {
		err = ErrDiffers
	}
	return equal, fault("writing", path, err)
}

// compared is how many bytes are compared at a time.
const compared = 1 << 16

func equalContents(a, b Input) (bool, error) {
	if a.Size() != b.Size() {
		return false, nil
	}
	var p, q [compared]byte
	for left := a.Size(); left > 0; {
		n := min(left, compared)
		if _, err := io.ReadFull(a, p[:n]); err != nil {
			return false, err
		}
		if _, err := io.ReadFull(b, q[:n]); err != nil {
			return false, err
		}
		if !bytes.Equal(p[:n], q[:n]) {
			return false, nil
		}
		left -= n
	}
	return true, nil
}
