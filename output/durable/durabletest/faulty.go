// Package durabletest lets the file system fail in tests, one step at a time.
//
// It wraps a durable.FS, counts the steps and lets a chosen one fail, either
// alone or as the last one that a process ever took.
package durabletest

import (
	"errors"
	"fmt"
	"os"
	"sync"

	"evenswing/output/durable"
)

// Faulty is a file system whose step number At, counted from 0, fails.
type Faulty struct {
	durable.FS
	At    int   // negative: none fails
	Fault error // what it fails with; ErrFault where nil
	Dies  bool  // every later step fails too, as after a power cut
	Steps []string

	mu   sync.Mutex // steps may come from several goroutines
	open []durable.Output
}

// ErrFault is the failure of a step where a test names no other.
var ErrFault = errors.New("a failure put in by the test")

// Failed tells whether the step came.
func (f *Faulty) Failed() bool { return f.At >= 0 && len(f.Steps) > f.At }

// Bury closes what a process that died left open, as the system does.
func (f *Faulty) Bury() {
	for _, o := range f.open {
		_ = o.Close()
	}
}

// step counts one step and tells whether it fails.
func (f *Faulty) step(format string, args ...any) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	n := len(f.Steps)
	f.Steps = append(f.Steps, fmt.Sprintf(format, args...))
	if f.At < 0 || n < f.At || n > f.At && !f.Dies {
		return nil
	}
	if f.Fault != nil {
		return f.Fault
	}
	return ErrFault
}

// Create makes a file whose writes, flush and close are steps too.
func (f *Faulty) Create(name string) (durable.Output, error) {
	if err := f.step("create %s", name); err != nil {
		return nil, err
	}
	out, err := f.FS.Create(name)
	if err != nil {
		return nil, err
	}
	f.mu.Lock()
	f.open = append(f.open, out)
	f.mu.Unlock()
	return &output{out, f, name}, nil
}

// Open opens a file.
func (f *Faulty) Open(name string) (durable.Input, error) {
	if err := f.step("open %s", name); err != nil {
		return nil, err
	}
	return f.FS.Open(name)
}

// ReadFile reads a file.
func (f *Faulty) ReadFile(name string) ([]byte, error) {
	if err := f.step("read %s", name); err != nil {
		return nil, err
	}
	return f.FS.ReadFile(name)
}

// Stat describes a file.
func (f *Faulty) Stat(name string) (os.FileInfo, error) {
	if err := f.step("stat %s", name); err != nil {
		return nil, err
	}
	return f.FS.Stat(name)
}

// Rename renames a file.
func (f *Faulty) Rename(from, to string) error {
	if err := f.step("rename to %s", to); err != nil {
		return err
	}
	return f.FS.Rename(from, to)
}

// Remove removes a file.
func (f *Faulty) Remove(name string) error {
	if err := f.step("remove %s", name); err != nil {
		return err
	}
	return f.FS.Remove(name)
}

// MkdirAll makes a folder.
func (f *Faulty) MkdirAll(name string) error {
	if err := f.step("make %s", name); err != nil {
		return err
	}
	return f.FS.MkdirAll(name)
}

// SyncDir flushes a folder.
func (f *Faulty) SyncDir(name string) error {
	if err := f.step("flush folder %s", name); err != nil {
		return err
	}
	return f.FS.SyncDir(name)
}

// Names lists a folder.
func (f *Faulty) Names(dir string) ([]string, error) {
	if err := f.step("list %s", dir); err != nil {
		return nil, err
	}
	return f.FS.Names(dir)
}

type output struct {
	durable.Output
	fs   *Faulty
	name string
}

// Write writes half of p when the step fails: a torn file.
func (o *output) Write(p []byte) (int, error) {
	if err := o.fs.step("write %s", o.name); err != nil {
		n, _ := o.Output.Write(p[:len(p)/2])
		return n, err
	}
	return o.Output.Write(p)
}

func (o *output) Sync() error {
	if err := o.fs.step("flush %s", o.name); err != nil {
		return err
	}
	return o.Output.Sync()
}

// Close closes the file even when the step fails, as Linux does.
func (o *output) Close() error {
	if err := o.fs.step("close %s", o.name); err != nil {
		if !o.fs.Dies {
			_ = o.Output.Close()
		}
		return err
	}
	return o.Output.Close()
}
