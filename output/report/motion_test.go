package report

import (
	"encoding/xml"
	"math"
	"regexp"
	"strings"
	"testing"

	"evenswing/output/drawing"
	"evenswing/space"
)

// cells is what a page says, with a space between any two elements.
func cells(t *testing.T, page *Page) string {
	t.Helper()
	html := marks.ReplaceAllString(made(t, page), "")
	said := tags(t, strings.ReplaceAll(html, "><", "> <"), func(xml.StartElement) {})
	return strings.Join(strings.Fields(strings.ReplaceAll(said, nbsp, " ")), " ")
}

// marks are those of numbers, which part no words.
var marks = regexp.MustCompile(`</?data[^>]*>`)

func TestPageSaysHowItMoves(t *testing.T) {
	said := cells(t, invented(1, false))
	says(t, said, "Let go from rest at lintel +4.01°, ladder −4.01°, tray +4.01°, the worst of 4 sign patterns at full swing; followed for 240 s",
		"lintel over ladder 2.0017 2.0009 2 within 0.5 % +0.045 % −0.04 % 0.143 %",
		"ladder 3.009 s 8.2 % 4.04° 131 s 150 s", "tray 3.714 s 21.4 % 4.77° 96 s any",
		"energy exchanged, at most 4.1 %", "trace 1.73 %", "line to the paper’s edge 5.2 mm", "spacing 3.4 widths of the line",
		"What design 1 draws, true size in print", "Sheet 148 × 210 mm, line 0.4 mm wide", "drift 0.143 %",
		"and so have the sheets with what they draw")
	if strings.Contains(said, "Over the top") || strings.Contains(said, "could not be followed") {
		t.Error("a warning without its reason")
	}
}

func TestEveryTermIsExplainedInOneSentence(t *testing.T) {
	said := plain(t, invented(1, false))
	want := map[string]bool{"Pull": true, "Drift": true, "Ripple": true, "Trace": true, "Spacing": true}
	for _, term := range terms {
		says(t, said, term.Word+term.Meaning)
		if strings.Count(term.Meaning, ".") != 1 || !strings.HasSuffix(term.Meaning, ".") {
			t.Errorf("%s is not one sentence: %q", term.Word, term.Meaning)
		}
		delete(want, term.Word)
	}
	if len(want) > 0 {
		t.Errorf("not explained: %v", want)
	}
}

func TestPageSaysWhatIsOddInAMotion(t *testing.T) {
	said := cells(t, moving())
	says(t, said, "as the rig file says", "Over the top.", "off the sheet by 27/32 in",
		"The motion could not be followed: no drift of lintel over ladder", "Its full motion was not followed",
		"Turned a quarter: the right edge of the sheet is up.", "1:2 in print", "The sheet is larger than this page, so it is drawn smaller.",
		"any not known 0.143 %", "spacing not known", "line 0.4 mm wide")
	if strings.Contains(said, "What design 2 draws") || strings.Contains(said, "What design 3 draws") {
		t.Error("a drawing without a motion")
	}
}

func TestWithoutMotionsNothingIsDrawn(t *testing.T) {
	page := invented(2, false)
	page.Sheets[0].Motion, page.Sheets[1].Motion = nil, nil
	said := plain(t, page)
	if strings.Contains(said, "so have the sheets") || strings.Contains(said, "draws,") || strings.Contains(said, "Ripple") {
		t.Error("a page without motions speaks of them")
	}
	page.Sheets[0].Motion = &Motion{Release: "lintel +4°"}
	says(t, cells(t, page), "Let go from rest at lintel +4°. Angles", "trace not known")
}

func TestReleaseWords(t *testing.T) {
	degree := math.Pi / 180
	for _, c := range []struct {
		names  []string
		angles []float64
		want   string
	}{
		{[]string{"beam", "rod", "tray"}, []float64{4 * degree, -4 * degree, 0}, "beam +4°, rod −4°, tray 0°"},
		{[]string{"beam"}, []float64{-0.125 * degree}, "beam −0.12°"},
		{[]string{"beam", "rod"}, []float64{-1e-9}, "beam 0°"},
		{nil, []float64{1}, ""},
	} {
		if got := ReleaseWords(c.names, c.angles); got != c.want {
			t.Errorf("%v %v: %q, want %q", c.names, c.angles, got, c.want)
		}
	}
}

func TestWorstDrift(t *testing.T) {
	m := Motion{Ratios: []Held{{Drift: given(0.001)}, {}, {Drift: given(0.004)}, {Drift: given(0.002)}}}
	if got := m.Drift(); got != given(0.004) {
		t.Errorf("%v, want 0.004", got)
	}
	if got := (&Motion{Ratios: []Held{{}}}).Drift(); got.Given {
		t.Errorf("%v of no drift", got)
	}
}

func TestMotionPicturesOfNothing(t *testing.T) {
	p := MotionPicturesOf(1, &Course{Sheet: space.Vec{X: 0.148, Y: 0.21}}, drawing.Metric)
	if p.Line != nil || p.Card != nil || p.Shares != nil || p.Amplitudes != nil || p.Kept != nil {
		t.Errorf("%+v", p)
	}
}

func TestEveryRatioHasItsChart(t *testing.T) {
	course := &Course{Ratios: []RatioCourse{
		{"a", "b", []float64{0, 6, 12}, []float64{2, 2.01, 2}, 2, 0.005},
		{"a", "c", []float64{0, 6, 12}, []float64{1.5, 1.51, 1.5}, 0, 0},
	}}
	p := MotionPicturesOf(3, course, drawing.Metric)
	if len(p.Kept) != 2 || p.Kept[1].Fast != "c" {
		t.Fatalf("%+v", p.Kept)
	}
	for i, want := range []string{"Period of a over period of b", "Period of a over period of c"} {
		if !strings.Contains(string(p.Kept[i].Chart), want) {
			t.Errorf("chart %d does not say %q", i, want)
		}
	}
	if string(p.Kept[0].Chart) == string(p.Kept[1].Chart) || strings.Contains(string(p.Kept[1].Chart), "wanted") {
		t.Error("a target where there is none")
	}
}

func TestSignedPercent(t *testing.T) {
	for value, want := range map[float64]string{0.00123: "+0.123 %", -0.00123: "−0.123 %", 0: "0 %", -1e-12: "0 %"} {
		if got := strings.ReplaceAll(signedPercent(value), nbsp, " "); got != want {
			t.Errorf("%v: %q, want %q", value, got, want)
		}
	}
}
