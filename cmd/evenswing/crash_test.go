package main

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/output/durable/durabletest"
	"evenswing/output/shortlist"
	"evenswing/search"
	"evenswing/space"
)

// crashEnv is how many kills TestCrash makes; without it, it is left out.
const crashEnv = "EVENSWING_CRASH"

// How the run that is killed is made: tasks of a few hundredths of a second, as
// many as the kills need, and then the finalists. With the averaged motion an
// evaluation takes longer, and a quarter of the kills go to it.
const (
	crashEvaluations    = 5000
	averagedEvaluations = 300
	crashIslands        = 4
	longestLife         = 600 * time.Millisecond
)

func kills(t *testing.T) int {
	t.Helper()
	n, err := strconv.Atoi(os.Getenv(crashEnv))
	if err != nil || n < 1 {
		t.Skip("set " + crashEnv + " to a number of kills")
	}
	return n
}

// TestCrash kills a search the hard way, again and again, at moments that
// chance picks. In the end every file is as in a run that nobody disturbed.
func TestCrash(t *testing.T) {
	n := kills(t)
	program := buildProgram(t)
	t.Run("screen", func(t *testing.T) { crash(t, program, benchRig, n, crashEvaluations) })
	t.Run("averaged", func(t *testing.T) {
		crash(t, program, "../../testdata/rigs/four-drift.yaml", (n+3)/4, averagedEvaluations)
	})
}

func crash(t *testing.T, program, rig string, n, evaluations int) {
	dir := t.TempDir()
	killed, whole := filepath.Join(dir, "killed"), filepath.Join(dir, "whole")
	rig, err := filepath.Abs(rig)
	if err != nil {
		t.Fatal(err)
	}
	plan := search.Plan{Seed: 4, Islands: crashIslands, Epochs: 2 * n, Motions: 80}
	plan.Evaluations = evaluations * plan.Islands * plan.Epochs
	for _, run := range []string{killed, whole} {
		read, err := space.Load(rig)
		if err == nil {
			err = sketchRun(run, read, plan)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	begun := time.Now()
	mustSucceed(t, program, "search", rig, "--out", whole)
	t.Logf("undisturbed: %v", time.Since(begun).Round(time.Millisecond))

	dice := rand.New(rand.NewPCG(uint64(n), 1))
	landed, begun := 0, time.Now()
	for range n {
		if killAfter(t, program, time.Duration(dice.Int64N(int64(longestLife))), "search", rig, "--out", killed) {
			landed++
		}
	}
	mustSucceed(t, program, "search", rig, "--out", killed)
	t.Logf("%d kills, %d of them before the end, %v", n, landed, time.Since(begun).Round(time.Millisecond))
	if landed < n/2 {
		t.Errorf("only %d of %d kills hit a search at work", landed, n)
	}
	sameFolders(t, killed, whole)
	mustSucceed(t, program, "verify", killed)
}

func buildProgram(t *testing.T) string {
	t.Helper()
	program := filepath.Join(t.TempDir(), "evenswing")
	if out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return program
}

func mustSucceed(t *testing.T, program string, args ...string) {
	t.Helper()
	if out, err := exec.Command(program, args...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %v\n%s", args, err, out)
	}
}

// killAfter starts the program and kills it after a while: SIGKILL, which no
// process can see coming. It answers whether the program was still at work.
func killAfter(t *testing.T, program string, while time.Duration, args ...string) bool {
	t.Helper()
	var out bytes.Buffer
	cmd := exec.Command(program, args...)
	cmd.Stdout, cmd.Stderr = &out, &out
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	time.Sleep(while)
	_ = cmd.Process.Kill()
	err := cmd.Wait()
	var exit *exec.ExitError
	switch {
	case err == nil:
		return false
	case errors.As(err, &exit) && !exit.Exited():
		return true
	}
	t.Fatalf("killed after %v, it says %v\n%s", while, err, out.Bytes())
	return false
}

// sameFolders compares all files of two runs but the lock; older states may be
// left over.
func sameFolders(t *testing.T, dir, other string) {
	t.Helper()
	have, want := filesOf(t, dir), filesOf(t, other)
	for name, data := range want {
		if !bytes.Equal(have[name], data) {
			t.Errorf("%s is not as in the undisturbed run", name)
		}
	}
	for name := range have {
		if _, ok := want[name]; !ok && !strings.HasSuffix(name, ".state") {
			t.Errorf("%s is left over", name)
		}
	}
	if len(want) < 10 {
		t.Errorf("only %d files", len(want))
	}
}

func filesOf(t *testing.T, dir string) map[string][]byte {
	t.Helper()
	files := map[string][]byte{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == "lock" {
			return err
		}
		name, _ := filepath.Rel(dir, path)
		files[name], err = os.ReadFile(path)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// stepRig is a rig whose search and shortlist take a few hundredths of a second: it
// is made anew for every step that fails. Invented.
const stepRig = `rig: Two weights
unknowns: {length: 300 to 600 mm, mass: 2 to 8 kg}
pendulums:
  upper:
    hangs_from: wall
    pivot: [0 mm, 2000 mm]
    swing: 3 deg
    halves_in: 200 s
    lumps: {weight: {at: [0 mm, -300 mm], mass: mass, inertia: 0.02 m2 * mass}}
  lower:
    hangs_from: upper
    pivot: [0 mm, -length]
    swing: 4 deg
    halves_in: 200 s
    lumps: {bob: {at: [0 mm, -500 mm], mass: 3 kg, inertia: 0.03 kg m2}}
release: {upper: 3 deg, lower: 4 deg}
targets:
  periods: {upper: 1.5 s within 5 %}
`

// wholeSearch is a small search with its shortlist, over a file system.
func wholeSearch(t *testing.T, on durable.FS, dir string) error {
	t.Helper()
	rig, err := space.Read("two.yaml", []byte(stepRig))
	if err != nil {
		t.Fatal(err)
	}
	e := objective.New(rig)
	plan := search.Plan{Seed: 1, Evaluations: 600, Islands: 1, Epochs: 2, Motions: 1}
	start := dataset.Start{Plan: plan, Program: dataset.ThisProgram(release), Started: time.Unix(0, 0)}
	run, err := dataset.CreateRun(on, dir, start, e.Rig().Source)
	if err != nil {
		return err
	}
	if err := run.Continue(start.Program, e.Columns()); err != nil {
		return err
	}
	if err := search.Run(context.Background(), search.Of(e), plan, run, 1, nil); err != nil {
		return err
	}
	_, err = shortlist.Write(context.Background(), on, run, e, 2, shortlistDir(dir))
	return err
}

// TestCrashAtEveryStep lets every step of a search and of its shortlist fail in
// turn, alone and as the last one.
func TestCrashAtEveryStep(t *testing.T) {
	kills(t)
	base := t.TempDir()
	undisturbed := filepath.Join(base, "undisturbed")
	if err := wholeSearch(t, durable.Disk{}, undisturbed); err != nil {
		t.Fatal(err)
	}
	for _, dies := range []bool{false, true} {
		k := 0
		for ; ; k++ {
			dir := filepath.Join(base, "RUN")
			faulty := &durabletest.Faulty{FS: durable.Disk{}, At: k, Dies: dies}
			err := wholeSearch(t, faulty, dir)
			faulty.Bury()
			if !faulty.Failed() {
				if err != nil {
					t.Fatal(err)
				}
				break
			}
			if err != nil && !errors.Is(err, durabletest.ErrFault) {
				t.Fatalf("%q failed, reported %v", faulty.Steps[k], err)
			}
			if err := wholeSearch(t, durable.Disk{}, dir); err != nil {
				t.Fatalf("again after %q: %v", faulty.Steps[k], err)
			}
			sameFolders(t, dir, undisturbed)
			if t.Failed() {
				t.Fatalf("after %q", faulty.Steps[k])
			}
			if err := os.RemoveAll(dir); err != nil {
				t.Fatal(err)
			}
		}
		t.Logf("%d steps, dies %v", k, dies)
		if k < 100 {
			t.Errorf("only %d steps", k)
		}
	}
}
