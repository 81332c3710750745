package report

import (
	"math"
	"testing"

	"evenswing/output/workshop"
)

func TestMetalIsSummedUpByKind(t *testing.T) {
	weight := func(of string, kg float64, lead bool) workshop.Metal {
		return workshop.Metal{Material: of, Mass: workshop.Amount{SI: kg}, Lead: lead}
	}
	s := Sheet{Workshop: &workshop.Sheet{Metal: []workshop.Metal{
		weight("lead", 8.5, true), weight("", 1.25, false), weight("steel", 3, false), weight("lead", 1.5, true), weight("", 0.5, false),
	}}}
	want := []Needed{{"lead", 10, true}, {"any weight", 1.75, false}, {"steel", 3, false}}
	got := s.Metal()
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i := range want {
		if got[i].Of != want[i].Of || got[i].Lead != want[i].Lead || math.Abs(got[i].Mass-want[i].Mass) > 1e-12 {
			t.Errorf("%+v, want %+v", got[i], want[i])
		}
	}
	if (&Sheet{}).Metal() != nil {
		t.Error("metal of a sheet without a schedule")
	}
}

func TestReadings(t *testing.T) {
	for _, c := range []struct {
		p    Pendulum
		want string
	}{{Pendulum{Period: 2.2013}, "44.03" + nbsp + "s"}, {Pendulum{Period: 2.2013, Target: given(2.2)}, "44.00" + nbsp + "s"}} {
		if got := timed(c.p); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	says(t, cells(t, invented(1, false)), "Stopwatch readings", "lintel 120.00 s ladder 60.00 s tray 74.20 s", "first second moved, by first")
}
