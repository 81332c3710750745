package shortlist

import (
	"testing"

	"evenswing/output/workshop"
)

// TestFilesAreKnown: whatever is written of one design can be told from other
// files, so that a shorter list takes it away again.
func TestFilesAreKnown(t *testing.T) {
	for _, f := range workshop.FileNames {
		if name := "07-" + f; !filledName.MatchString(name) || filledName.MatchString(f) || filledName.MatchString("x"+name) {
			t.Errorf("%s is not told from other files", name)
		}
	}
	for _, name := range []string{"07.yaml", "107-holds.csv"} {
		if !filledName.MatchString(name) {
			t.Errorf("%s is not known", name)
		}
	}
	for _, name := range []string{"index.html", "shortlist.csv", "07-notes.csv", "7.yaml"} {
		if filledName.MatchString(name) {
			t.Errorf("%s is not ours to remove", name)
		}
	}
}
