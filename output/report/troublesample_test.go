package report

import (
	"evenswing/output/drawing"
	"evenswing/output/drawing/sample"
	"evenswing/output/trouble"
	"evenswing/space"
)

// inventedTroubles is a made-up sheet of what goes wrong.
func inventedTroubles(id string) *trouble.Sheet {
	picture := func(key string, swing sample.Swing) []byte {
		line := swing.Path(3000, 240)
		return drawing.Thumb(line, space.Vec{X: 0.148, Y: 0.21}, 4e-4,
			drawing.ThumbStyle{ID: id + key, Title: key, Summary: "Invented.", Window: drawing.WindowOf(line)})
	}
	good := sample.Swing{Reach: 0.05, Beat: 0.02, Wander: 0.0005}
	return &trouble.Sheet{
		Good: picture("good-", good), Scale: "101 mm wide and 98 mm high on the sheet", Time: 240,
		Seen: []trouble.Seen{{
			Slug: "wandering", Name: "The axis wanders", Looks: "The figure turns about from pass to pass.",
			Picture: picture("1-", sample.Swing{Reach: 0.05, Beat: 0.02, Wander: 0.02}),
			Shown:   "The weight of lintel (lintel_height) stands 6 mm too high: the period of lintel is 1.2 % too long.",
			Measure: trouble.Measure{Name: "the figure turns over, in 240 s", Is: "1.3 times", Good: "0.1 times"},
			Tell:    "Time each alone: 20 swings of lintel take 121.70 s instead of 120.26 s.",
			Causes: []trouble.Cause{
				{What: "The weight of lintel (lintel_height) stands 6 mm too high.", Likely: "likely (3 ×)", Remedy: "Move lintel_height 6 mm down (1 mm changes the period of lintel by 0.2 %)"},
				{What: "The seat of ladder sits 2 mm too low on what carries it.", Likely: "possible (6.7 ×)", Remedy: "Move lintel_height 5 mm down"},
			}, More: 2,
		}, {
			Slug: "off-sheet", Name: "Off the paper", Looks: "The line runs over the edge.", Whole: true,
			Picture: picture("2-", sample.Swing{Reach: 0.11}), Shown: "The sheet lies 30 mm too far left.",
			Measure: trouble.Measure{Name: "over the edge", Is: "4 mm", Good: "26 mm inside"}, Tell: "Look where the pen stands.",
			Causes: []trouble.Cause{{What: "The sheet lies 30 mm too far left.", Likely: "a blunder (15 ×)", Remedy: "Pin the sheet to a stop"}},
		}},
		Absent: []trouble.Absent{{Name: "Beating", Why: "no single error brings it about"}},
		Notes:  []string{"The wall’s bracket: one that holds the rig is not to blame."},
	}
}
