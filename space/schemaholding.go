package space

const holdsText = "What it holds: `pivot` (all that hangs on this pendulum's own pivot), a part of this pendulum, or a pendulum that hangs from it."

func pivotKindHints() map[string]hint {
	return map[string]hint{
		"is":    {text: "The kind.", form: func() schema { return among(pivotKinds[KnifeEdge:]) }},
		"edge":  hint{text: "Material of the edge, blade or pins.", form: word}.or(usualEdge),
		"seat":  hint{text: "Material of the groove or the cups.", form: word}.or(usualSeat),
		"root":  hint{text: "Radius of the groove's root; 0 for a flat.", form: amount}.or("0 mm"),
		"bore":  hint{text: "Bore of a bearing, for its friction.", form: amount}.or(usualBore),
		"holds": hint{text: "Static load that the maker of one bearing names, such as 1.4 kN.", form: amount}.or(usualBearing),
	}
}

func screwHints() map[string]hint {
	return map[string]hint{
		"holds":  {text: holdsText, form: word},
		"kind":   hint{text: "wood screw or lag screw (coach screw).", form: func() schema { return among(screwKinds) }}.or(screwKinds[0]),
		"into":   hint{text: "Which side of the bar they go into: face (along z), edge (across it), end grain (along it).", form: func() schema { return among(grains[:]) }}.or(grains[0]),
		"count":  {text: "How many.", form: plainNumber},
		"across": {text: "Diameter.", form: amount},
		"thread": {text: "Length of thread in the bar's wood.", form: amount},
		"apart":  hint{text: "Distance of the outermost rows, against tipping.", form: amount}.or("0 mm"),
	}
}

func plateHints() map[string]hint {
	return map[string]hint{
		"holds": {text: holdsText, form: word},
		"wide":  {text: "Across the load.", form: amount},
		"long":  {text: "Along the load: how deep it sits in its mortise.", form: amount},
		"thick": {text: "Thickness.", form: amount},
		"sides": hint{text: "Glued sides, 1 or 2; end grain counts for nothing.", form: plainNumber}.or(usualSides),
		"bears": {text: "Length along z of the wood that it bears on, such as a flange gives: the glue carries nothing then.", form: amount},
		"of":    {text: "Its material.", form: word},
	}
}

func fixingHints() map[string]hint {
	return map[string]hint{
		"count":  {text: "How many in all.", form: plainNumber},
		"top":    hint{text: "How many in the uppermost row.", form: plainNumber}.or(usualTop),
		"deep":   {text: "From the uppermost row down to the edge that the bracket tips about.", form: amount},
		"kind":   hint{text: "lag screw (coach screw) or wood screw.", form: func() schema { return among(screwKinds) }}.or(screwKinds[1]),
		"across": {text: "Diameter.", form: amount},
		"thread": {text: "Length of thread in solid wood, plaster and board not counted.", form: amount},
		"of":     {text: "The wood that they go into.", form: word},
		"pull":   {text: "Allowed pull on one, in place of the screw's sizes.", form: amount},
		"side":   {text: "Allowed side load on one.", form: amount},
	}
}

func roomHints() map[string]hint {
	return map[string]hint{
		"floor":   {text: "Height of the floor, such as -1200 mm.", form: amount},
		"ceiling": {text: "Height of the ceiling.", form: amount},
		"left":    {text: "x of what stands at the left.", form: amount},
		"right":   {text: "x of what stands at the right.", form: amount},
	}
}

func supportHints() map[string]hint {
	return map[string]hint{
		"to":   {text: "Its other end: [x, y] in the frame of what carries the pen, or the name of a point; the first end is the pen.", form: place},
		"wide": {text: "In the plane of swing.", form: amount},
		"deep": {text: "Along z.", form: amount},
		"z":    {text: "Distance of its middle from the wall.", form: amount},
	}
}

func stockHints() map[string]hint {
	return map[string]hint{
		"plates": {text: "Sheet metal.", form: several(stockPlateSchema)},
		"boards": {text: "Wood and sheet goods for bars.", form: several(stockBoardSchema)},
		"shot":   {text: "Loose metal by the bag.", form: several(stockShotSchema)},
		"kerf":   hint{text: "Width of a saw's cut.", form: amount}.or(usualKerf),
		"spare":  hint{text: "Share to buy on top.", form: plainNumber}.or(usualSpare),
	}
}

func stockPlateHints() map[string]hint {
	return map[string]hint{
		"of":    {text: "Its material.", form: word},
		"thick": {text: "Its thickness.", form: amount},
		"size":  {text: "[width, height] of one.", form: pair},
		"count": hint{text: "How many there are; left out: as many as needed.", form: plainNumber}.or("0"),
	}
}

func stockBoardHints() map[string]hint {
	return map[string]hint{
		"of":    {text: "Its material.", form: word},
		"thick": {text: "Its thickness.", form: amount},
		"wide":  {text: "Its width.", form: amount},
		"long":  {text: "Its length, along the grain.", form: amount},
		"count": hint{text: "How many there are; left out: as many as needed.", form: plainNumber}.or("0"),
	}
}

func stockShotHints() map[string]hint {
	return map[string]hint{
		"of":    {text: "Its material.", form: word},
		"bag":   {text: "Mass of one bag.", form: amount},
		"count": hint{text: "How many there are; left out: as many as needed.", form: plainNumber}.or("0"),
	}
}
