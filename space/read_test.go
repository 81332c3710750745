package space

import (
	"bytes"
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// smallest is little more than the least that a rig file may hold. The child
// comes before its parent.
const smallest = `pendulums:
  leg: {hangs_from: arm, pivot: [0 mm, 0 mm], lumps: {bob: {at: [0 mm, -1 m], mass: 2 kg}}}
  arm: {hangs_from: wall, pivot: [0 mm, 0 mm], lumps: {bob: {at: [0 mm, -1 m], mass: 2 kg}}}
targets:
  periods: {arm: 2 s}
  ratios: {slow: arm, fast: leg, is: 2}
`

func TestDefaults(t *testing.T) {
	r := mustRead(t, smallest)
	d := &r.NewDecoder().Design
	arm := &d.Pendulums[1]
	checkFigures(t, []figure{
		{"gravity", d.Gravity, 9.80665}, {"swing", arm.Swing, 5 * math.Pi / 180}, {"halves in", arm.HalvesIn, 150},
		{"friction", arm.Friction, 0}, {"drawing time", d.Targets.DrawingTime, 240},
		{"period within", d.Targets.Periods[0].Within, 0.01}, {"ratio within", d.Targets.Ratios[0].Within, 0.005},
		{"length", d.Tolerance.Length, 0.0005}, {"mass", d.Tolerance.Mass, 0.002}, {"density", d.Tolerance.Density, 0.01}, {"pivot", d.Tolerance.Pivot, 0.0003},
		{"power", r.Power, 4},
	})
	var where []string
	for _, n := range r.Assumed {
		where = append(where, n.Where)
	}
	want := []string{"rig", "gravity", "pendulums.leg.swing", "pendulums.leg.halves_in", "pendulums.arm.swing", "pendulums.arm.halves_in",
		"targets.periods.arm", "targets.ratios.within", "targets.drawing_time",
		"tolerances.length", "tolerances.mass", "tolerances.density", "tolerances.pivot", "score_power"}
	if !reflect.DeepEqual(where, want) {
		t.Errorf("assumed %v, want %v", where, want)
	}
	if r.Name != "test" {
		t.Errorf("the name is %q", r.Name)
	}
	if r.Released || d.Paper.Given || d.Pen.Given || d.StandOff.Given || arm.Release.Given || arm.Edge.Z.Given {
		t.Error("something is marked as given")
	}
	for c := range CriterionCount {
		if d.Limits[c].Given || r.Matters[c] != 1 {
			t.Errorf("%v: %+v, matters %v", c, d.Limits[c], r.Matters[c])
		}
	}
	if arm.Parent != Wall || d.Pendulums[0].Parent != 1 {
		t.Error("a parent that comes later is not found")
	}
}

// TestPackingAssumed: loose metal takes a packing unless it is written.
func TestPackingAssumed(t *testing.T) {
	const where = "pendulums.beam.drums.side.charges.sand.packing"
	for text, want := range map[string]bool{everything: false, strings.Replace(everything, "packing: 1, ", "", 1): true} {
		if got := slices.Contains(mustRead(t, text).Assumed, Note{where, "0.6"}); got != want {
			t.Errorf("assumed: %v, want %v", got, want)
		}
	}
}

// TestGravityAt compares with published values. Source: WGS84 at 0, 30, 45, 60
// and 90 deg, computed with SciPy 1.10 from the stated formula, its constants
// read in a public source; the free-air gradient of 0.3086 mGal/m read in a
// public glossary of geophysics.
func TestGravityAt(t *testing.T) {
	const digits = 5e-11 // the figures have ten decimals
	for _, c := range []struct{ latitude, want float64 }{
		{0, 9.7803253359}, {30, 9.7932472692}, {45, 9.8061977694}, {60, 9.8191769531}, {90, 9.8321849379}, {-45, 9.8061977694},
	} {
		if got := GravityAt(c.latitude*math.Pi/180, 0); math.Abs(got-c.want) > digits {
			t.Errorf("at %v deg %.11f, want %.10f", c.latitude, got, c.want)
		}
	}
	if got, want := GravityAt(math.Pi/4, 1000), 9.8061977694-3.086e-3; math.Abs(got-want) > digits {
		t.Errorf("1 km up %.11f, want %.10f", got, want)
	}
}

func TestLineEndsAndMark(t *testing.T) {
	for name, change := range map[string]func(string) string{
		"CRLF":          func(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") },
		"CR":            func(s string) string { return strings.ReplaceAll(s, "\n", "\r") },
		"BOM":           func(s string) string { return "\ufeff" + s },
		"BOM and CRLF":  func(s string) string { return "\ufeff" + strings.ReplaceAll(s, "\n", "\r\n") },
		"document mark": func(s string) string { return "---\n" + s + "...\n" },
		"no last break": func(s string) string { return strings.TrimRight(s, "\n") },
	} {
		r, err := Read("test.yaml", []byte(change(everything)))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got, want := r.NewDecoder().Design, mustRead(t, everything).NewDecoder().Design; !reflect.DeepEqual(got, want) {
			t.Errorf("%s: another design", name)
		}
	}
}

// TestMistakePlace: the column counts characters, with CRLF and a mark too.
func TestMistakePlace(t *testing.T) {
	text := "\ufeffrig: é # ü\r\npendulums:\r\n  \"ärm\": {hangs_from: wall, pivot: [0 mm, 1.5 kg + 2 mm], lumps: {b: {at: [0, 0], mass: ' 2  kk'}}}\r\n"
	_, err := Read("test.yaml", []byte(text))
	var m *Mistakes
	if !errors.As(err, &m) || len(m.List) != 2 {
		t.Fatalf("%v", err)
	}
	line := []rune(strings.Split(text, "\r\n")[2])
	for i, at := range []string{"2 mm]", "kk'"} {
		got := m.List[i]
		if got.Line != 3 || !strings.HasPrefix(string(line[got.Column-1:]), at) {
			t.Errorf("line %d column %d, want %q: %v", got.Line, got.Column, at, err)
		}
		if got.Excerpt != string(line) {
			t.Errorf("excerpt %q", got.Excerpt)
		}
	}
	if m.List[0].Where != "pendulums.ärm.pivot[2]" || m.List[1].Where != "pendulums.ärm.lumps.b.mass" {
		t.Errorf("%q, %q", m.List[0].Where, m.List[1].Where)
	}
}

func TestAliases(t *testing.T) {
	text := strings.Replace(smallest, "lumps: {bob: {at: [0 mm, -1 m], mass: 2 kg}}", "lumps: &l {bob: {at: &p [0 mm, -1 m], mass: &m 2 kg}}", 1)
	text = strings.Replace(text, "lumps: {bob: {at: [0 mm, -1 m], mass: 2 kg}}", "lumps: {<one>, two: {at: *p, mass: *m}}", 1)
	text = strings.Replace(text, "<one>", "one: {at: *p, mass: 1 kg}", 1)
	r := mustRead(t, text)
	lumps := r.NewDecoder().Design.Pendulums[1].Lumps
	if len(lumps) != 2 || lumps[0] != (Lump{At: Vec{0, -1}, Mass: 1}) || lumps[1] != (Lump{At: Vec{0, -1}, Mass: 2}) {
		t.Errorf("%+v", lumps)
	}
}

// TestNames: any printable text names pendulums, parts and the rig.
func TestNames(t *testing.T) {
	for _, name := range []string{"null", "true", "on", "010", "a.b [c]", "鐘", "é", strings.Repeat("x", maxName)} {
		text := strings.ReplaceAll(strings.ReplaceAll(smallest, "arm", `"`+name+`"`), "bob", `"`+name+`"`) + "rig: \"" + name + "\"\n"
		r := mustRead(t, text)
		if r.Pendulums[1].Name != name || r.Pendulums[1].Lumps[0] != name || r.Name != name {
			t.Errorf("%q: %+v", name, r.Pendulums)
		}
	}
	for _, name := range []string{"", " ", strings.Repeat("x", maxName+1), `\u0007`, `\u200b`, "wall"} {
		if _, err := Read("test.yaml", []byte(strings.ReplaceAll(smallest, "arm", `"`+name+`"`))); err == nil {
			t.Errorf("%q was accepted", name)
		}
	}
}

// TestUnitNames: a name may be a unit, because a unit follows only a number.
func TestUnitNames(t *testing.T) {
	r := mustRead(t, "unknowns: {m2: 1 to 3 kg, mm: 10 to 30 mm}\n"+strings.Replace(smallest, "[0 mm, -1 m], mass: 2 kg", "[0 mm, 2 * -mm], mass: 3 * m2", 1))
	lump := r.NewDecoder().Design.Pendulums[0].Lumps[0]
	checkFigures(t, []figure{{"mass", lump.Mass, 6}, {"y", lump.At.Y, -0.04}})
	if d := r.Doubts(); len(d) != 2 || !strings.Contains(d[0].Text, "unit") {
		t.Errorf("%v", d)
	}
}

func TestLoad(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "rig.yaml")
	if err := os.WriteFile(file, []byte(smallest), 0o600); err != nil {
		t.Fatal(err)
	}
	r, err := Load(file)
	if err != nil || r.Name != "rig" || r.File != file || !bytes.Equal(r.Source, []byte(smallest)) {
		t.Errorf("%v, %+v", err, r)
	}
	if _, err := Load(filepath.Join(folder, "none.yaml")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a file that is not there: %v", err)
	}
	var m *Mistakes
	if _, err := Load(folder); !errors.As(err, &m) || !strings.Contains(err.Error(), "folder") {
		t.Errorf("a folder: %v", err)
	}
}

// TestLargeFile: a file of 1 GB is refused without being read.
func TestLargeFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "large.yaml")
	file, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	if err := file.Truncate(1 << 30); err != nil {
		t.Fatal(err)
	}
	took := cpuTime(t, func() { _, err = Load(path) })
	var m *Mistakes
	if !errors.As(err, &m) || !strings.Contains(err.Error(), "1073741824 bytes") {
		t.Errorf("%v", err)
	}
	if took > slowest {
		t.Errorf("took %v", took)
	}
	if _, err := Read("large.yaml", make([]byte, maxBytes+1)); !errors.As(err, &m) {
		t.Errorf("%v", err)
	}
}

// TestEightPendulums: eight are allowed, in any order.
func TestEightPendulums(t *testing.T) {
	text := "pendulums:\n"
	names := []string{"h", "g", "f", "e", "d", "c", "b", "a"}
	for i, n := range names {
		parent := "wall"
		if i+1 < len(names) {
			parent = names[i+1]
		}
		text += "  " + n + ": {hangs_from: " + parent + ", pivot: [0 mm, 0 mm], lumps: {bob: {at: [0, -1 m], mass: 1 kg}}}\n"
	}
	d := mustRead(t, text).NewDecoder().Design
	for i, p := range d.Pendulums {
		want := i + 1
		if i == len(names)-1 {
			want = Wall
		}
		if p.Parent != want {
			t.Errorf("%s hangs from %d, want %d", names[i], p.Parent, want)
		}
	}
}
