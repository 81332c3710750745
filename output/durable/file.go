package durable

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
)

// File is a file on its way to its name: it becomes visible at Commit, whole,
// or not at all.
type File struct {
	fs   FS
	path string
	temp string
	out  Output // nil once closed
}

// temporary ends the names of unfinished files.
const temporary = ".tmp"

// Unfinished tells whether a name is that of a file on its way.
func Unfinished(name string) bool { return strings.HasSuffix(name, temporary) }

// attempts bounds the search for a free temporary name; names clash only where
// several machines with equal process numbers share a folder.
const attempts = 1000

var serial atomic.Uint64

// Create starts a file that is to be called path. The folder must be there.
func Create(fs FS, path string) (*File, error) {
	for range attempts {
		temp := fmt.Sprintf("%s.%d-%d%s", path, os.Getpid(), serial.Add(1), temporary)
		out, err := fs.Create(temp)
		if errors.Is(err, os.ErrExist) {
			continue
		}
		if err != nil {
			return nil, fault("creating", path, err)
		}
		return &File{fs: fs, path: path, temp: temp, out: out}, nil
	}
	return nil, fault("creating", path, errors.New("no free temporary name; remove the old .tmp files beside it"))
}

// Temp is the file's name until Commit, for whoever checks it first.
func (f *File) Temp() string { return f.temp }

// Write appends bytes.
func (f *File) Write(p []byte) (int, error) {
	n, err := f.out.Write(p)
	return n, fault("writing", f.path, err)
}

// Flush makes what is written so far survive a power cut, under the file's
// temporary name; Commit does it, too.
func (f *File) Flush() error { return fault("flushing", f.path, f.out.Sync()) }

// Commit flushes the file, gives it its name and flushes the folder. After an
// error before the renaming nothing is left; when only the folder's flush
// failed, the file is there, whole, but might not survive a power cut.
func (f *File) Commit() error {
	if err := f.finish(); err != nil {
		f.Discard()
		return err
	}
	if err := f.fs.Rename(f.temp, f.path); err != nil {
		f.Discard()
		return fault("renaming to", f.path, err)
	}
	f.temp = ""
	return fault("flushing the folder of", f.path, f.fs.SyncDir(filepath.Dir(f.path)))
}

// CommitOnce is Commit for a file that never changes: where path is there
// already with the same bytes it stays; with others, ErrDiffers.
func (f *File) CommitOnce() error {
	if err := f.finish(); err != nil {
		f.Discard()
		return err
	}
	there, err := sameBytes(f.fs, f.temp, f.path)
	switch {
	case err != nil:
		f.Discard()
		return err
	case there:
		f.Discard()
		return nil
	}
	return f.Commit()
}

// Discard drops the file. After Commit, and again, it does nothing.
func (f *File) Discard() {
	if f.out != nil {
		_ = f.out.Close()
		f.out = nil
	}
	if f.temp != "" {
		_ = f.fs.Remove(f.temp)
		f.temp = ""
	}
}

// finish flushes and closes, once.
func (f *File) finish() error {
	if f.out == nil {
		return nil
	}
	if err := f.out.Sync(); err != nil {
		return fault("flushing", f.path, err)
	}
	out := f.out
	f.out = nil
	return fault("closing", f.path, out.Close())
}

// RemoveStale removes what dead writers of path left: temporary files that
// nobody holds. A writer that still lives keeps its own.
func RemoveStale(fs FS, path string) error {
	dir := filepath.Dir(path)
	names, err := fs.Names(dir)
	if err != nil {
		return fault("looking for unfinished files in", dir, err)
	}
	for _, name := range names {
		full := filepath.Join(dir, name)
		if !strings.HasPrefix(name, filepath.Base(path)+".") || !strings.HasSuffix(name, temporary) || !fs.Abandoned(full) {
			continue
		}
		if err := fs.Remove(full); err != nil && !errors.Is(err, os.ErrNotExist) {
			return fault("removing", full, err)
		}
	}
	return nil
}
