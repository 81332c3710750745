package durable

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
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

// A lock file has two lines: who holds it, and the holder's note. It has this
// length always, so that a note is written over the last in one go.
const lockBytes = 2048

// readLock reads who holds a lock and the note.
func readLock(f io.ReaderAt) (holder, note string) {
	var text [lockBytes]byte
	n, _ := f.ReadAt(text[:], 0)
	holder, rest, found := strings.Cut(string(text[:n]), "\n")
	if !found {
		return "another process", "" // it has not written its name yet
	}
	note, _, _ = strings.Cut(rest, "\n")
	return holder, strings.TrimRight(note, " ")
}

// holderIn reads who holds a lock.
func holderIn(f io.ReaderAt) string {
	holder, _ := readLock(f)
	return holder
}

// errLongNote is our own mistake.
var errLongNote = errors.New("a lock's note is too long: a fault of this program")

// writeLock writes who holds a lock, and a note.
func writeLock(f *os.File, note string) error {
	text := holder() + "\n" + note
	if len(text) >= lockBytes {
		return errLongNote
	}
	text += strings.Repeat(" ", lockBytes-1-len(text)) + "\n"
	_, err := f.WriteAt([]byte(text), 0)
	return err
}

// Note leaves a line beside the holder's name, for Noted. It stays when the lock
// is given back. It is not flushed: it is news, and nothing else depends on it.
func (h *Held) Note(line string) error {
	return fault("writing", h.file.Name(), writeLock(h.file, strings.ReplaceAll(line, "\n", " ")))
}

// Noted is the last note of whoever holds a lock, or held it last; "" where there
// is none.
func Noted(path string) string {
	f, err := os.Open(path)
	if err != nil {
		return ""
	}
	defer f.Close()
	_, note := readLock(f)
	return note
}

// Holder tells who holds a lock, and whether anybody does.
func Holder(path string) (string, bool) {
	var held *HeldError
	if !errors.As(probe(path), &held) {
		return "", false
	}
	return held.Holder, true
}
