package main

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"
	"unsafe"

	"evenswing/output/dataset"
	"evenswing/output/durable"
)

// asksTime tells whether an expression reads a clock, sets a timer by one that was
// read before, or looks at a file's date.
func asksTime(s *ast.SelectorExpr) bool {
	if s.Sel.Name == "ModTime" {
		return true
	}
	of, ok := s.X.(*ast.Ident)
	if !ok {
		return false
	}
	switch of.Name + "." + s.Sel.Name {
	case "time.Now", "time.Since", "time.Until", "context.WithDeadline":
		return true
	}
	return false
}

// TestOneClock: no code asks for the time but where the program begins, and none
// looks at the dates of files; so the jumps of TestClockJumps are all that the wall
// clock can do.
func TestOneClock(t *testing.T) {
	var asks []string
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if s, ok := n.(*ast.SelectorExpr); ok && asksTime(s) {
				asks = append(asks, filepath.ToSlash(path)+": "+s.Sel.Name)
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(asks) != 1 || asks[0] != "../../cmd/evenswing/run.go: Now" {
		t.Errorf("%q: time is asked for by console.now alone, in cmd/evenswing/run.go, and files' dates by nobody", asks)
	}
}

// reading is a time.Time as the library lays it out: where the top bit of wall is
// set, its 33 bits below it are seconds of the wall clock, and ext is the steady
// clock.
type reading struct {
	wall uint64
	ext  int64
	loc  *time.Location
}

// set is a reading of a clock that somebody set forward by so many seconds, or
// back, and left running.
func set(t time.Time, seconds int64) time.Time {
	const steady, secondsAt = 1 << 63, 30
	r := (*reading)(unsafe.Pointer(&t))
	if r.wall&steady == 0 {
		panic("no reading of the steady clock")
	}
	r.wall += uint64(seconds << secondsAt)
	return t
}

// TestSetClock: what set gives is another hour on the wall and the same on the
// steady clock.
func TestSetClock(t *testing.T) {
	for _, hours := range []int64{1, -1, 20} {
		now := time.Now()
		moved := set(now, hours*3600)
		if wall := moved.Round(0).Sub(now.Round(0)); wall != time.Duration(hours)*time.Hour {
			t.Errorf("on the wall it moved by %v, not %d hours", wall, hours)
		}
		if steady := moved.Sub(now); steady != 0 {
			t.Errorf("the steady clock moved by %v", steady)
		}
	}
}

// TestClockJumps searches for a bounded time while the clock on the wall jumps by
// hours, forward and back, at every look: the search measures, plans and ends as
// ever, and status tells a rate and no nonsense.
func TestClockJumps(t *testing.T) {
	t.Parallel()
	var looks atomic.Int64
	jumpy := func() time.Time {
		hours := looks.Add(1) * 5 % 17
		return set(time.Now(), (hours-8)*3600)
	}
	run := filepath.Join(t.TempDir(), "RUN")
	var out, problems bytes.Buffer
	c := &searchCommand{Rig: benchRig, Out: run, For: leastTime, Top: 1, Cores: 1, Motions: 80, Disk: 5e6}
	began := time.Now()
	if err := c.Run(&console{t.Context(), &out, &problems, jumpy}); err != nil {
		t.Fatalf("%v\n%s", err, problems.Bytes())
	}
	if took := time.Since(began); took < leastTime/20 || took > 10*time.Minute { // on however busy a machine
		t.Errorf("%v of %v", took, leastTime)
	}
	if n := looks.Load(); n < 9 {
		t.Errorf("only %d looks at the clock", n)
	}
	made, err := dataset.OpenRun(durable.Disk{}, run)
	if err != nil {
		t.Fatal(err)
	}
	if whole, err := made.Complete(); err != nil || !whole {
		t.Errorf("the plan of %d evaluations is not through: %v\n%s", made.Start.Plan.Evaluations, err, problems.Bytes())
	}
	r, err := (&statusCommand{RunDir: run}).report()
	if err != nil || r.State != "finished" || r.Rate == nil || !(*r.Rate > 1 && *r.Rate < 1e7) || r.TimeLeft != nil {
		t.Errorf("%+v, %v", r, err)
	}
	if strings.Contains(problems.String(), "h0m") {
		t.Errorf("it tells of hours:\n%s", problems.Bytes())
	}
}
