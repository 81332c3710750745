package report

import (
	"evenswing/objective"
	"evenswing/space"
)

// meanings say what each criterion's value is.
var meanings = [space.CriterionCount]string{
	space.Period:    "own period, off its target by",
	space.Ratio:     "slow period over fast, off its target by",
	space.Level:     "tilt at rest from the pose as drawn",
	space.Slosh:     "most of one pendulum's energy that visits another",
	space.Inflow:    "most of a pendulum's swing that comes from another",
	space.Exchange:  "energy that two-to-one coupling moves",
	space.Drift:     "how far the ratio wanders while it draws",
	space.Build:     "drift that nine in ten builds within tolerance stay below, untuned",
	space.Trace:     "unevenness from one pass to the next",
	space.PaperFit:  "least distance of the line from the paper's edge",
	space.Spacing:   "gap between passes, in widths of the line",
	space.Cavity:    "room left between the charge and its drum",
	space.Strength:  "safety of the weakest section or joint",
	space.Balance:   "load off the middle of its knife edge",
	space.Clearance: "smallest gap between parts as they swing",
	space.TotalMass: "everything that hangs",
	space.Tuning:    "travel of the adjusters that a build error needs",
	space.Stocked:   "whether it can be made of the plates, boards and shot that there are",
}

func meaning(kind space.Criterion) string {
	if kind >= space.CriterionCount {
		return ""
	}
	return meanings[kind]
}

// verdict is an answer with its sign, for who prints without colour; Meets is
// how shortlist.csv has it.
type verdict struct{ Sign, Words, Class, Meets string }

func verdictOf(meets objective.Meets) verdict {
	switch meets {
	case objective.Yes:
		return verdict{"✓", "keeps every limit", "keeps", "yes"}
	case objective.No:
		return verdict{"✗", "over a limit", "over", "no"}
	}
	return verdict{"?", "not every limit was computed", "open", ""}
}

// Caution is one thing that can hurt, and what to do about it.
type Caution struct{ About, Text string }

// Cautions stand on every page, in this order.
var Cautions = []Caution{
	{"Local codes and licensed people come first",
		"Where a code, a landlord or a licensed engineer says otherwise than this page, they are right."},
	{"This is a screen, not an engineer's check",
		"The figures assume clear, straight, dry wood, sound joints and parts cut as drawn. Knots, damp, short grain and poor glue take strength away that no figure here knows of."},
	{"Wall",
		"The load is heavy and never still. Fasten through to the structure, never to board or plaster alone. Have a licensed builder or structural engineer approve the wall and the anchors before anything hangs."},
	{"A second hold",
		"Give every pendulum its own steel cable to the structure, a few millimetres slack and rated for the catch: the further a weight falls before a cable stops it, the harder the jerk, many times its weight within a few centimetres."},
	{"Off the edge",
		"A knife edge holds downwards only. Fit keepers so that a pendulum that is lifted or knocked cannot leave its groove, and never lift a heavy one alone."},
	{"Under and between",
		"No bed, chair, child or animal below it or within its swing. Drums and bars crush fingers at the end of a swing. Lock it whenever it is left."},
	{"Lead",
		"Poisonous, and for children no amount is safe. Seal every face. Wear gloves, wash before eating, keep work clothes apart, wipe up wet. No dry sanding, no melting at home, no child near the work. Some brass holds lead too."},
	{"Glue and age",
		"Load it only when glue has cured in full. Look over joints, screws and edges every month at first. At a crack, a creak or a new tilt, stop and take the weight off."},
}
