// Package mass turns the parts of a pendulum into mass, centre of gravity and
// moment of inertia.
//
// It reads parts of a space.Design with the densities of their materials and
// makes one motion.Body a pendulum, which package objective hands to
// objective/motion. A part that cannot be made (a size that is not positive, a
// wall thicker than its drum) is reported as a Fault with how far it is from
// possible; it never yields NaN. This package knows no limits.
package mass
