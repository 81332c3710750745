package space

import (
	"bytes"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// fillings are the ways in which an unknown may be written: before, and after
// the values 412.5 mm for a length, 14 for a count, lead for a metal.
var fillings = map[string]struct{ before, after string }{
	"plain":              {"unknowns:\n  a: 300 to 500 mm  # arm\n", "unknowns:\n  a: {range: 300 to 500 mm, is: 412.5 mm}  # arm\n"},
	"flow":               {"unknowns: {a: 300 to 500 mm}\n", "unknowns: {a: {range: 300 to 500 mm, is: 412.5 mm}}\n"},
	"JSON":               {"\"unknowns\":{\"a\":\"300 to 500 mm\"}\n", "\"unknowns\":{\"a\":{\"range\": \"300 to 500 mm\", \"is\": \"412.5 mm\"}}\n"},
	"single quotes":      {"unknowns: {a: '300 to 500 mm' }\n", "unknowns: {a: {range: '300 to 500 mm', is: 412.5 mm} }\n"},
	"on the next line":   {"unknowns:\n  a:\n    300 to\n    500 mm\n", "unknowns:\n  a:\n    {range: 300 to\n    500 mm, is: 412.5 mm}\n"},
	"literal":            {"unknowns:\n  a: |\n    300 to 500 mm\n  # end\n", "unknowns:\n  a: {range: \"300 to 500 mm\", is: 412.5 mm}\n  # end\n"},
	"folded":             {"unknowns:\n  a: >-\n    300 to\n    500 mm\n\n", "unknowns:\n  a: {range: \"300 to 500 mm\", is: 412.5 mm}\n\n"},
	"anchor":             {"unknowns:\n  a: &x 300 to 500 mm\n", "unknowns:\n  a: {range: &x 300 to 500 mm, is: 412.5 mm}\n"},
	"tag":                {"unknowns:\n  a: !!str 300 to 500 mm\n", "unknowns:\n  a: {range: !!str 300 to 500 mm, is: 412.5 mm}\n"},
	"mapping":            {"unknowns:\n  a: {range: 300 to 500 mm, movable: 5 mm} # x\n", "unknowns:\n  a: {range: 300 to 500 mm, is: 412.5 mm, movable: 5 mm} # x\n"},
	"mapping filled":     {"unknowns:\n  a: {is: 300 mm , range: 300 to 500 mm}\n", "unknowns:\n  a: {is: 412.5 mm , range: 300 to 500 mm}\n"},
	"filled in quotes":   {"unknowns:\n  a: {is: \"300 mm\", range: 300 to 500 mm}\n", "unknowns:\n  a: {is: \"412.5 mm\", range: 300 to 500 mm}\n"},
	"filled in inches":   {"unknowns:\n  a: {range: 300 to 500 mm, is: 12 in}\n", "unknowns:\n  a: {range: 300 to 500 mm, is: 412.5 mm}\n"},
	"lines":              {"unknowns:\n  a:\n    range: 300 to 500 mm # r\n    movable: 5 mm\n", "unknowns:\n  a:\n    range: 300 to 500 mm # r\n    is: 412.5 mm\n    movable: 5 mm\n"},
	"lines filled":       {"unknowns:\n  a:\n    is: 3 m # i\n    range: 300 to 500 mm\n", "unknowns:\n  a:\n    is: 412.5 mm # i\n    range: 300 to 500 mm\n"},
	"lines with CRLF":    {"unknowns:\r\n  a:\r\n    range: 300 to 500 mm # r\r\n    movable: 5 mm\r\n", "unknowns:\r\n  a:\r\n    range: 300 to 500 mm # r\r\n    is: 412.5 mm\r\n    movable: 5 mm\r\n"},
	"byte order mark":    {"\ufeffunknowns:\r\n  a: 300 to 500 mm\r\n", "\ufeffunknowns:\r\n  a: {range: 300 to 500 mm, is: 412.5 mm}\r\n"},
	"block range":        {"unknowns:\n  a:\n    range: >\n      300 to\n      500 mm\n    movable: 5 mm\n", "unknowns:\n  a:\n    range: >\n      300 to\n      500 mm\n    is: 412.5 mm\n    movable: 5 mm\n"},
	"flow over lines":    {"unknowns:\n  a: {\n    range: 300 to 500 mm, # r\n    movable: 5 mm }\n", "unknowns:\n  a: {\n    range: 300 to 500 mm, is: 412.5 mm, # r\n    movable: 5 mm }\n"},
	"steps":              {"unknowns:\n  n: 4 to 24 by 1\n  a: 300 to 500 mm\n", "unknowns:\n  n: {range: 4 to 24 by 1, is: 14}\n  a: {range: 300 to 500 mm, is: 412.5 mm}\n"},
	"choice":             {"unknowns:\n  metal: steel or lead # m\n  a: 300 to 500 mm\n", "unknowns:\n  metal: {choose: steel or lead, is: lead} # m\n  a: {range: 300 to 500 mm, is: 412.5 mm}\n"},
	"choice in range":    {"unknowns:\n  metal: {range: steel or lead}\n  a: 300 to 500 mm\n", "unknowns:\n  metal: {range: steel or lead, is: lead}\n  a: {range: 300 to 500 mm, is: 412.5 mm}\n"},
	"choice filled":      {"unknowns:\n  metal: {choose: steel or lead, is: steel}\n  a: 300 to 500 mm\n", "unknowns:\n  metal: {choose: steel or lead, is: lead}\n  a: {range: 300 to 500 mm, is: 412.5 mm}\n"},
	"mapping by alias":   {"unknowns:\n  b: &m {range: 200 to 500 mm, movable: 3 mm}\n  a: *m\n", "unknowns:\n  b: &m {range: 200 to 500 mm, is: 250 mm, movable: 3 mm}\n  a: {range: \"200 to 500 mm\", movable: \"3 mm\", is: 412.5 mm}\n"},
	"text by alias":      {"unknowns:\n  b: &m 200 to 500 mm\n  a: *m\n", "unknowns:\n  b: {range: &m 200 to 500 mm, is: 250 mm}\n  a: {range: *m, is: 412.5 mm}\n"},
	"range by alias":     {"unknowns:\n  b: &m 200 to 500 mm\n  a: {range: *m , movable: 3 mm}\n", "unknowns:\n  b: {range: &m 200 to 500 mm, is: 250 mm}\n  a: {range: *m, is: 412.5 mm , movable: 3 mm}\n"},
	"value by alias":     {"rig: &v 310 mm\nunknowns:\n  a: {range: 300 to 500 mm, is: *v }\n", "rig: &v 310 mm\nunknowns:\n  a: {range: 300 to 500 mm, is: 412.5 mm }\n"},
	"comma in an option": {"unknowns:\n  metal: mild, steel or mild, lead\n  a: 300 to 500 mm\n", "unknowns:\n  metal: {choose: \"mild, steel or mild, lead\", is: \"mild, lead\"}\n  a: {range: 300 to 500 mm, is: 412.5 mm}\n"},
	"no last break":      {"unknowns:\n  a:\n    range: 300 to 500 mm", "unknowns:\n  a:\n    range: 300 to 500 mm\n    is: 412.5 mm"},
	"inch signs":         {"unknowns:\n  i: 5\" to 20\"\n  a: 300 to 500 mm\n", "unknowns:\n  i: {range: 5\" to 20\", is: \"10.5\\\"\"}\n  a: {range: 300 to 500 mm, is: 412.5 mm}\n"},
	"wide characters":    {"rig: é鐘\nunknowns: {é鐘: 1 to 3, a: 300 to 500 mm} # ü\n", "rig: é鐘\nunknowns: {é鐘: {range: 1 to 3, is: 1.5}, a: {range: 300 to 500 mm, is: 412.5 mm}} # ü\n"},
	"tab before text":    {"unknowns:\n  a:\t300 to 500 mm\n", "unknowns:\n  a:\t{range: 300 to 500 mm, is: 412.5 mm}\n"},
	"line separator":     {"unknowns:\n  a: 300 to\u2028    500 mm\n", "unknowns:\n  a: {range: 300 to\u2028    500 mm, is: 412.5 mm}\n"},
	"next line":          {"unknowns:\n  a: 300 to\u0085    500 mm\n", "unknowns:\n  a: {range: 300 to\u0085    500 mm, is: 412.5 mm}\n"},
	"escapes":            {"unknowns:\n  a: \"300\\x20to\\\n     \\ 500 mm\" # \"\n", "unknowns:\n  a: {range: \"300\\x20to\\\n     \\ 500 mm\", is: 412.5 mm} # \"\n"},
	"tag and comment":    {"unknowns:\n  a: !!str # text\n    300 to 500 mm\n", "unknowns:\n  a: {range: !!str # text\n    300 to 500 mm, is: 412.5 mm}\n"},
	"tabs":               {"unknowns: {a: 300\tto\t\n   500 mm\t}\n", "unknowns: {a: {range: 300\tto\t\n   500 mm, is: 412.5 mm}\t}\n"},
	"lines in key marks": {"unknowns:\n  ? a\n  : range: 300 to 500 mm\n", "unknowns:\n  ? a\n  : range: 300 to 500 mm\n    is: 412.5 mm\n"},
	"key marks":          {"unknowns:\n  ? a\n  : 300 to 500 mm\n", "unknowns:\n  ? a\n  : {range: 300 to 500 mm, is: 412.5 mm}\n"},
}

// filled are the values that the fillings are filled with.
var filled = map[string]float64{"a": 0.4125, "b": 0.25, "n": 14, "metal": 1, "i": 10.5 * 0.0254, "é鐘": 1.5}

const onePendulum = "pendulums: {p: {hangs_from: wall, pivot: [0, 0], lumps: {l: {at: [0, -a], mass: 1 kg}}}}\n"

func TestFillInStyles(t *testing.T) {
	for name, f := range fillings {
		t.Run(name, func(t *testing.T) {
			before, after := withRig(f.before), withRig(f.after)
			r := mustRead(t, before)
			values := make([]float64, len(r.Unknowns))
			for i, u := range r.Unknowns {
				values[i] = filled[u.Name]
			}
			got := string(r.FillIn(values))
			if got != after {
				t.Fatalf("got\n%s\nwant\n%s", got, after)
			}
			again := mustRead(t, got)
			checkRefill(t, again, values)
			if twice := string(again.FillIn(values)); twice != got {
				t.Errorf("filled in twice\n%s\nonce\n%s", twice, got)
			}
		})
	}
}

// withRig adds a pendulum before the unknowns, so that they may end the file.
func withRig(text string) string {
	mark := ""
	if rest, ok := strings.CutPrefix(text, "\ufeff"); ok {
		mark, text = "\ufeff", rest
	}
	if rest, ok := strings.CutPrefix(text, "\"unknowns\""); ok {
		return "{" + strings.TrimSuffix(strings.TrimSpace(onePendulum), "\n") + ", \"unknowns\"" + strings.TrimSuffix(rest, "\n") + "}\n"
	}
	head := onePendulum
	if strings.Contains(text, "\r\n") {
		head = strings.ReplaceAll(head, "\n", "\r\n")
	}
	return mark + head + text
}

// checkRefill: a filled-in rig starts at the values, as single precision has
// them.
func checkRefill(t *testing.T, r *Rig, values []float64) {
	t.Helper()
	for i, v := range r.StartValues() {
		u := &r.Unknowns[i]
		if !u.Is.Given {
			t.Fatalf("%s is not filled in", u.Name)
		}
		if float32(v) != float32(values[i]) {
			t.Fatalf("%s is %v, want %v", u.Name, v, values[i])
		}
	}
}

// TestFillInValues fills whole rigs with random values, again and again, and
// reads the same single-precision values back.
func TestFillInValues(t *testing.T) {
	crlf := strings.ReplaceAll(everything, "\n", "\r\n")
	for _, r := range []*Rig{loadFour(t), mustRead(t, everything), mustRead(t, crlf), mustRead(t, string(starter))} {
		rnd := rand.New(rand.NewPCG(5, 6))
		d := r.NewDecoder()
		point := make([]float64, r.Dim())
		for range 100 {
			for k := range point {
				point[k] = rnd.Float64()
			}
			d.Point(point)
			values := append([]float64(nil), d.Design.Unknowns...)
			for i := range r.Unknowns {
				if u := &r.Unknowns[i]; u.Kind == WorkedOut {
					values[i] = u.Lo + rnd.Float64()*(u.Hi-u.Lo)
				}
			}
			again := mustRead(t, string(r.FillIn(values)))
			checkRefill(t, again, values)
			r = again
		}
	}
}

// TestFillInKeepsTheRest: without what it wrote, a filled-in file is the file.
func TestFillInKeepsTheRest(t *testing.T) {
	r := mustRead(t, string(starter))
	got := r.FillIn(r.StartValues())
	lines, was := bytes.Split(got, []byte("\n")), bytes.Split(starter, []byte("\n"))
	if len(lines) != len(was) {
		t.Fatalf("%d lines, had %d", len(lines), len(was))
	}
	changed := 0
	for i := range lines {
		if !bytes.Equal(lines[i], was[i]) {
			changed++
			if comment := bytes.IndexByte(was[i], '#'); comment >= 0 && !bytes.HasSuffix(lines[i], was[i][comment:]) {
				t.Errorf("line %d lost its comment: %s", i+1, lines[i])
			}
		}
	}
	if changed != len(r.Unknowns) {
		t.Errorf("%d lines changed, want %d", changed, len(r.Unknowns))
	}
}

// TestFillInDigits: the digits are enough at every size.
func TestFillInDigits(t *testing.T) {
	r := mustRead(t, "unknowns: {a: -1e30 to 1e30 mm, b: -1 to 1 deg, c: -9 to 9 in}\n"+strings.Replace(onePendulum, "-a", "-a*cos(b) + c", 1))
	rnd := rand.New(rand.NewPCG(7, 8))
	for range 300 {
		values := []float64{
			float64(float32(math.Pow(10, rnd.Float64()*50-25))), float64(float32(rnd.Float64() - 0.5)), float64(float32(rnd.NormFloat64()))}
		checkRefill(t, mustRead(t, string(r.FillIn(values))), values)
	}
}
