// Package objective scores a design.
//
// It reads a space.Design, works out its mechanics through objective/mass and
// objective/motion, and makes figures, utilisations and one score. Package
// search takes the score next, package output the figures. An Evaluator is
// immutable and shared; a Workspace belongs to one goroutine; scoring a
// candidate allocates nothing. This package knows nothing of files, clocks or
// goroutines.
package objective
