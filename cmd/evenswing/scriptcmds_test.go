package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

// exits CODE COMMAND ...: the command ends with that exit code, within two
// minutes on however busy a machine. Its output is in $WORK/out and $WORK/err.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND [ARG ...]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	var out, problem bytes.Buffer
	path, err := exec.LookPath(args[1])
	ts.Check(err)
	cmd := exec.Command(path, args[2:]...)
	cmd.Dir, cmd.Stdout, cmd.Stderr = ts.MkAbs("."), &out, &problem
	cmd.Env = append(os.Environ(), "HOME="+ts.Getenv("WORK"), "PATH="+ts.Getenv("PATH"), "RIGS="+ts.Getenv("RIGS"))
	started := time.Now()
	err = cmd.Run()
	ts.Check(os.WriteFile(ts.MkAbs("out"), out.Bytes(), 0o666))
	ts.Check(os.WriteFile(ts.MkAbs("err"), problem.Bytes(), 0o666))
	got := 0
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		got = exit.ExitCode()
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d\n%s%s", got, want, out.Bytes(), problem.Bytes())
	}
	if spent := time.Since(started); spent > 2*time.Minute {
		ts.Fatalf("it took %v", spent)
	}
}

// sameruns A B: the candidates of two runs are the same files, byte for byte.
func sameRuns(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 2 {
		ts.Fatalf("usage: [!] sameruns RUN RUN")
	}
	a, err := filepath.Glob(filepath.Join(ts.MkAbs(args[0]), "candidates", "*"))
	ts.Check(err)
	b, err := filepath.Glob(filepath.Join(ts.MkAbs(args[1]), "candidates", "*"))
	ts.Check(err)
	if len(a) == 0 || len(a) != len(b) {
		ts.Fatalf("%d files and %d files", len(a), len(b))
	}
	same := true
	for i := range a {
		x, err := os.ReadFile(a[i])
		ts.Check(err)
		y, err := os.ReadFile(b[i])
		ts.Check(err)
		same = same && filepath.Base(a[i]) == filepath.Base(b[i]) && bytes.Equal(x, y)
	}
	if same == neg {
		ts.Fatalf("same: %v", same)
	}
}

// finite FILE: it is JSON in which every number is finite.
func finite(ts *testscript.TestScript, neg bool, args []string) {
	var v any
	data := []byte(ts.ReadFile(args[0]))
	ts.Check(json.Unmarshal(data, &v))
	var walk func(any)
	walk = func(v any) {
		switch v := v.(type) {
		case float64:
			if math.IsNaN(v) || math.IsInf(v, 0) {
				ts.Fatalf("a number is not finite")
			}
		case []any:
			for _, x := range v {
				walk(x)
			}
		case map[string]any:
			for _, x := range v {
				walk(x)
			}
		}
	}
	walk(v)
}

// sparse FILE SIZE: makes a file of that size that takes no room.
func sparse(ts *testscript.TestScript, neg bool, args []string) {
	size, err := strconv.ParseInt(args[1], 10, 64)
	ts.Check(err)
	f, err := os.Create(ts.MkAbs(args[0]))
	ts.Check(err)
	ts.Check(f.Truncate(size))
	ts.Check(f.Close())
}

// meet N FILE: the CSV file has at least N designs that meet every limit.
func meet(ts *testscript.TestScript, neg bool, args []string) {
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	if got := bytes.Count([]byte(ts.ReadFile(args[1])), []byte(",yes,")); got < want {
		ts.Fatalf("%d designs meet every limit, want %d", got, want)
	}
}

// agrees CSV JSON: the first design of a shortlist and what evaluate says of
// its filled-in rig file are the same figures, as float32 holds them.
func agrees(ts *testscript.TestScript, neg bool, args []string) {
	rows, err := csv.NewReader(strings.NewReader(ts.ReadFile(args[0]))).ReadAll()
	ts.Check(err)
	cell := map[string]string{}
	for k, name := range rows[0] {
		cell[name] = rows[1][k]
	}
	var a struct {
		Score, Worst float64
		Pendulums    []struct {
			Name   string
			Tilt   float64 `json:"tilt_rad"`
			Period float64 `json:"period_s"`
			Load   float64 `json:"pivot_load_n"`
		}
		Motion struct{ Drift, Exchange float64 }
	}
	ts.Check(json.Unmarshal([]byte(ts.ReadFile(args[1])), &a))
	want := map[string]float64{"score": a.Score, "worst": a.Worst, "drift": a.Motion.Drift, "exchange": a.Motion.Exchange}
	for _, p := range a.Pendulums {
		want["tilt_"+p.Name+"_rad"], want["period_"+p.Name+"_s"], want["pivot_load_"+p.Name+"_n"] = p.Tilt, p.Period, p.Load
	}
	for name, x := range want {
		got, err := strconv.ParseFloat(cell[name], 32)
		if err != nil || float32(got) != float32(x) {
			ts.Fatalf("%s: %q in the table, %g from evaluate", name, cell[name], x)
		}
	}
}
