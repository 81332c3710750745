package space

import (
	"runtime"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// cpuTime is what work takes of a core: a busy machine does not make it longer.
func cpuTime(t *testing.T, work func()) time.Duration {
	t.Helper()
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	began := threadClock(t)
	work()
	return threadClock(t) - began
}

func threadClock(t *testing.T) time.Duration {
	t.Helper()
	var now unix.Timespec
	if err := unix.ClockGettime(unix.CLOCK_THREAD_CPUTIME_ID, &now); err != nil {
		t.Fatal(err)
	}
	return time.Duration(now.Nano())
}
