package space

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

var update = flag.Bool("update", false, "write the goldens anew")

// slowest is the longest that a bad file may take to be refused; the design
// asks for a second.
const slowest = time.Second

// TestBad reads every bad file and compares its error with the golden beside it.
func TestBad(t *testing.T) {
	files, err := filepath.Glob("../testdata/bad/*.yaml")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d bad files, %v", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".yaml"), func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if took := cpuTime(t, func() { _, err = Read(filepath.Base(file), data) }); took > slowest {
				t.Errorf("took %v", took)
			}
			if err == nil {
				t.Fatal("it was read without an error")
			}
			golden(t, strings.TrimSuffix(file, ".yaml")+".golden", err.Error()+"\n")
		})
	}
}

// golden compares text with a file, or writes the file under -update.
func golden(t *testing.T, file, text string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if text != string(want) {
		t.Errorf("got\n%swant\n%s", text, want)
	}
}
