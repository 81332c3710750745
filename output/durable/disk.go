package durable

import "os"

// Disk is the file system of the machine.
type Disk struct{}

var _ FS = Disk{}

// Create opens a new file and holds it for as long as the process lives or
// until it is closed. Where the folder cannot hold files (some network file
// systems), it goes on without: see Abandoned.
func (Disk) Create(name string) (Output, error) {
	f, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return nil, err
	}
	_ = hold(f)
	return f, nil
}

// Open opens a file to be read.
func (Disk) Open(name string) (Input, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	info, err := f.Stat()
	if err != nil {
		_ = f.Close()
		return nil, err
	}
	return input{f, info.Size()}, nil
}

type input struct {
	*os.File
	size int64
}

func (i input) Size() int64 { return i.size }

// ReadFile reads a whole file.
func (Disk) ReadFile(name string) ([]byte, error) { return os.ReadFile(name) }

// Stat describes a file.
func (Disk) Stat(name string) (os.FileInfo, error) { return os.Stat(name) }

// Rename moves a file within its folder, in one step.
func (Disk) Rename(from, to string) error { return os.Rename(from, to) }

// Remove deletes a file.
func (Disk) Remove(name string) error { return os.Remove(name) }

// MkdirAll makes a folder and those above it.
func (Disk) MkdirAll(name string) error { return os.MkdirAll(name, 0o777) }

// Names lists a folder.
func (Disk) Names(dir string) ([]string, error) {
	entries, err := os.ReadDir(dir)
	names := make([]string, 0, len(entries))
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names, err
}
