package space

// hints tell an editor what each key of each kind of mapping is. It is filled
// in by init, since the shapes refer to the table again.
var hints map[string]map[string]hint

func init() {
	hints = map[string]map[string]hint{
		"rig": rigHints(), "gravity": gravityHints(), "unknown": unknownHints(), "pendulum": pendulumHints(),
		"edge": edgeHints(), "bar": barHints(), "recess": recessHints(), "mortise": mortiseHints(), "hole": holeHints(),
		"drum": drumHints(), "charge": chargeHints(), "block": blockHints(), "lump": lumpHints(),
		"paper": paperHints(), "pen": penHints(), "support": supportHints(), "wall": wallHints(), "fixings": fixingHints(),
		"room": roomHints(), "stock": stockHints(), "stock plate": stockPlateHints(), "stock board": stockBoardHints(), "stock shot": stockShotHints(),
		"pivot kind": pivotKindHints(), "screws": screwHints(), "plate": plateHints(),
		"targets": targetsHints(), "ratio": ratioHints(), "tolerances": tolerancesHints(),
	}
}

func rigHints() map[string]hint {
	return map[string]hint{
		"rig":         {text: "The rig's name.", form: func() schema { return schema{"type": []string{"string", "number", "boolean", "null"}} }},
		"gravity":     hint{text: "The acceleration of free fall, such as 9.81 m/s2, or the place that has it: {latitude: 54.6 deg, height: 30 m}.", form: gravitySchema}.or(standardGravity),
		"unknowns":    {text: "What the search may choose: names, each with a range or a choice, such as `long_arm: 350 to 700 mm`.", form: unknownsSchema},
		"values":      {text: "Named numbers and formulas over the unknowns, such as `drop: 0.6 * long_arm`.", form: valuesSchema},
		"materials":   {text: "Materials of your own, or better figures for a built-in one, such as `my ash: {density: 655 kg/m3}`.", form: named(materialSchema)},
		"pendulums":   {text: "The swinging bodies, 1 to 8, by name. Each hangs from the wall or from another.", form: pendulumsSchema},
		"release":     {text: "The angle from its rest pose at which each pendulum is let go, at no speed. Left out: full swings, judged by the worst of all sides.", form: named(amount)},
		"paper":       {text: "The sheet: what carries it, where its centre is, and its size.", form: paperSchema},
		"pen":         {text: "The point that draws: what carries it and where it is.", form: penSchema},
		"wall":        {text: "What is known of the wall and of what holds on it.", form: wallSchema},
		"room":        {text: "The room that the rig swings in, on the wall's axes: clearance is kept to it.", form: roomSchema},
		"stock":       {text: "What you have or can buy: plates, boards, shot. Check holds the design against it.", form: stockSchema},
		"targets":     {text: "What you want: periods, ratios, how long it draws.", form: targetsSchema},
		"limits":      {text: "What must not be exceeded. Only what is written counts.", form: limitsSchema},
		"matters":     {text: "The weight of a criterion in the score: 1 if left out, 0 leaves it out.", form: mattersSchema},
		"tolerances":  {text: "What a careful maker still misses by, one time in three.", form: tolerancesSchema},
		"score_power": hint{text: "The power of the mean that makes the score: a higher one looks at the worst limits only. 1 to 32.", form: plainNumber}.or(usualPower),
	}
}

func gravityHints() map[string]hint {
	return map[string]hint{
		"latitude": {text: "Latitude of the workshop, such as 54.6 deg.", form: amount},
		"height":   hint{text: "Height above the sea.", form: amount}.or("0 m"),
	}
}

func unknownHints() map[string]hint {
	text := func() schema { return schema{"type": "string", "minLength": 1} }
	return map[string]hint{
		"range":       {text: "The range: `350 to 700 mm`, in steps `4 to 24 by 1`, or a choice `steel or lead`.", form: text},
		"choose":      {text: "The choice: `steel or lead`, or `3 mm or 5 mm`.", form: text},
		"is":          {text: "Its value in a filled-in rig.", form: word},
		"movable":     {text: "It can still be moved after the build, so far each way, such as 15 mm.", form: amount},
		"levels":      {text: "Worked out, not searched: its value makes this pendulum hang level.", form: word},
		"sets_period": {text: "Worked out, not searched: its value gives this pendulum its target period.", form: word},
	}
}

func pendulumHints() map[string]hint {
	return map[string]hint{
		"hangs_from":     {text: "`wall`, or the pendulum that carries it.", form: func() schema { return among([]string{wall}) }},
		"pivot":          {text: "Where its knife edge is: [x, y] on the wall or on what carries it, in that frame, or the name of a point of that pendulum.", form: place},
		"edge":           {text: "The knife edge, for loads and balance.", form: edgeSchema},
		"swing":          hint{text: "How far it works to each side.", form: amount}.or(usualSwing),
		"halves_in":      hint{text: "Its swing decays to half in this time.", form: amount}.or(usualHalvesIn),
		"pivot_friction": hint{text: "Torque of dry friction at the edge, such as 0.02 N m.", form: amount}.or("0 N m"),
		"pivot_kind":     {text: "How it turns: knife edge in a groove, pin in a cup, ball bearing or bought blade; alone or with its sizes, {is: ball bearing, bore: 8 mm}.", form: pivotKindSchema},
		"edge_radius":    hint{text: "Radius of the edge's nose: it rolls, which acts like a pivot higher by so much.", form: amount}.or("0 mm"),
		"points":         {text: "Names for places in its own frame: the origin is its own pivot, x runs right, y up.", form: named(pair)},
		"bars":           {text: "Straight bars between two points, by name.", form: named(barSchema)},
		"drums":          {text: "Hollow drums of a rim between two faces, by name, with a charge inside.", form: named(drumSchema)},
		"lumps":          {text: "Raw masses, by name.", form: named(lumpSchema)},
		"blocks":         {text: "Solid rectangles, by name.", form: named(blockSchema)},
	}
}

func edgeHints() map[string]hint {
	return map[string]hint{
		"length": {text: "Length of the knife edge, along z.", form: amount},
		"z":      {text: "Distance of its middle from the wall.", form: amount},
	}
}

func paperHints() map[string]hint {
	return map[string]hint{
		"on":   {text: "`wall`, or the pendulum that carries the paper.", form: func() schema { return among([]string{wall}) }},
		"at":   {text: "Its centre: [x, y] in the carrier's frame, or the name of a point.", form: place},
		"size": {text: "[width, height].", form: pair},
	}
}

func penHints() map[string]hint {
	return map[string]hint{
		"on":      {text: "`wall`, or the pendulum that carries the pen.", form: func() schema { return among([]string{wall}) }},
		"at":      {text: "Its point: [x, y] in the carrier's frame, or the name of a point.", form: place},
		"line":    {text: "Width of the line, such as 0.4 mm.", form: amount},
		"drag":    hint{text: "Force of dry friction on the paper, such as 0.02 N.", form: amount}.or("0 N"),
		"support": {text: "The arm that carries the pen, for clearance.", form: supportSchema},
	}
}

func wallHints() map[string]hint {
	return map[string]hint{
		"stand_off":         {text: "How far the edges' support stands off the wall.", form: amount},
		"bracket_stiffness": {text: "How stiffly the bracket stands sideways, such as 800 N/mm; left out: it does not give.", form: amount},
		"fixings":           {text: "What holds the bracket on the wall: screws in wood, or what one fixing may take. An estimate: local codes and licensed practice come first.", form: fixingSchema},
	}
}

func targetsHints() map[string]hint {
	return map[string]hint{
		"periods":      {text: "The period of each pendulum, such as `rod: 3 s within 1 %` (1 % if left out).", form: named(func() schema { return schema{"type": "string", "minLength": 1} })},
		"ratios":       {text: "Ratios of periods, such as {slow: beam, fast: rod, is: 2, within: 0.5 %}.", form: several(ratioSchema)},
		"drawing_time": hint{text: "How long it draws.", form: amount}.or(usualDrawingTime),
	}
}

func ratioHints() map[string]hint {
	return map[string]hint{
		"slow":   {text: "The slower pendulum.", form: word},
		"fast":   {text: "The faster pendulum.", form: word},
		"is":     {text: "The slower one's period over the faster one's, such as 2.", form: plainNumber},
		"within": hint{text: "How far the ratio may be off.", form: plainNumber}.or(usualRatioWithin),
	}
}

func tolerancesHints() map[string]hint {
	return map[string]hint{
		"length":  hint{text: "Of a length.", form: amount}.or("0.5 mm"),
		"mass":    hint{text: "Of a mass, as a share.", form: plainNumber}.or("0.2 %"),
		"density": hint{text: "Of a density, as a share.", form: plainNumber}.or("1 %"),
		"pivot":   hint{text: "Of the place of a pivot.", form: amount}.or("0.3 mm"),
	}
}

var limitHints = map[string]string{
	"level":            "Tilt of each pendulum at rest from the drawn pose, such as 0.5 deg.",
	"slosh":            "Largest share of one pendulum's energy that another takes within the drawing time, such as 4 %.",
	"inflow":           "Swing that a light pendulum is given by a heavy one, over its own, such as 20 %.",
	"exchange":         "Largest share of energy that modes trade where their frequencies add up, such as 5 %.",
	"drift":            "How far a ratio wanders while the machine swings, such as 0.3 %.",
	"build_drift":      "The drift that nine in ten builds within the tolerances stay below, none of them tuned, such as 0.6 %; of finalists alone.",
	"trace":            "How irregular the passes of the line are, such as 3 %.",
	"paper_margin":     "Least distance of the line from the paper's edge, such as 10 mm.",
	"line_spacing":     "Distance of neighbouring passes in line widths, such as 1.5.",
	"cavity_clearance": "Room that a charge needs round it in its drum; 0 if left out.",
	"safety_factor":    "Strength over stress; 6 if left out. An estimate: local codes and licensed practice come first.",
	"balance":          "How far off the middle of its edge the weight on it may stand, over a sixth of its length: at 1, taken if left out, it begins to lift; at 3 it tips off.",
	"clearance":        "Smallest gap between parts that swing past one another, such as 8 mm.",
	"total_mass":       "Mass of all that hangs on the wall, such as 60 kg.",
	"tuning":           "Share of the adjusters' travel that build errors need, such as 60 %.",
}
