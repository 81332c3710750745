// Package quantity reads and writes quantities as makers write them.
//
// It reads text such as `3-1/2 in`, `2 lb 4 oz`, `1e-9 kg m2` or
// `350 to 700 mm` and makes a float64 in SI units (m, kg, s, rad) with its
// dimension, rounded once from the exact decimal or fraction. It also writes
// SI values back as the shortest text that reads as the same number. Package
// formula takes quantities inside formulas from it, package space whole ones.
// It knows no names and does no arithmetic beyond `2 lb 4 oz`.
//
// # What is read
//
// A number is a decimal with a point (12.5, .5, 1e-9), a fraction of whole
// numbers (5/16), or a mixed number (3-1/2), which has no spaces and ends in
// its unit. A unit follows its number with or without a space. Units combine:
// `kg m2`, `kg*m2`, `N·m`, `g/cm3`, `m/s2`, `m/s^2`, `m²`; powers are written
// after m, cm, mm, km, in, ft, yd, thou and s directly, after all others with
// a ^. After a / each unit has its own: `W/m/K`, not `W/m K`. Several
// quantities of one kind in falling units add up: `6' 2"`, `2 lb 4 oz`.
package quantity
