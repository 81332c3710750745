package durable

import (
	"errors"
	"fmt"
	"os"
	"syscall"
)

// Error says what could not be done to which file, and what a maker can do.
type Error struct {
	Doing string // such as "writing"
	Path  string
	Err   error
}

func (e *Error) Error() string {
	return fmt.Sprintf("%s %s: %s", e.Doing, e.Path, explain(e.Err))
}

func (e *Error) Unwrap() error { return e.Err }

// advice says what a maker can do about a failure of the system.
var advice = []struct {
	cause error
	text  string
}{
	{syscall.ENOSPC, "the disk is full; make room on it or choose a folder on another disk, then run the same command again: what was finished is kept"},
	{syscall.EDQUOT, "your share of the disk is used up; make room or choose a folder on another disk, then run the same command again: what was finished is kept"},
	{syscall.EFBIG, "the file would be larger than this disk or your limits allow (ulimit -f); raise the limit or choose a folder on another disk, then run the same command again: what was finished is kept"},
	{syscall.EROFS, "the disk can only be read; choose a folder that can be written"},
	{os.ErrPermission, "no permission; choose a folder of your own or have its owner allow you to write there"},
	{syscall.EMFILE, "too many files are open; raise the limit (ulimit -n) and run the same command again"},
	{syscall.ENAMETOOLONG, "the name is too long for this disk; choose a shorter folder name"},
	{syscall.EIO, "the disk reports a fault; check it, or choose a folder on another disk"},
	{os.ErrNotExist, "it is not there"},
}

// explain puts a system's error into a maker's words.
func explain(err error) string {
	for _, a := range advice {
		if errors.Is(err, a.cause) {
			return a.text
		}
	}
	var path *os.PathError
	if errors.As(err, &path) {
		err = path.Err
	}
	return err.Error()
}

// fault wraps an error once, nil staying nil.
func fault(doing, path string, err error) error {
	if err == nil {
		return nil
	}
	return &Error{Doing: doing, Path: path, Err: err}
}
