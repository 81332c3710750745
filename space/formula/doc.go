// Package formula compiles the formulas of a rig file once and works them out
// for every candidate.
//
// It reads formulas over unknowns, named values and quantities, such as
// `0.6 * long_arm` or `3-1/2 in + drop`, checks their dimensions and makes a
// Program: a flat tape over registers of float64, with exact derivatives.
// Package space fills the unknowns' registers, runs the tape and takes the
// results into a design. It reads no files and looks for no line numbers;
// errors carry offsets in their formula.
//
// # What is read
//
//	sum      = product { ("+" | "-" | "−") product }
//	product  = signed { ("*" | "×" | "·" | "/" | "÷") signed }
//	signed   = { "-" | "−" | "+" } operand
//	operand  = quantity | name | "pi" | function "(" sum { "," sum } ")" | "(" sum ")"
//
// Functions: sqrt, abs, min, max, hypot, sin, cos, tan, asin, acos, atan and
// atan2. Those of an angle take an angle or a plain number of radians; those
// that find one give an angle.
//
// # Units and names
//
// A unit follows only a number. After a number, words that are units are read
// as its unit for as long as they go on (`0.02 N m`, `7.85 g/cm3`), so no name
// may be spelt like a unit: Refuse says so. `3-1/2 in` and `1/2 in`, without
// spaces and with a unit, are one number each; without a unit they are a
// difference and a quotient. A plain 0 fits any dimension.
package formula
