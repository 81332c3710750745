package report

import (
	"flag"
	"os"
	"path/filepath"
	"regexp"
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
			checkGolden(t, filepath.Join("testdata", name+".html"), words(got))
		})
	}
}

// What a golden page leaves out: pictures, which package drawing keeps goldens
// of, style, script and their check sums, and the angles of a motion.
var (
	pictures = regexp.MustCompile(`(?s)<svg.*?</svg>`)
	built    = regexp.MustCompile(`(?s)<(style|script)>.*?</(style|script)>`)
	checked  = regexp.MustCompile(`sha256-[^']*?(&#39;)`)
	played   = regexp.MustCompile(`data-angles="[^"]*"`)
)

// words is a page without them.
func words(html []byte) []byte {
	html = pictures.ReplaceAll(html, []byte("[picture]"))
	html = built.ReplaceAll(html, []byte("[$1]"))
	html = checked.ReplaceAll(html, []byte("[sum]$1"))
	return played.ReplaceAll(html, []byte("[angles]"))
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
