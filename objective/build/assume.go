package build

// Units in which sources print their figures.
const (
	mm   = 1e-3
	inch = 0.0254
	psi  = pound / (inch * inch)
	// pound is a pound-force, N (exact: 0.45359237 kg at standard gravity).
	pound = 0.45359237 * standardGravity
	// standardGravity: BIPM, 3rd CGPM.
	standardGravity = 9.80665
)

// What the strength criteria take for granted. Each says whether its figure
// was read in a public source, computed from others, or is remembered or a
// judgement. Wood: clear, straight, dry (12 % moisture, indoors), at room
// temperature.
const (
	// DefaultSafety is the factor on mean strengths of clear wood where the rig
	// file names none. Computed below: it holds lasting load, scatter, slope of
	// grain and the loads' own factor, and a doubled bump (SafetyShort twice).
	// Lasting load and bumps are not multiplied in again.
	DefaultSafety = 6

	// Fifth is 5th percentile over mean of bending strength, 1 − 1.645·0.16.
	// Computed; the coefficient of variation 16 % read in GTR-190, table 5-6.
	Fifth = 1 - 1.645*0.16

	lastingLoad  = 0.6                                             // k_mod of solid wood and plywood, permanent load: read, EC5
	shortLoad    = 1.1                                             // k_mod, instantaneous: read, EC5
	woodFactor   = 1.3                                             // gamma_M of solid wood: read, EC5
	loadFactor   = 1.35                                            // gamma_F, permanent load: read, EC0
	grainSlope   = 0.89                                            // strength left at a slope of grain of 1:15: memory, GTR-190 table 5-12
	d245Divisor  = 2.3                                             // hardwood in bending, 5th percentile to design value: memory, ASTM D245
	SafetyLong   = loadFactor * woodFactor / (Fifth * lastingLoad) // computed: 3.97
	SafetyGrain  = SafetyLong / grainSlope                         // computed: 4.46
	SafetyRecess = SafetyGrain * TensionVoid                       // computed: 6.69
	SafetyShort  = loadFactor * woodFactor / (Fifth * shortLoad)   // computed: 2.17
	SafetyD245   = d245Divisor / Fifth                             // computed: 3.12

	// TensionVoid is the factor on stress where a recess, a hole or a square
	// corner lies on the tension side: judgement (a round hole's edge sees 5.84
	// times the stress along the grain by theory, read in FPL report 1510, which
	// plastic flow relieves).
	TensionVoid = 1.5

	// Bump doubles what glue, screws, metal and drum faces hold: a sudden load.
	// Read: Akin, impact factor of a suddenly applied load.
	Bump = 2

	// bumpShare is what is left of the safety factor where Bump is in the load.
	bumpShare = 0.5

	// metalSafety is the factor on yield with Bump in the load: judgement.
	metalSafety = 1.5

	// metalShear is shear over tension at yield: von Mises, 1/√3.
	metalShear = 0.5773502691896258

	// leastLasting refuses sheet for bars that keeps less of its strength under
	// lasting load: EC5 has 0.2 for MDF, 0.6 for plywood and timber (read).
	leastLasting = 0.5

	// assumedPoisson is taken where a material has none: memory, plywood faces.
	assumedPoisson = 0.3
)
