package objective

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"evenswing/space"
)

func loadRig(t testing.TB, name string) *space.Rig {
	t.Helper()
	rig, err := space.Load("../testdata/rigs/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return rig
}

// points are seeded points of the unit cube.
func points(rig *space.Rig, n int) [][]float64 {
	rng := rand.New(rand.NewPCG(11, 12))
	list := make([][]float64, n)
	for i := range list {
		list[i] = make([]float64, rig.Dim())
		for j := range list[i] {
			list[i][j] = rng.Float64()
		}
	}
	return list
}

func BenchmarkScreen(b *testing.B) {
	rig := loadRig(b, "four.yaml")
	w := New(rig).NewWorkspace()
	list := points(rig, 1000)
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		w.Score(list[i%len(list)])
		i++
	}
}

func BenchmarkScreenAndRow(b *testing.B) {
	rig := loadRig(b, "four.yaml")
	e := New(rig)
	w := e.NewWorkspace()
	list := points(rig, 1000)
	values, missing := make([]float32, len(e.Columns())), make([]bool, len(e.Columns()))
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		w.Score(list[i%len(list)])
		w.RowTo(values, missing)
		i++
	}
}

func TestNoAllocation(t *testing.T) {
	rig := loadRig(t, "four.yaml")
	e := New(rig)
	w := e.NewWorkspace()
	list := points(rig, 100)
	values, missing := make([]float32, len(e.Columns())), make([]bool, len(e.Columns()))
	i := 0
	if n := testing.AllocsPerRun(1000, func() {
		w.Score(list[i%len(list)])
		w.RowTo(values, missing)
		i++
	}); n != 0 {
		t.Errorf("%g allocations a candidate", n)
	}
}

// TestRowComesBack: the unknowns of a row, put back, give the row, bit for bit.
func TestRowComesBack(t *testing.T) {
	rig := loadRig(t, "four.yaml")
	e := New(rig)
	w, again := e.NewWorkspace(), e.NewWorkspace()
	n := len(e.Columns())
	row, back := make([]float32, n), make([]float32, n)
	missing, gone := make([]bool, n), make([]bool, n)
	for _, p := range points(rig, 500) {
		w.Score(p)
		w.RowTo(row, missing)
		values := make([]float64, len(rig.Unknowns))
		for i := range values {
			values[i] = float64(row[i])
		}
		again.ScoreValues(values)
		again.RowTo(back, gone)
		if !slices.Equal(row, back) || !slices.Equal(missing, gone) {
			t.Fatalf("row %v came back as %v", row, back)
		}
	}
}

func TestAccountIsFinite(t *testing.T) {
	rig := loadRig(t, "four.yaml")
	w := New(rig).NewWorkspace()
	for _, p := range points(rig, 200) {
		v := w.Score(p)
		if math.IsNaN(v.Score) || math.IsInf(v.Score, 0) {
			t.Fatalf("score %g", v.Score)
		}
		if _, err := json.Marshal(w.Account()); err != nil {
			t.Fatal(err)
		}
	}
}
