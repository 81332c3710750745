//go:build !linux

package space

import (
	"testing"
	"time"
)

// cpuTime is how long work takes where no clock of one thread is known.
func cpuTime(t *testing.T, work func()) time.Duration {
	t.Helper()
	began := time.Now()
	work()
	return time.Since(began)
}
