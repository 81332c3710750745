package objective

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"evenswing/space"
)

// TestTroubles: of a design of the demo, every symptom that is shown shows clearly in
// its drawing, by its smallest size; the verdict and the motion stay; twice gives
// the same.
func TestTroubles(t *testing.T) {
	w, x := disturbed(t)
	was, shown := w.Verdict, *w.Swinging()
	a, err := w.Troubles(never)
	if err != nil || a.Without != "" || len(a.List) != int(SymptomCount) {
		t.Fatalf("%v, %+v", err, a)
	}
	if w.Verdict != was || w.Swinging().Drift != shown.Drift || w.Swinging().From != shown.From {
		t.Error("the candidate changed")
	}
	x.good = a.Good
	drawn := 0
	for i := range a.List {
		s := &a.List[i]
		if s.Without != "" {
			continue
		}
		drawn++
		if !x.clear(s.Symptom, s.Drawn) {
			t.Errorf("symptom %d does not show: %v, good %v", s.Symptom, s.Figure, s.Good)
		}
		if !slices.IsSortedFunc(s.Faults, func(a, b Fault) int { return compareFar(&a, &b) }) {
			t.Errorf("symptom %d: not nearest first", s.Symptom)
		}
	}
	if drawn < 6 {
		t.Errorf("only %d symptoms", drawn)
	}
	b, _ := w.Troubles(never)
	if got, want := fmt.Sprintf("%+v", plainly(b)), fmt.Sprintf("%+v", plainly(a)); got != want {
		t.Error("twice, and not the same")
	}
	noNaN(t, "troubles", reflect.ValueOf(a))
}

func never() error { return nil }

// plainly is what of troubles has no pointers.
func plainly(t *Troubles) (list []any) {
	for _, s := range t.List {
		list = append(list, s.Without, s.Figure, s.Good, s.Faults)
	}
	return append(list, t.Softest)
}

// TestMendingTakesItOff: the first move told against a wrong period brings it back.
func TestMendingTakesItOff(t *testing.T) {
	w, x := disturbed(t)
	a, _ := w.Troubles(never)
	s := &a.List[Wandering]
	if s.Without != "" || len(s.Faults[0].Mending) == 0 || s.Faults[0].Changed < 0 {
		t.Fatalf("%+v", s)
	}
	by, f := s.Faults[0].Disturbance, &s.Faults[0]
	m := f.Mending[0]
	by.Moves = append([]float64(nil), by.Moves...)
	if by.Moves == nil {
		by.Moves = make([]float64, len(x.tuner.Table.Adjusters))
	}
	by.Moves[m.Adjuster] += m.By
	r := x.Draw(&by)
	if left := r.Linear[f.Changed]/a.Good.Linear[f.Changed] - 1; math.Abs(left) > 0.1*math.Abs(f.Slower) {
		t.Errorf("%g is left of %g", left, f.Slower)
	}
}

// TestTroublesOfPoorRigs: what a rig has not is said, never computed.
func TestTroublesOfPoorRigs(t *testing.T) {
	troubles := func(text string) *Troubles {
		rig := mustRead(t, text)
		w := New(rig).NewWorkspace()
		w.ScoreValues(rig.StartValues())
		w.SwingUp()
		a, err := w.Troubles(never)
		if err != nil {
			t.Fatal(err)
		}
		noNaN(t, "troubles", reflect.ValueOf(a))
		return a
	}
	one := troubles(rubbingRig)
	for _, s := range []Symptom{Wandering, Beating, Blunt} {
		if one.List[s].Without == "" {
			t.Errorf("one pendulum alone has symptom %d", s)
		}
	}
	if d := &one.List[Dying]; d.Without != "" || len(d.Faults) == 0 {
		t.Errorf("one pendulum does not die early: %+v", d)
	}
	smooth := troubles(strings.Replace(rubbingRig, "    pivot_friction: 0.002 N m\n", "    pivot_friction: 0 N m\n", 1))
	for _, f := range smooth.List[Dying].Faults {
		if f.Kind == Rubbing && (f.Times != 0 || f.Likely.Given || !(f.Size > 0)) {
			t.Errorf("no friction to multiply: %+v", f)
		}
	}
	at := strings.Index(rubbingRig, "paper:")
	bare := rubbingRig[:at] + rubbingRig[strings.Index(rubbingRig, "targets:"):]
	if b := troubles(bare); b.Without != noPen || b.Good != nil {
		t.Errorf("no paper: %+v", b)
	}
}

// TestTroublesEnd: it is ended from outside.
func TestTroublesEnd(t *testing.T) {
	w, _ := disturbed(t)
	stop := errors.New("stop")
	if _, err := w.Troubles(func() error { return stop }); !errors.Is(err, stop) {
		t.Error(err)
	}
}

// TestLineFigures: width, growth and first speed of lines that are known.
func TestLineFigures(t *testing.T) {
	const per = 100
	line := func(size func(turns float64) float64) (l []space.Vec) {
		for i := 0; i < 40*per; i++ {
			turns := float64(i) / per
			l = append(l, space.Vec{X: size(turns) * math.Cos(2*math.Pi*turns), Y: size(turns) * math.Sin(2*math.Pi*turns)})
		}
		return l
	}
	fades := line(func(turns float64) float64 { return math.Exp2(-turns / 10) })
	if h := halvesIn(fades, 0.02, 0.02*per); !h.Given || math.Abs(h.Value/(0.02*per*10.5)-1) > 0.01 { // 10 turns after the middle of the first
		t.Errorf("halves in %v s", h)
	}
	if s := swells(fades, per); !s.Given || s.Value != 0 {
		t.Errorf("a line that only shrinks grows by %v", s)
	}
	beats := line(func(turns float64) float64 { return 1 + 0.5*math.Cos(2*math.Pi*turns/20) })
	if s := swells(beats, per); math.Abs(s.Value-2.0/3) > 0.02 { // from 0.5 back to 1.5, of 1.5
		t.Errorf("it grows by %v", s)
	}
	if s := startShare(fades); math.Abs(s.Value-1) > 0.01 {
		t.Errorf("a circle sets out at %v", s)
	}
	rest := make([]space.Vec, per)
	for i := range rest {
		rest[i] = space.Vec{X: math.Cos(2 * math.Pi * float64(i) / per)}
	}
	if s := startShare(rest); !(s.Value < 0.01) {
		t.Errorf("a release from rest sets out at %v", s)
	}
	if s := startShare(make([]space.Vec, 9)); s.Given {
		t.Errorf("a pen that stands sets out at %v", s)
	}
}

// noNaN goes through all numbers of a value.
func noNaN(t *testing.T, path string, v reflect.Value) {
	t.Helper()
	switch v.Kind() {
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			t.Errorf("%s is %g", path, f)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			noNaN(t, path, v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			noNaN(t, path+"."+v.Type().Field(i).Name, v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			noNaN(t, path, v.Index(i))
		}
	}
}
