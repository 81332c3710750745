// Package drawing draws a rig to scale as SVG.
//
// It reads a space.Rig for names and materials and a space.Design for
// numbers. It makes outlines in the wall frame (metres, y up) and from them
// one SVG picture whose user unit is one millimetre of the rig. Package report
// takes the picture next. The same design gives the same bytes.
//
// It also draws, from plain numbers, what a motion leaves on the paper
// (line.go: the pen's way as curves, at true size) and small charts of its
// courses over time (courses.go).
//
// Three layers of a rig, one way: pose.go says where every pendulum is; bar.go, drum.go
// and block.go turn parts into outlines; the other files paint outlines. Other
// views, and other formats, take the outlines.
//
// This package works out no mechanics: tilts, masses and motions come from its
// caller.
// It opens no file.
package drawing
