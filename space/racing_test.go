//go:build race

package space

// hostileSize: the race detector slows reading by ten times and more.
const hostileSize = maxBytes / 16
