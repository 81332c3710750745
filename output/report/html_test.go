package report

import (
	"flag"
	"os"
	"path/filepath"
	"testing"
)

var update = flag.Bool("update", false, "write the golden pages anew")

func TestGoldenPages(t *testing.T) {
	for name, page := range map[string]*Page{"shortlist": invented(3, false), "failing": failing(), "hostile": invented(1, true), "motions": moving()} {
		t.Run(name, func(t *testing.T) {
			got, err := HTML(page)
			if err != nil {
				t.Fatal(err)
			}
			checkGolden(t, filepath.Join("testdata", name+".html"), got)
		})
	}
}

func checkGolden(t *testing.T, path string, got []byte) {
	t.Helper()
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(want) != string(got) {
		t.Errorf("%s differs from what is made now; look at it, then run with -update", path)
	}
}
