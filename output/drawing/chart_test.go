package drawing

import (
	"bytes"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"evenswing/output/drawing/sample"
	"evenswing/space"
)

// courses are the invented motion's figures at n even times.
func courses(n int, names ...string) (time []float64, amplitudes, shares []Series, kept []float64) {
	amplitudes, shares = make([]Series, len(names)), make([]Series, len(names))
	for k, name := range names {
		amplitudes[k].Name, shares[k].Name = name, name
	}
	for i := range n {
		t := drawingTime * float64(i) / float64(n-1)
		a, s := steadyPen.Amplitudes(t), steadyPen.Shares(t)
		time, kept = append(time, t), append(kept, steadyPen.Ratio(t))
		for k := range names {
			amplitudes[k].At, shares[k].At = append(amplitudes[k].At, a[k]), append(shares[k].At, s[k])
		}
	}
	return time, amplitudes, shares, kept
}

// charts are all kinds of charts by name.
func charts(n int, names ...string) map[string][]byte {
	time, amplitudes, shares, kept := courses(n, names...)
	return map[string][]byte{
		"chart-shares":     Shares(time, shares, ChartStyle{ID: "s-"}),
		"chart-amplitudes": Amplitudes(time, amplitudes, ChartStyle{ID: "a-"}),
		"chart-kept":       Kept(time, kept, 2, 0.005, ChartStyle{ID: "k-"}),
		"chart-kept-alone": Kept(time, kept, 0, 0, ChartStyle{ID: "l-", Title: "Alone"}),
	}
}

func TestGoldenCharts(t *testing.T) {
	again := charts(41, "lintel", "ladder", "tray")
	for name, picture := range charts(41, "lintel", "ladder", "tray") {
		checkGolden(t, name, picture)
		if !bytes.Equal(picture, again[name]) {
			t.Errorf("%s: drawn twice, two pictures", name)
		}
	}
}

// mostChartBytes holds for any number of samples.
const mostChartBytes = 12_000

func TestChartsAreSmall(t *testing.T) {
	for name, picture := range charts(20000, "lintel", "ladder", "tray") {
		if len(picture) > mostChartBytes {
			t.Errorf("%s: %d bytes", name, len(picture))
		}
	}
}

// axisOf reads the upright axis back: what a value is on the canvas.
func axisOf(t *testing.T, picture []byte) func(value float64) float64 {
	t.Helper()
	var values, ys []float64
	for _, e := range elements(t, picture) {
		if v, err := strconv.ParseFloat(strings.TrimSpace(e.text), 64); err == nil && e.attributes["text-anchor"] == "end" {
			values, ys = append(values, v), append(ys, e.number(t, "y")-0.35*chartText)
		}
	}
	n := len(values) - 1
	if n < 2 {
		t.Fatalf("%d figures on the axis", n+1)
	}
	for i := 2; i <= n; i++ {
		if step := (ys[i] - ys[i-1]) / (values[i] - values[i-1]); math.Abs(step*(values[1]-values[0])-(ys[1]-ys[0])) > 0.01 {
			t.Errorf("uneven figures %v at %v", values, ys)
		}
	}
	return func(value float64) float64 { return ys[0] + (ys[n]-ys[0])*(value-values[0])/(values[n]-values[0]) }
}

// readTo is how exactly a chart must show a value, in units of 60.
const readTo = chartFinest + 2*pathFinest

func TestAmplitudesReadOffTheAxis(t *testing.T) {
	time, amplitudes, _, _ := courses(25, "lintel", "ladder", "tray")
	picture := Amplitudes(time, amplitudes, ChartStyle{})
	at, k := axisOf(t, picture), 0
	for _, e := range elements(t, picture) {
		if e.name != "path" {
			continue
		}
		chain := readPath(t, e.attributes["d"])
		first, end := chain[0][0], chain[len(chain)-1][3]
		s := amplitudes[k]
		if math.Abs(first.Y-at(s.At[0]*180/math.Pi)) > readTo || math.Abs(end.Y-at(s.At[24]*180/math.Pi)) > readTo {
			t.Errorf("%s runs from %v to %v, want %v to %v", s.Name, first.Y, end.Y, at(s.At[0]*180/math.Pi), at(s.At[24]*180/math.Pi))
		}
		k++
	}
	if k != 3 {
		t.Errorf("%d curves", k)
	}
}

func TestTheAllowanceIsWhereTheAxisSays(t *testing.T) {
	for _, within := range []float64{0.0005, 0.005, 0.05} {
		time, _, _, kept := courses(41, "a")
		picture := Kept(time, kept, 2, within, ChartStyle{})
		at, band := axisOf(t, picture), parts(t, picture)["allowed"]
		top, high := band.number(t, "y"), band.number(t, "height")
		if math.Abs(top-at(2*(1+within))) > readTo || math.Abs(top+high-at(2*(1-within))) > readTo {
			t.Errorf("within %v: the band is from %v to %v, want %v to %v", within, top, top+high, at(2*(1+within)), at(2*(1-within)))
		}
		if top < 0 || top+high > chartHeight-chartBottom {
			t.Errorf("within %v: the band leaves the chart", within)
		}
	}
}

func TestSharesAreStackedToTheWhole(t *testing.T) {
	time, _, shares, _ := courses(41, "lintel", "ladder", "tray")
	tops := stacked(time, shares)
	for j := range time {
		if math.Abs(tops[2][j]-100) > 1e-9 || math.Abs(tops[0][j]-100*shares[0].At[j]) > 1e-9 || tops[1][j] < tops[0][j] {
			t.Fatalf("at %v s the edges are %v, %v, %v", time[j], tops[0][j], tops[1][j], tops[2][j])
		}
	}
	said := string(Shares(time, shares, ChartStyle{}))
	for _, word := range []string{"lintel 74.9\u00a0%", "ladder 22.5\u00a0%", "tray 2.6\u00a0%", "lintel: from 65.8\u00a0% to 74.9\u00a0%"} {
		if !strings.Contains(said, word) {
			t.Errorf("the chart does not say %q", word)
		}
	}
}

// TestNamesOfCurvesStandApart: eight that end at one place.
func TestNamesOfCurvesStandApart(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for _, end := range []float64{0.001, 0.5, 1} {
		list := make([]Series, space.MaxPendulums)
		for k := range list {
			list[k] = Series{"pendulum " + strconv.Itoa(k), []float64{1, end * (1 + 0.01*random.Float64())}}
		}
		var ys []float64
		for _, e := range elements(t, Amplitudes([]float64{0, 9}, list, ChartStyle{})) {
			if e.name == "text" && strings.HasPrefix(e.text, "pendulum") {
				ys = append(ys, e.number(t, "y"))
			}
		}
		if len(ys) != len(list) {
			t.Fatalf("%d names of %d", len(ys), len(list))
		}
		for i, y := range ys {
			if y < 0 || y > chartHeight || i > 0 && y-ys[i-1] < chartText {
				t.Errorf("ending at %v: a name at %v, the one before at %v", end, y, ys[max(i-1, 0)])
			}
		}
	}
}

func TestNamesOfCurvesFitThePicture(t *testing.T) {
	for name, picture := range charts(5, strings.Repeat("W", 60), "wwwwwwwwwwwwwwww", "מטוטלת גדולה מאוד") {
		for _, e := range elements(t, picture) {
			if e.name == "text" && e.attributes["text-anchor"] == "" {
				if right := e.number(t, "x") + lineWidth(strings.TrimSpace(e.text), false)*chartText; right > chartWidth+chartText {
					t.Errorf("%s: %q ends at %v of %v", name, e.text, right, chartWidth)
				}
			}
		}
	}
}

func TestChartsOfNothing(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, at := range map[string][]float64{"nothing": nil, "one": {2}, "no number": {nan, inf}, "level": {2, 2, 2}, "noughts": {0, 0}, "short": {1}, "huge": {1e300, -1e300}} {
		for _, time := range [][]float64{nil, {0}, {0, 10, 20}, {nan, inf}, {5, 5}} {
			for kind, picture := range [][]byte{
				Shares(time, []Series{{"a", at}, {"b", at}}, ChartStyle{}), Shares(time, nil, ChartStyle{}),
				Amplitudes(time, []Series{{"a", at}}, ChartStyle{}), Kept(time, at, 2, 0.005, ChartStyle{}), Kept(time, at, 0, 0, ChartStyle{}),
			} {
				elements(t, picture)
				if text := string(picture); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
					t.Errorf("%s over %v, chart %d: NaN or Inf in the picture", name, time, kind)
				}
			}
		}
	}
}

func TestAGapBreaksTheCurve(t *testing.T) {
	picture := Kept([]float64{0, 1, 2, 3, 4}, []float64{2, 2.001, math.NaN(), 2.002, 2.001}, 2, 0.005, ChartStyle{})
	for _, e := range elements(t, picture) {
		if e.name == "path" && strings.Count(e.attributes["d"], "M") != 2 {
			t.Errorf("drawn as %q", e.attributes["d"])
		}
	}
}

func TestChartNamesAreTextAndNothingElse(t *testing.T) {
	for name, picture := range charts(5, sample.ScriptName, sample.QuoteName, sample.RightToLeftName) {
		for _, e := range elements(t, picture) {
			if e.name == "script" || e.attributes["onload"] != "" {
				t.Errorf("%s: %s came out of a name", name, e.name)
			}
		}
	}
}

func TestTicks(t *testing.T) {
	for _, c := range []struct {
		low, high, step float64
		want            []float64
	}{{0, 240, 60, []float64{0, 60, 120, 180, 240}}, {1.99, 2.01, 0.01, []float64{1.99, 2, 2.01}}, {-0.5, 0.5, 1, []float64{0}}} {
		got := ticks(c.low, c.high, c.step)
		if len(got) != len(c.want) {
			t.Fatalf("%v: %v, want %v", c, got, c.want)
		}
		for i := range got {
			if math.Abs(got[i]-c.want[i]) > 1e-12 || math.Signbit(got[i]) {
				t.Errorf("%v: %v, want %v", c, got, c.want)
			}
		}
	}
	for span, want := range map[float64]float64{240: 60, 300: 60, 60: 15, 8: 2, 4000: 1200} {
		if got := timeStep(span); got != want {
			t.Errorf("%v s in steps of %v, want %v", span, got, want)
		}
	}
}

func TestThinnedKeepsToTheChain(t *testing.T) {
	points := make([]space.Vec, 2000)
	for i := range points {
		points[i] = space.Vec{X: 0.05 * float64(i), Y: 20 * math.Sin(0.01*float64(i))}
	}
	kept := thinned(points, 0.05)
	if len(kept) > 200 || kept[0] != points[0] || kept[len(kept)-1] != points[1999] {
		t.Fatalf("%d points stay", len(kept))
	}
	k := 0
	for _, p := range points {
		for p.X > kept[k+1].X {
			k++
		}
		if d := segmentDistance(p, kept[k], kept[k+1]); d > 0.05 {
			t.Fatalf("%v is %v off", p, d)
		}
	}
}
