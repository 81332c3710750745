package trouble

import "evenswing/objective"

// text is what does not depend on the design.
type text struct{ slug, name, looks string }

var texts = [objective.SymptomCount]text{
	objective.Wandering: {"wandering", "The axis wanders", "The figure does not stay the figure: from pass to pass it leans over, opens and turns about, with good passes all the way."},
	objective.Uneven:    {"uneven", "Uneven spacing", "The passes crowd in one place and gape in another instead of closing up evenly."},
	objective.Beating:   {"beating", "Beating", "The figure shrinks, then grows again, once or several times, as one pendulum hands its swing to another."},
	objective.Dying:     {"dying", "It dies early", "The figure closes up too soon: a thick knot in the middle, and the drawing is over."},
	objective.Blunt:     {"blunt", "Blunt, lopsided ends", "The pen does not set out from a point: the first ends are round, and fuller on one side than on the other."},
	objective.Aside:     {"aside", "It lies aside", "A whole drawing, but out of its place on the sheet."},
	objective.OffSheet:  {"off-sheet", "Off the paper", "The line runs over the edge of the sheet."},
}
