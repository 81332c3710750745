//go:build linux || darwin || freebsd

package durable

import "syscall"

// Room is how many bytes can still be written in a folder; false where the
// system does not tell.
func Room(dir string) (int64, bool) {
	var s syscall.Statfs_t
	if err := syscall.Statfs(dir, &s); err != nil {
		return 0, false
	}
	return int64(s.Bavail) * int64(s.Bsize), true
}
