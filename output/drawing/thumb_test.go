package drawing

import (
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"regexp"
	"strings"
	"testing"

	"evenswing/output/drawing/sample"
	"evenswing/space"
)

// thumbOf is a small picture of an invented drawing.
func thumbOf(line []space.Vec, window Box) []byte {
	return Thumb(line, space.Vec{X: 0.148, Y: 0.21}, 4e-4, ThumbStyle{ID: "t-", Title: "A drawing", Summary: "Of a test.", Window: window})
}

// TestThumbPassesThePoints: the line passes every place of the pen as nearly as
// ThumbTolerance says, and is small.
func TestThumbPassesThePoints(t *testing.T) {
	line := sample.Swing{Reach: 0.06, Beat: 0.05, Wander: 0.001}.Path(6800, 240)
	window := WindowOf(line)
	svg := thumbOf(line, window)
	if len(svg) > 40_000 {
		t.Errorf("%d bytes", len(svg))
	}
	curves := cubicsOf(t, svg)
	scale := thumbUnits / math.Max(window.Width(), window.Height())
	for i := 0; i < len(line); i += 37 { // of all curves, for the line crosses itself
		p, near := space.Vec{X: scale * line[i].X, Y: -scale * line[i].Y}, math.Inf(1)
		for k := range curves {
			for u := range 64 {
				near = math.Min(near, segmentDistance(p, curves[k].at(float64(u)/64), curves[k].at(float64(u+1)/64)))
			}
		}
		if near > thumbUnits*ThumbTolerance {
			t.Errorf("place %d is %g units off", i, near)
		}
	}
}

// TestThumbIsSound: XML, without numbers that are none, for lines of any kind; what is
// off the sheet is a part of its own.
func TestThumbIsSound(t *testing.T) {
	off := []space.Vec{{X: 0.05}, {X: 0.09}, {X: 0.12, Y: 0.01}}
	for name, line := range map[string][]space.Vec{
		"none": nil, "one": {{}}, "still": {{}, {}, {}}, "off": off,
		"wild": {{X: math.NaN()}, {X: 1}}, "far": {{}, {X: 1e300}, {X: 2}},
	} {
		svg := thumbOf(line, WindowOf(line))
		if bytes.Contains(svg, []byte("NaN")) || bytes.Contains(svg, []byte("Inf")) {
			t.Errorf("%s: %s", name, svg)
		}
		for d := xml.NewDecoder(bytes.NewReader(svg)); ; {
			if _, err := d.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
		if got := strings.Contains(string(svg), `data-part="off"`); got != (name == "off") {
			t.Errorf("%s: off the sheet: %v", name, got)
		}
	}
}

// linePaths finds the line's paths in a small picture.
var linePaths = regexp.MustCompile(`data-part="(?:on|off)"[^>]* d="([^"]*)"`)

// cubicsOf are the curves of a small picture.
func cubicsOf(t *testing.T, svg []byte) (all []cubic) {
	for _, m := range linePaths.FindAllSubmatch(svg, -1) {
		all = append(all, readPath(t, string(m[1]))...)
	}
	return all
}
