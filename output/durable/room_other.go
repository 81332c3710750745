//go:build !(linux || darwin || freebsd)

package durable

// Room is not known on such a system.
func Room(string) (int64, bool) { return 0, false }
