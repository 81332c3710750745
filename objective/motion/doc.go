// Package motion is the mechanics of a forest of pendulums: each hangs from
// the wall or from a point of another, and all move in planes parallel to the
// wall.
//
// It reads the mass, centre of gravity and moment of inertia of each body and
// the place of its pivot on its parent. It makes the rest pose, the linear
// modes and their quadratic coupling; the averaged motion (Averaged), the full
// motion (Dynamics) and the drawing start from the same Rest and Modes. Package objective judges what comes out. This
// package knows no parts, no limits and no files.
//
// Conventions. SI units. x to the right, y up. An angle is the absolute
// rotation of a body from the design pose, counter-clockwise positive; phi is
// its deviation from rest. Modes are counted by rising frequency, so by
// falling period, and are M-normalised: Vᵀ M V = 1.
package motion
