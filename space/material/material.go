package material

// Marks of a figure.
const (
	Read       = "R" // read in the named public source
	Computed   = "C" // computed from other figures, as the source says
	Remembered = "M" // from memory, or judgement
)

// What the figures of a material are: Material.Basis of the built-in ones.
const (
	BasisMean        = "mean of clear straight-grained specimens, short-term"
	BasisFifth       = "5th percentile (divide by SF*0.737, not SF)"
	BasisRequirement = "product requirement, not for structural design"
	BasisGrade       = "figures printed for the grade"
	BasisLeastYield  = "figures printed for the grade, the least yield of any temper"
)

// Property is one figure in the SI unit of its Field, with where it comes
// from. The zero Property is one that no one gave.
type Property struct {
	Value  float64 `json:"value"`
	Unit   string  `json:"unit"`
	Source string  `json:"source"`
	Mark   string  `json:"mark"`
	Note   string  `json:"note"`
	Given  bool    `json:"-"`
}

// Material is one material and what is known about it. Stresses are in Pa.
type Material struct {
	Name       string
	Kind       string // "metal", "wood" or "sheet"
	Basis      string // what the strengths are: means, 5th percentiles, ...
	Aliases    []string
	CrossCheck string // what other sources say about the figures, if looked up
	Caution    string // what a maker has to know before taking it, if anything

	Density                  Property
	E                        Property // modulus of elasticity, along the grain
	Poisson                  Property
	BendingStrength          Property // along the grain or face grain
	BendingStrengthAcross    Property // of a sheet, across the face grain
	CompressionParallel      Property
	CompressionPerpendicular Property // of wood, at the proportional limit
	ShearParallel            Property
	PanelShear               Property // of a sheet, through its thickness
	PlanarShear              Property // of a sheet, between its plies
	TensionPerpendicular     Property
	YieldStrength            Property
	UltimateStrength         Property // in tension
	CompressionStrength      Property
	FatigueStrength          Property
	Hardness                 Property // by indentation, as a pressure
	SideHardness             Property // of wood, as a force
	SpecificGravity          Property // oven-dry mass over volume at 12 % moisture
	LongTermFactor           Property // share of the strength left under lasting load
	LeadContent              Property // share of the mass
}

// Field is a property that a material may have: its key in a rig file, what it
// is in plain words, and its SI unit.
type Field struct{ Key, Words, Unit string }

var fields = []struct {
	Field
	of func(*Material) *Property
}{
	{Field{"density", "density", "kg/m3"}, func(m *Material) *Property { return &m.Density }},
	{Field{"E", "modulus of elasticity", "Pa"}, func(m *Material) *Property { return &m.E }},
	{Field{"poisson", "Poisson's ratio", ""}, func(m *Material) *Property { return &m.Poisson }},
	{Field{"bending_strength", "bending strength", "Pa"}, func(m *Material) *Property { return &m.BendingStrength }},
	{Field{"bending_strength_across", "bending strength across the face grain", "Pa"}, func(m *Material) *Property { return &m.BendingStrengthAcross }},
	{Field{"compression_parallel", "compressive strength along the grain", "Pa"}, func(m *Material) *Property { return &m.CompressionParallel }},
	{Field{"compression_perpendicular", "compressive strength across the grain", "Pa"}, func(m *Material) *Property { return &m.CompressionPerpendicular }},
	{Field{"shear_parallel", "shear strength along the grain", "Pa"}, func(m *Material) *Property { return &m.ShearParallel }},
	{Field{"panel_shear", "shear strength through the sheet", "Pa"}, func(m *Material) *Property { return &m.PanelShear }},
	{Field{"planar_shear", "shear strength between the plies", "Pa"}, func(m *Material) *Property { return &m.PlanarShear }},
	{Field{"tension_perpendicular", "tensile strength across the grain", "Pa"}, func(m *Material) *Property { return &m.TensionPerpendicular }},
	{Field{"yield_strength", "yield strength", "Pa"}, func(m *Material) *Property { return &m.YieldStrength }},
	{Field{"ultimate_strength", "ultimate tensile strength", "Pa"}, func(m *Material) *Property { return &m.UltimateStrength }},
	{Field{"compression_strength", "compressive strength", "Pa"}, func(m *Material) *Property { return &m.CompressionStrength }},
	{Field{"fatigue_strength", "fatigue strength", "Pa"}, func(m *Material) *Property { return &m.FatigueStrength }},
	{Field{"hardness", "indentation hardness", "Pa"}, func(m *Material) *Property { return &m.Hardness }},
	{Field{"side_hardness", "side hardness of wood", "N"}, func(m *Material) *Property { return &m.SideHardness }},
	{Field{"specific_gravity", "oven-dry mass over volume at 12 % moisture, over that of water", ""}, func(m *Material) *Property { return &m.SpecificGravity }},
	{Field{"long_term_factor", "share of the strength left under lasting load", ""}, func(m *Material) *Property { return &m.LongTermFactor }},
	{Field{"lead_content", "share of lead in the mass", ""}, func(m *Material) *Property { return &m.LeadContent }},
}

// Fields lists the properties in the order in which tables show them.
func Fields() []Field {
	list := make([]Field, len(fields))
	for i := range fields {
		list[i] = fields[i].Field
	}
	return list
}

// Property is the property of a key, to read or to set; nil if there is no
// such key.
func (m *Material) Property(key string) *Property {
	for i := range fields {
		if fields[i].Key == key {
			return fields[i].of(m)
		}
	}
	return nil
}
