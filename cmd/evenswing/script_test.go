package main

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"evenswing": main})
}

// TestScripts drives the real binary through testdata/scripts.
func TestScripts(t *testing.T) {
	rigs, err := filepath.Abs("../../testdata/rigs")
	if err != nil {
		t.Fatal(err)
	}
	bad, err := filepath.Abs("../../testdata/bad")
	if err != nil {
		t.Fatal(err)
	}
	pictures, err := filepath.Abs("../../pictures")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir: "../../testdata/scripts",
		Setup: func(e *testscript.Env) error {
			e.Setenv("RIGS", rigs)
			e.Setenv("BAD", bad)
			e.Setenv("PICTURES", pictures)
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits":    exits,
			"sameruns": sameRuns,
			"finite":   finite,
			"sparse":   sparse,
			"meet":     meet,
			"agrees":   agrees,
			"turn":     turn,
			"within":   within,
			"sketch":   sketch,
		},
		Condition: func(condition string) (bool, error) {
			if condition == "root" {
				return os.Geteuid() == 0, nil
			}
			return false, fmt.Errorf("unknown condition %q", condition)
		},
		UpdateScripts: os.Getenv("UPDATE_SCRIPTS") != "",
	})
}
