package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
	"evenswing/space"
)

// turn FILE AT: turns one bit of the byte at that place.
func turn(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: turn FILE AT")
	}
	at, err := strconv.Atoi(args[1])
	ts.Check(err)
	path := ts.MkAbs(args[0])
	data, err := os.ReadFile(path)
	ts.Check(err)
	data[at] ^= 1
	ts.Check(os.WriteFile(path, data, 0o666))
}

// sketch RIG RUN EPOCHS ISLANDS EVALUATIONS: begins a run with a plan that no
// option asks for, so that small runs have many tasks.
func sketch(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 5 {
		ts.Fatalf("usage: sketch RIG RUN EPOCHS ISLANDS EVALUATIONS")
	}
	var numbers [3]int
	for i := range numbers {
		n, err := strconv.Atoi(args[2+i])
		ts.Check(err)
		numbers[i] = n
	}
	rig, err := space.Load(ts.MkAbs(args[0]))
	ts.Check(err)
	plan := search.Plan{Seed: 1, Epochs: numbers[0], Islands: numbers[1], Evaluations: numbers[2], Motions: 80}
	ts.Check(sketchRun(ts.MkAbs(args[1]), rig, plan))
}

// sketchRun makes the folder of a run and does nothing of it.
func sketchRun(dir string, rig *space.Rig, plan search.Plan) error {
	start := dataset.Start{Plan: plan, Program: dataset.ThisProgram(release), Started: time.Unix(0, 0)}
	_, err := dataset.CreateRun(durable.Disk{}, dir, start, rig.Source)
	return err
}

// within DIR BYTES: all files of a folder together are no larger.
func within(ts *testscript.TestScript, neg bool, args []string) {
	most, err := strconv.ParseInt(args[1], 10, 64)
	ts.Check(err)
	var sum int64
	ts.Check(filepath.WalkDir(ts.MkAbs(args[0]), func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err == nil {
			sum += info.Size()
		}
		return err
	}))
	if sum > most == !neg {
		ts.Fatalf("%d bytes", sum)
	}
}

// testEvaluator is that of the rig of all figures.
func testEvaluator(t *testing.T) *objective.Evaluator {
	t.Helper()
	rig, err := space.Load(benchRig)
	if err != nil {
		t.Fatal(err)
	}
	return objective.New(rig)
}
