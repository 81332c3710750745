// Package drawing draws a rig to scale as SVG.
//
// It reads a space.Rig for names and materials and a space.Design for
// numbers. It makes outlines in the wall frame (metres, y up) and from them
// one SVG picture whose user unit is one millimetre of the rig. Package report
// takes the picture next. The same design gives the same bytes.
//
// Of a rig, three layers, one way: pose.go says where every pendulum is; bar.go,
// drum.go and block.go turn parts into outlines; the other files paint outlines.
// Other views, and other formats, take the outlines.
//
// Of the same outlines, measured views from the front and the side (measured.go,
// side.go; dimension.go writes sizes), a drum's cavity (cavity.go), and DXF for a
// saw or a router (dxf.go).
//
// Of a motion, from plain numbers: the line that the pen leaves on the paper,
// at true size (line.go; curve.go fits curves to its places, cut.go cuts them
// at the paper's edge, path.go writes them), and small charts over time
// (chart.go and axis.go; courses.go, kept.go and shares.go are one chart each).
//
// This package works out no mechanics: tilts, masses and motions come from its
// caller. It opens no file.
package drawing
