// Package report makes the page that the builder prints and pins over the
// bench.
//
// It reads a Page: plain figures in SI, which the command fills from a run's
// shortlist, and pictures from package drawing. It makes one self-contained
// HTML file: no network, nothing outside it but links to the rig files beside
// it, and one script (templates/swing.js) that plays what was worked out.
// Package durable writes the bytes.
//
// A sheet's Motion is optional: plain figures of one release, and a Course of
// plain slices that MotionPicturesOf draws. The pen's line is sized in
// millimetres, so that a print at 100 % shows it at true size; print_test.go
// measures that in a browser's PDF.
//
// It works out nothing but words: figures in the maker's units, which limit is
// the hardest, and what sets one design apart from the others.
//
// A section of a sheet is three things of one name: a template under templates
// that defines it, a struct in a file of its own, and a field of Sheet that
// points to the struct, nil where there is nothing to show. One line of
// templates/sheet.html puts it in its place; its look may have a style sheet of
// its own name beside the template, screen first, then print.
package report
