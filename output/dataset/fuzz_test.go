package dataset

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"evenswing/objective"
	"evenswing/output/durable"
	"evenswing/search"
)

// inMemory is a disk on which every name that is opened has the same bytes.
type inMemory struct {
	durable.Disk
	data []byte
}

type held struct {
	*bytes.Reader
}

func (h held) Close() error { return nil }
func (h held) Size() int64  { return h.Reader.Size() }

func (m inMemory) Open(string) (durable.Input, error) { return held{bytes.NewReader(m.data)}, nil }

// FuzzStart: whatever bytes lie where run.json should be, opening the run fails
// or gives a plan that can be worked through.
func FuzzStart(f *testing.F) {
	rig := []byte("rig: invented for a test\n")
	start := Start{Format: runFormat, Plan: search.NewPlan(1000, 3), Program: ThisProgram("1"), Rig: rigSum(rig)}
	text, err := start.encode()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Add([]byte(`{"format":1,"plan":{"evaluations":209708800000,"islands":8191,"epochs":32767}}`))
	f.Add([]byte(`{"format":1e99,"plan":null}`))
	f.Add([]byte("null"))
	dir := f.TempDir()
	if err := os.WriteFile(RigPath(dir), rig, 0o666); err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		run, err := OpenRun(oneText{durable.Disk{}, RunPath(dir), text}, dir)
		if err != nil {
			return
		}
		if n := len(run.Tasks()); n < 1 || n > mostTasks {
			t.Fatalf("%d tasks", n)
		}
		total := 0
		for _, task := range run.Tasks()[:min(1000, len(run.Tasks()))] {
			n := run.Start.Plan.Budget(task)
			if total += n; n < 0 || total > run.Start.Plan.Evaluations {
				t.Fatalf("%v has %d evaluations of %+v", task, n, run.Start.Plan)
			}
		}
		if _, err := json.Marshal(run.Start); err != nil {
			t.Fatal(err)
		}
	})
}

// oneText is the disk with another text under one name.
type oneText struct {
	durable.Disk
	path string
	text []byte
}

func (o oneText) ReadFile(name string) ([]byte, error) {
	if name == o.path {
		return o.text, nil
	}
	return o.Disk.ReadFile(name)
}

// FuzzStateFile: what is taken for a state file is one, and the frame of its
// bytes is the file again.
func FuzzStateFile(f *testing.F) {
	whole := frameState([]byte("what the next epoch needs"))
	f.Add(whole)
	f.Add(whole[:len(whole)-1])
	f.Add(frameState(nil))
	f.Add([]byte(stateMark))
	f.Fuzz(func(t *testing.T, data []byte) {
		state, err := unframeState(data)
		if err == nil && !bytes.Equal(frameState(state), data) {
			t.Fatalf("read as a state of %d bytes", len(state))
		}
		sum, err := readSum(oneText{durable.Disk{}, "sum", data}, "sum")
		if err == nil {
			if again, err := sum.encode(); err != nil || !bytes.Equal(again, data) {
				t.Fatalf("read as %+v", sum)
			}
		}
	})
}

// littleShard is a file of a few rows and two row kinds, made up.
func littleShard(t testing.TB, rows int) []byte {
	t.Helper()
	layout, err := NewLayout([]objective.Column{
		{Name: "u_arm", Unit: "m", Text: "invented", Kind: objective.UnknownColumn},
		{Name: "period_s", Unit: "s", Text: "invented", Kind: objective.FigureColumn},
	})
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "shard")
	r, err := NewRecorder(durable.Disk{}, path, layout, About{Rig: []byte("rig: invented\n"), Plan: search.NewPlan(rows, 1), Version: "1"})
	if err != nil {
		t.Fatal(err)
	}
	for n := range rows {
		s := madeUp(n)
		row := search.Row{ID: int64(n), Stage: search.Stage(n % int(search.StageCount)), Parents: [2]int64{search.NoParent, int64(n / 2)}, Scorer: s}
		row.Verdict = s.Score(nil)
		if err := r.Record(&row); err != nil {
			t.Fatal(err)
		}
	}
	if err := r.Finish(); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// madeUp is a scorer whose figures are those of its number.
type madeUp int

func (m madeUp) Score([]float64) objective.Verdict {
	return objective.Verdict{Score: float64(m), Worst: float64(m), Exists: m%5 > 0, Meets: objective.Meets(m % 3)}
}

func (m madeUp) RowTo(values []float32, missing []bool) {
	values[0], values[1], missing[1] = float32(m)/3, float32(m%7), m%4 == 0
}

func (m madeUp) Reason() (string, bool)     { return "too short", m%5 == 0 }
func (m madeUp) WorstLimit() (string, bool) { return "level", m%2 == 0 }

// FuzzShard: whatever bytes lie where a file of rows should be, reading it
// fails or gives rows; it never panics and never takes more memory than there is.
func FuzzShard(f *testing.F) {
	f.Add(littleShard(f, 3))
	f.Add(littleShard(f, 40))
	f.Add(littleShard(f, 0))
	f.Add([]byte("PAR1PAR1"))
	f.Fuzz(func(t *testing.T, data []byte) { _ = readAll(t, data) })
}

// readAll reads all that a file of rows has.
func readAll(t *testing.T, data []byte) error {
	s, err := OpenShard(inMemory{data: data}, "shard")
	if err != nil {
		return err
	}
	defer s.Close()
	want := Want{IDs: true, Tasks: true, Stages: true, Parents: true, Meets: true, Exists: true, Reasons: true, Limits: true}
	for _, c := range s.Columns {
		want.Floats = append(want.Floats, c.Name)
		if _, err := s.Ranges(c.Name); err != nil {
			return err
		}
	}
	if _, _, err := s.Task(); err != nil {
		return err
	}
	rows := int64(0)
	err = s.Scan(want, func(b *Batch) error { rows += int64(b.Rows); return nil })
	if err == nil && rows != s.Rows() {
		t.Fatalf("%d of %d rows", rows, s.Rows())
	}
	return err
}
