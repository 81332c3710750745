package shortlist

import (
	"context"
	"path/filepath"
	"reflect"
	"testing"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
	"evenswing/space"
)

// TestTallyByRanges: what is taken from row groups' figures is what the rows
// say.
func TestTallyByRanges(t *testing.T) {
	for _, name := range []string{"four", "four-drift"} {
		t.Run(name, func(t *testing.T) { checkTally(t, "../../testdata/rigs/"+name+".yaml") })
	}
}

func checkTally(t *testing.T, path string) {
	rig, err := space.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	e := objective.New(rig)
	plan := search.NewPlan(3000, 1)
	run, err := dataset.CreateRun(durable.Disk{}, filepath.Join(t.TempDir(), "run"), dataset.Start{Plan: plan}, rig.Source)
	if err == nil {
		err = run.Continue(dataset.Program{}, e.Columns())
	}
	if err == nil {
		err = search.Run(context.Background(), search.Of(e), plan, run, 1, nil)
	}
	if err != nil {
		t.Fatal(err)
	}
	names, _, _ := useColumns(e.Columns())
	have, err := tallyRun(run, names)
	if err != nil {
		t.Fatal(err)
	}
	want := newTally(len(names))
	err = run.Scan(dataset.Want{Floats: names}, func(b *dataset.Batch) error {
		want.add(b.Floats, b.Missing, b.Rows)
		return nil
	})
	if err != nil || want.rows == 0 || want.meeting == 0 {
		t.Fatalf("%+v, %v", want, err)
	}
	have.open, want.open = nil, nil
	if !reflect.DeepEqual(have, want) {
		t.Errorf("have %+v\nwant %+v", have, want)
	}
}

// TestAllKeep: a column is left unread only where its figures tell that every
// row keeps the limit.
func TestAllKeep(t *testing.T) {
	kept, lower := dataset.Range{Rows: 9, Lo: 0.5, Hi: 1}, dataset.Range{Rows: 9, Lo: 0.25, Hi: 0.75}
	for _, c := range []struct {
		name string
		of   []dataset.Range
		lo   float32
		all  bool
	}{
		{"kept", []dataset.Range{kept, lower}, 0.25, true},
		{"one fails", []dataset.Range{kept, {Rows: 9, Lo: 0.5, Hi: 1.5}}, 0, false},
		{"one is missing", []dataset.Range{kept, {Rows: 9, Missing: 1, Lo: 0.5, Hi: 0.75}}, 0, false},
		{"nothing told", []dataset.Range{kept, {Rows: 9}}, 0, false},
	} {
		if lo, all := allKeep(c.of); lo != c.lo || all != c.all {
			t.Errorf("%s: %v, %v; want %v, %v", c.name, lo, all, c.lo, c.all)
		}
	}
}
