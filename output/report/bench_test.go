package report

import (
	"bytes"
	"html"
	"path/filepath"
	"strings"
	"testing"

	"evenswing/objective"
	"evenswing/output/workshop"
	"evenswing/space"
)

// benchOf is the workshop's sheet of a rig of the project's tests.
func benchOf(t *testing.T, name string) *workshop.Sheet {
	t.Helper()
	rig, err := space.Load(filepath.Join("..", "..", "testdata", "rigs", name))
	if err != nil {
		t.Fatal(err)
	}
	e := objective.New(rig)
	w := e.NewWorkspace()
	w.ScoreValues(rig.StartValues())
	w.SwingUp()
	return workshop.New(e, w, "w01-")
}

// benched is the invented page with the bench of the demo rig.
func benched(t *testing.T) *Page {
	page := invented(1, false)
	page.Sheets[0].Workshop = benchOf(t, "landing.yaml")
	return page
}

// drawn is a picture as it stands in a page, behind the width that it gets there.
func drawn(svg []byte) string {
	return html.UnescapeString(strings.TrimPrefix(string(svg), "<svg "))
}

// TestBench: whatever the workshop's sheet says is on the page.
func TestBench(t *testing.T) {
	for _, name := range []string{"landing.yaml", "four.yaml"} {
		page := invented(1, false)
		s := benchOf(t, name)
		page.Sheets[0].Workshop = s
		made, err := HTML(page)
		if err != nil {
			t.Fatal(err)
		}
		text := html.UnescapeString(string(made))
		var want []string
		for _, f := range s.Files() {
			want = append(want, `href="01-`+f.Name+`"`)
		}
		for i := range s.Hanging {
			want = append(want, s.Hanging[i].Do)
			if s.Hanging[i].Adds.SI > 0 {
				want = append(want, drawn(s.Hanging[i].Picture))
			}
		}
		for i := range s.Cuts {
			want = append(want, s.Cuts[i].Length.Text)
		}
		for i := range s.Metal {
			want = append(want, s.Metal[i].Mass.Text)
		}
		for i := range s.Safety.Cables {
			want = append(want, s.Safety.Cables[i].Words)
		}
		for i := range s.Starting.Pulls {
			want = append(want, s.Starting.Pulls[i].Words)
		}
		for i := range s.Buying {
			want = append(want, s.Buying[i].Words)
		}
		for i := range s.Cavities {
			want = append(want, drawn(s.Cavities[i].Picture))
		}
		want = append(want, drawn(s.Drawings.Front), drawn(s.Drawings.Side), s.Pivots[1].Wall.X.Text, s.Starting.Order)
		for _, words := range want {
			if !strings.Contains(text, words) {
				t.Errorf("%s: the page lacks %.80q", name, words)
			}
		}
		if bytes.Contains(made, []byte("NaN")) || bytes.Contains(made, []byte("ZgotmplZ")) {
			t.Errorf("%s: NaN, or a text that the page refuses", name)
		}
	}
}
