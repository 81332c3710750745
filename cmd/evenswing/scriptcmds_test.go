package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

// exits CODE COMMAND ...: the command ends with that exit code, within ten
// seconds. Its output is in $WORK/out and $WORK/err.
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
	if spent := time.Since(started); spent > 10*time.Second {
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
