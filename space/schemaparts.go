package space

const (
	weighsText   = "What it weighs, found on the scales: it takes the place of the mass that its sizes tell."
	balancesText = "Where it balances, found on an edge: [x, y] of its centre of gravity in the pendulum's frame, or the name of a point."
	zText        = "Distance of its mid-plane from the wall, for clearance and balance."
)

func barHints() map[string]hint {
	return map[string]hint{
		"from":        {text: "One end: [x, y] in the pendulum's frame, or the name of a point.", form: place},
		"to":          {text: "The other end.", form: place},
		"section":     {text: "Height in the plane of swing x thickness along z: `60 x 35 mm`, or [height, 35 mm].", form: sectionSchema},
		"of":          {text: "Its material, or an unknown such as `steel or lead`.", form: madeOf},
		"z":           {text: zText, form: amount},
		"recess":      {text: "A notch in a long edge; a list for several.", form: several(recessSchema)},
		"mortise":     {text: "A rectangular opening; a list for several.", form: several(mortiseSchema)},
		"hole":        {text: "A round hole along z; a list for several.", form: several(holeSchema)},
		"screws":      {text: "Screws in it that hold something; a list for several.", form: several(screwSchema)},
		"plate":       {text: "A metal plate glued into a mortise of it; a list for several.", form: several(plateSchema)},
		"weighs":      {text: weighsText, form: amount},
		"balances_at": {text: balancesText, form: place},
	}
}

func recessHints() map[string]hint {
	return map[string]hint{
		"at":      {text: "Middle of its opening: [x, y] in the pendulum's frame, or the name of a point.", form: place},
		"width":   {text: "Along the bar.", form: amount},
		"depth":   {text: "In from the nearer long edge.", form: amount},
		"through": {text: "How far it goes along z; the whole bar if left out.", form: amount},
	}
}

func mortiseHints() map[string]hint {
	return map[string]hint{
		"at":     {text: "Its middle: [x, y] in the pendulum's frame, or the name of a point.", form: place},
		"width":  {text: "Along the bar.", form: amount},
		"height": {text: "Across the bar, in the plane of swing.", form: amount},
		"depth":  {text: "How far it goes along z; the whole bar if left out.", form: amount},
	}
}

func holeHints() map[string]hint {
	return map[string]hint{
		"at":     {text: "Its middle: [x, y] in the pendulum's frame, or the name of a point.", form: place},
		"across": {text: "Its diameter.", form: amount},
		"depth":  {text: "How far it goes along z; the whole bar if left out.", form: amount},
	}
}

func drumHints() map[string]hint {
	return map[string]hint{
		"at":          {text: "Its middle: [x, y] in the pendulum's frame, or the name of a point.", form: place},
		"across":      {text: "Outer diameter.", form: amount},
		"deep":        {text: "Outer depth along z, both faces included.", form: amount},
		"rim":         {text: "Thickness of the rim.", form: amount},
		"faces":       {text: "Thickness of each of the two faces.", form: amount},
		"of":          {text: "Material of rim and faces.", form: madeOf},
		"z":           {text: zText, form: amount},
		"weighs":      {text: weighsText + " Empty, without its charge.", form: amount},
		"balances_at": {text: balancesText, form: place},
		"charge":      {text: "What it holds: discs, slabs, shot or a filling. Lead is a poison: seal it, keep it from children.", form: oneCharge},
		"charges":     {text: "Several charges by name, stacked along z.", form: named(oneCharge)},
	}
}

func chargeHints() map[string]hint {
	return map[string]hint{
		"discs":     {text: "How many round plates; with `across` and `thick`.", form: plainNumber},
		"slabs":     {text: "How many rectangular plates; with `size`.", form: plainNumber},
		"shot":      {text: "Mass of loose metal.", form: amount},
		"filled_to": {text: "Height of loose metal above the lowest place inside.", form: amount},
		"across":    {text: "Diameter of a disc.", form: amount},
		"size":      {text: "[width, height, thickness] of a slab.", form: triple},
		"thick":     {text: "Thickness of a disc.", form: amount},
		"packing":   hint{text: "Solid share of loose metal.", form: plainNumber}.or(usualPacking),
		"of":        {text: "Its material, or an unknown such as `steel or lead`.", form: madeOf},
		"weighs":    {text: "What all its plates weigh together, found on the scales.", form: amount},
		"offset":    hint{text: "[x, y] of the plates' middle from the drum's.", form: pair}.or("[0 mm, 0 mm]"),
	}
}

func blockHints() map[string]hint {
	return map[string]hint{
		"at":          {text: "Its middle: [x, y] in the pendulum's frame, or the name of a point.", form: place},
		"size":        {text: "[width, height, thickness].", form: triple},
		"of":          {text: "Its material; or give `mass`.", form: madeOf},
		"mass":        {text: "Its mass, in place of `of`.", form: amount},
		"z":           {text: zText, form: amount},
		"weighs":      {text: weighsText, form: amount},
		"balances_at": {text: balancesText, form: place},
		"turned":      hint{text: "Counter-clockwise.", form: amount}.or("0 deg"),
	}
}

func lumpHints() map[string]hint {
	return map[string]hint{
		"at":          {text: "Its centre of gravity: [x, y] in the pendulum's frame, or the name of a point.", form: place},
		"mass":        {text: "Its mass.", form: amount},
		"inertia":     hint{text: "About its own centre of gravity, such as 0.002 kg m2.", form: amount}.or("0 kg m2"),
		"z":           {text: "Its distance from the wall, for balance.", form: amount},
		"weighs":      {text: weighsText, form: amount},
		"balances_at": {text: balancesText, form: place},
	}
}
