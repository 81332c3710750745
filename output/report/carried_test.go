package report

import (
	"testing"

	"evenswing/output/workshop"
	"evenswing/space"
)

// TestCarriedShares: of a worst of 0.5, what uses less than 0.05 is light; what
// is not judged and what uses just that is not.
func TestCarriedShares(t *testing.T) {
	use := func(v float64) *float64 { return &v }
	rows := []workshop.Carried{{Where: "a", Utilisation: use(0.02)}, {Where: "b"}, {Where: "c", Utilisation: use(0.5)}, {Where: "d", Utilisation: use(0.05)}}
	parted := carriedShares(rows)
	heavy, light := "", ""
	for _, c := range parted.Heavy {
		heavy += c.Where
	}
	for _, c := range parted.Light {
		light += c.Where
	}
	if heavy != "bcd" || light != "a" {
		t.Errorf("heavy %s, light %s", heavy, light)
	}
	if unjudged := carriedShares(rows[1:2]); len(unjudged.Heavy) != 1 || unjudged.Light != nil {
		t.Errorf("nothing judged: %v", unjudged)
	}
}

// TestSharedNotes: one text of several places is told once.
func TestSharedNotes(t *testing.T) {
	got := sharedNotes([]space.Note{{Where: "a", Text: "x"}, {Where: "b", Text: "y"}, {Where: "c", Text: "x"}})
	if len(got) != 2 || got[0].Text != "x" || len(got[0].Wheres) != 2 || got[0].Wheres[1] != "c" || got[1].Wheres[0] != "b" {
		t.Errorf("notes: %v", got)
	}
}
