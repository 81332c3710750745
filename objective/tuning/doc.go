// Package tuning tells how a rig answers to small changes: exact derivatives of
// its rest pose and its modes by every number of the rig, what a maker's errors
// of measure do to the periods and levels, whether what stays movable after the
// build can mend them inside its drums, in which order, and whether a table of
// influences serves for that.
//
// It reads a space.Design with its bodies, rest pose and modes (objective/mass,
// objective/motion) and makes tangents, spreads, influence tables and moves;
// package objective takes them next. Derivatives go forward, from numbers to
// bodies, moments, rest pose and modes, each step linear in the one before;
// none is a difference. The full motion is not looked at here, and no limit is
// judged.
package tuning
