// Package material is the built-in table of metals, woods, sheet goods and
// shot.
//
// It reads nothing: every figure stands in table.json beside its SI unit, its
// source and a mark that says whether it was read there, computed, or only
// remembered. It makes a fresh list of materials, which package space extends
// or overrides by what a rig file gives, and finds a material by any of its
// names. Package objective takes the figures next. This package applies no
// safety factor and judges no design.
//
// # What the figures are
//
// Basis says it for every material: woods have means of clear, straight,
// dry specimens, so that half of all boards are weaker; birch plywood has 5th
// percentiles; metals have what is printed for the grade, the least where
// sources differ by temper. Loose filling has the density of the solid metal:
// the packing is the charge's.
//
// # Names
//
// Upper and lower case are alike. Plain words stand for the commonest kind:
// steel is mild steel (A36), oak is white oak, ash is white ash, walnut is
// black walnut, maple is sugar maple, cherry is black cherry, birch is yellow
// birch, plywood is birch plywood, brass is free-cutting brass of unknown
// temper, lead shot and steel shot are the solid metal.
package material
