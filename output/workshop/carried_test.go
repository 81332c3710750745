package workshop

import (
	"encoding/csv"
	"strings"
	"testing"
)

// TestCarried: the bench has one row for every pivot, the worst section of every bar,
// every joint, face and the fixing; the figures are the account's and the file's.
func TestCarried(t *testing.T) {
	s, w := sheetOf(t, stall)
	built := w.Built()
	kinds, worst := map[string]int{}, 0
	for i := range built.Loads {
		kinds[built.Loads[i].Kind]++
		if built.Loads[i].Worst {
			worst++
		}
	}
	if want := kinds["pivot"] + worst + kinds["joint"] + kinds["face"] + kinds["fixing"]; len(s.Carried) != want || kinds["fixing"] != 1 {
		t.Errorf("%d rows, want %d: %v", len(s.Carried), want, kinds)
	}
	rows := map[string]*Carried{}
	for i := range s.Carried {
		rows[s.Carried[i].Where] = &s.Carried[i]
	}
	near(t, "pull", rows["wall, an uppermost fixing"].Along[1].SI, *built.Fixing)
	read, err := csv.NewReader(strings.NewReader(string(s.LoadsCSV()))).ReadAll()
	if err != nil || len(read) != 1+len(built.Loads) {
		t.Fatalf("%d lines for %d loads: %v", len(read), len(built.Loads), err)
	}
	for i := range built.Loads {
		if row := read[1+i]; row[1] != built.Loads[i].Where || row[3] != optionalText(&built.Loads[i].Rest.Along, 1) {
			t.Errorf("%q, want %q", row, built.Loads[i].Where)
		}
	}
	for _, c := range s.Carried {
		if c.Words == "" || strings.Contains(c.Where, "joint") && c.Moment == nil {
			t.Errorf("%s: %+v", c.Where, c)
		}
	}
}
