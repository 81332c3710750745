package main

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"strings"
	"testing"
)

// layers is the direction of imports: a package may import those of earlier
// layers and of its own, never of a later one.
var layers = []string{"space", "objective", "search", "output", "cmd"}

// owners says which package alone may import a library, so that any of them
// can be changed in one place.
var owners = map[string]string{
	"github.com/MaxHalford/eaopt":      "evenswing/search",
	"gonum.org/v1/gonum/optimize":      "evenswing/search",
	"github.com/parquet-go/parquet-go": "evenswing/output/dataset",
	"go.yaml.in/yaml/v3":               "evenswing/space",
	"github.com/alecthomas/kong":       "evenswing/cmd/evenswing",
}

// forbidden says what a layer has to do without.
var forbidden = map[string]map[string]string{
	"objective": {
		"os":      "read files in space or output and hand over plain values",
		"time":    "times of a rig are float64 seconds; clocks belong to cmd and output",
		"sync":    "one Workspace per goroutine; search runs them side by side",
		"io":      "return values; output writes them",
		"net":     "this program needs no network",
		"context": "scoring one candidate is too short to interrupt; search checks between candidates",
	},
	"search": {"os": "files are kept through the Store that output implements"},
}

type listed struct {
	ImportPath string
	Imports    []string
}

func listPackages(t *testing.T) []listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-json=ImportPath,Imports", "evenswing/...")
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var list []listed
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return list
		} else if err != nil {
			t.Fatal(err)
		}
		list = append(list, p)
	}
}

func layerOf(path string) int {
	rest, ours := strings.CutPrefix(path, "evenswing/")
	if !ours {
		return -1
	}
	top, _, _ := strings.Cut(rest, "/")
	for i, l := range layers {
		if l == top {
			return i
		}
	}
	return len(layers)
}

// TestImportsRunOneWay keeps space <- objective <- search <- output <- cmd.
func TestImportsRunOneWay(t *testing.T) {
	packages := listPackages(t)
	if len(packages) < 10 {
		t.Fatalf("only %d packages listed", len(packages))
	}
	for _, p := range packages {
		from := layerOf(p.ImportPath)
		if from == len(layers) {
			t.Errorf("%s stands outside the layers %v: move it into one", p.ImportPath, layers)
			continue
		}
		for _, i := range p.Imports {
			if to := layerOf(i); to > from {
				t.Errorf("%s imports %s, which is downstream: let %s define an interface and %s implement it",
					p.ImportPath, i, layers[from], layers[to])
			}
			if cure, bad := forbidden[layers[from]][i]; bad {
				t.Errorf("%s imports %s: %s", p.ImportPath, i, cure)
			}
			for library, owner := range owners {
				if (i == library || strings.HasPrefix(i, library+"/")) && !strings.HasPrefix(p.ImportPath, owner) {
					t.Errorf("%s imports %s: only %s may; ask it for what you need", p.ImportPath, i, owner)
				}
			}
		}
	}
}
