//go:build !race

package space

// hostileSize is half the size allowed, so that the tests stay short.
const hostileSize = maxBytes / 2
