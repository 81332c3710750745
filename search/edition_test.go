package search

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"flag"
	"fmt"
	"hash"
	"math"
	"os"
	"runtime"
	"strings"
	"testing"

	"golang.org/x/sys/cpu"

	"evenswing/objective"
)

var update = flag.Bool("update", false, "write the sums of the arithmetic anew")

// editionFile holds the edition and, of every test rig, sums over what it gives.
const editionFile = "testdata/edition.golden"

// editionRigs have between them every kind of criterion and of mechanics.
var editionRigs = []string{"built", "fork", "four", "four-drift", "landing"}

// How much of a rig is summed up: even points, those of them that get the full
// motion, too, and a search.
const (
	editionPoints      = 60
	editionSwung       = 2
	editionEvaluations = 1500
)

// TestEdition compares sums over the bits of what the test rigs give with those
// of the edition that is written down.
func TestEdition(t *testing.T) {
	if runtime.GOARCH != "amd64" || !cpu.X86.HasFMA || fuses(1+0x1p-30, 1-0x1p-30, -1) {
		t.Skip("the sums are those of amd64 with fused multiply-add in the library's functions and none in the program")
	}
	got := fmt.Sprintf("edition %d\n", Edition)
	for _, name := range editionRigs {
		got += editionOf(t, name)
	}
	want, _ := os.ReadFile(editionFile) // not there: it differs
	if got == string(want) {
		return
	}
	head, _, _ := strings.Cut(got, "\n")
	if strings.HasPrefix(string(want), head+"\n") {
		t.Fatalf("the arithmetic changed (%s) and its edition did not: raise search.Edition to %d, so that no run mixes old rows and new ones; then `make golden`", changed(got, string(want)), Edition+1)
	}
	if !*update {
		t.Fatalf("%s is of another edition than search.Edition, %d: `make golden` writes it anew (where two changes met, raise the edition above both first)", editionFile, Edition)
	}
	if err := os.WriteFile(editionFile, []byte(got), 0o666); err != nil {
		t.Fatal(err)
	}
}

// changed shows the rigs whose sums differ.
func changed(got, want string) string {
	var lines []string
	for line := range strings.Lines(got) {
		if !strings.Contains(want, line) {
			lines = append(lines, strings.TrimSpace(line))
		}
	}
	return strings.Join(lines, "; ")
}

// fuses tells whether the program is built with multiplying and adding as one
// step: x y is 1 - 2⁻⁶⁰, which only that step keeps apart from 1.
//
//go:noinline
func fuses(x, y, z float64) bool { return x*y+z != 0 }

// editionOf sums up what a rig gives, a line each.
func editionOf(t *testing.T, name string) string {
	t.Helper()
	p := loadRig(t, name)
	e := p.evaluator
	points := make([][]float64, editionPoints)
	for i := range points {
		points[i] = make([]float64, len(p.Genes()))
	}
	latinTo(points, newDice(1, Task{}, 1))
	screen, averaged, motion := newFigureSum(e), newFigureSum(e), newFigureSum(e)
	s := Of(e).NewScorer().(Swinging)
	w := e.NewWorkspace()
	swung := 0
	for _, point := range points {
		snap(point, p.Genes())
		v := s.Score(point)
		screen.candidate(s, v)
		if e.Averages() {
			averaged.candidate(s, s.ScoreAveraged(point, math.Inf(1)))
		}
		if v.Exists && swung < editionSwung {
			swung++
			w.Score(point)
			w.SwingUp()
			motion.finalist(w)
		}
	}
	if swung < editionSwung {
		t.Errorf("%s: too few of the points exist for their motion", name)
	}
	rows := newFigureSum(e)
	plan := Plan{Seed: 1, Evaluations: editionEvaluations, Islands: 1, Epochs: 1}
	if err := Run(context.Background(), Of(e), plan, &summing{memory: newMemory(), sum: rows}, 1, nil); err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("%s: screen %s, averaged %s, motion %s, search %s\n", name, screen, averaged, motion, rows)
}

// figureSum sums up figures, bit for bit, after the columns' names.
type figureSum struct {
	hash.Hash
	evaluator *objective.Evaluator
}

func newFigureSum(e *objective.Evaluator) *figureSum {
	b := &figureSum{sha256.New(), e}
	for _, c := range e.FinalistColumns() {
		fmt.Fprintln(b, c.Name, c.Unit)
	}
	return b
}

func (b *figureSum) String() string { return fmt.Sprintf("%x", b.Sum(nil)[:8]) }

func (b *figureSum) add(figures any) {
	if err := binary.Write(b, binary.LittleEndian, figures); err != nil {
		panic(err)
	}
}

// row adds what a scorer says of the candidate last scored.
func (b *figureSum) row(s Scorer, v objective.Verdict) {
	values, missing := make([]float32, len(b.evaluator.Columns())), make([]bool, len(b.evaluator.Columns()))
	s.RowTo(values, missing)
	b.add(values)
	b.add(missing)
	b.add([]float64{v.Score, v.Worst})
}

// candidate adds its row and what the descents of a search follow.
func (b *figureSum) candidate(s Swinging, v objective.Verdict) {
	b.row(s, v)
	residuals, slopes := make([]float64, s.Residuals()), make([]float64, s.Residuals()*len(b.evaluator.Rig().Genes()))
	swings := make([]float64, s.Swings())
	b.add([]bool{s.ResidualsTo(residuals), s.SlopesTo(slopes), s.SwingsTo(swings)})
	b.add(residuals)
	b.add(slopes)
	b.add(swings)
}

// finalist adds the row of a candidate whose motion was followed.
func (b *figureSum) finalist(w *objective.Workspace) {
	values, missing := make([]float32, len(b.evaluator.FinalistColumns())), make([]bool, len(b.evaluator.FinalistColumns()))
	w.FinalistRowTo(values, missing)
	b.add(values)
	b.add(missing)
	b.add(w.Verdict.Score)
}

// summing sums up the rows of a search.
type summing struct {
	*memory
	sum *figureSum
}

// Begin hands itself out: there is one task.
func (s *summing) Begin(Task) (Recorder, error) { return s, nil }

// Record adds a row.
func (s *summing) Record(row *Row) error {
	s.sum.add([]int64{row.ID, int64(row.Stage), row.Parents[0], row.Parents[1]})
	s.sum.row(row.Scorer, row.Verdict)
	return nil
}

// Finish and Discard have nothing to do.
func (s *summing) Finish() error { return nil }
func (s *summing) Discard()      {}
