// Package build tells whether a design can be built and stands: what its bars,
// joints, pivots and wall carry, how near its parts come while they swing,
// whether its weight stands on its edges, and how its bars give.
//
// It reads a space.Design with the bodies, rest pose and modes that objective
// and objective/motion make of it, and the strengths in the rig's materials. It
// makes utilisations (demand over allowance, 1 on the limit, at most Ceiling),
// each with the place that governs; package objective turns them into criteria.
// It knows no files and no scores. Formulas for screws, glue and the metal of a
// pivot stand by themselves on plain numbers, for rig keys to come.
//
// A Model is immutable and shared. A Workspace belongs to one goroutine: Stand a
// design, Swing it, then ask; nothing allocates. Bad numbers are refused by Hang or count
// as the worst; nothing told is ever NaN or infinite.
//
// # Conventions
//
// SI units. A pendulum's own frame: origin at its pivot, axes of the wall in the
// design pose. Along a bar, from its first end; across it, to the left of that
// walk. Loads are those at rest and, beside them, by how much swinging changes
// them at most: sums over the modes at the release's amplitudes, every phase,
// first order in the angles, and a second-order case for centripetal forces.
// How bars hold parts and each other: Workspace.hold.
//
// # How objective may ask
//
//	m := build.NewModel(rig, forest)        // once
//	b := m.NewWorkspace()                   // once a goroutine
//	if b.Stand(&design, &bodies, &rest) {
//		b.LowerTo(&lowered)                 // then RestTo and ModesTo of these
//	}
//	if b.Swing(&modes) {
//		b.StrengthTo(&strength, &fittings)  // strength: pendulums and the wall
//		b.BalanceTo(&balances)              // balance: pivots
//		b.ClearanceTo(&clearance)           // clearance: the worst pair
//		b.RoomTo(&gap, &room)               // the same criterion
//		b.PivotsTo(&pivots)                 // columns
//		b.SagTo(&sags)                      // columns, check
//		b.SpringTo(&shifts)                 // check
//		BracketTo, EdgesTo                  // on top of the modes
//	}
//
// Subjects: strength of each pendulum, known where Use.Known and not
// Use.Missing, and of the wall where a bracket is given; balance of each
// pendulum whose Balance.Known; clearance of the rig where Clearance.Pairs > 0,
// a utilisation of nought where all parts are placed and none face each other.
// Columns, one a pendulum: pivot_factor, pivot_side_n, strength, edge_offset_m,
// sag_m, sag_shift; of the rig: clearance_m, wall_weight_n, wall_pull_out_nm.
package build
