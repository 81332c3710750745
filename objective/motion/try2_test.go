package motion

import (
	"math"
	"math/rand/v2"
	"sort"
	"testing"
	"time"
)

func TestTry2(t *testing.T) {
	mk := &chainMaker{rng: rand.New(rand.NewPCG(1, 2)), targets: []float64{1, 1, 2, 2}, detune: 0.003}
	N := 60
	var rigs []*studied
	for i := 0; i < N; i++ {
		_, s := mk.draw()
		rigs = append(rigs, s)
	}
	run := func(path Path) ([]float64, time.Duration) {
		var out []float64
		var w Workspace
		w.Tolerance = 1e-10
		t0 := time.Now()
		for _, s := range rigs {
			var b Bands
			s.modes.BandsTo(&b, s.ratios)
			var m Measures
			w.MeasureTo(&m, &s.d, &b, &s.from, 240, path)
			out = append(out, m.Drift.Value)
		}
		return out, time.Since(t0) / time.Duration(N)
	}
	truth, dt := run(Accurate)
	t.Log("accurate", dt)
	srt := append([]float64(nil), truth...)
	sort.Float64s(srt)
	t.Log("drift quartiles", srt[N/4], srt[N/2], srt[3*N/4])
	for _, lin := range []bool{false, true} {
		expLin = lin
		for _, c := range [][4]int{{3, 2, 24, 2}, {3, 3, 24, 2}, {4, 3, 24, 2}, {4, 3, 32, 2}, {4, 4, 24, 2}, {4, 4, 24, 1}, {4, 4, 20, 2}, {4, 4, 28, 2}, {4, 4, 32, 2}, {5, 4, 24, 2}, {5, 4, 32, 2}, {5, 5, 24, 2}, {5, 5, 32, 2}, {6, 5, 32, 2}, {6, 6, 32, 2}} {
			expP, expCorr, expSteps, expStride = c[0], c[1], c[2], c[3]
			v, dt := run(Fast)
			var e []float64
			for i := range v {
				e = append(e, math.Abs(math.Log(v[i]/truth[i])))
			}
			sort.Float64s(e)
			t.Logf("lin %v P %d corr %d steps %d stride %d: median %.4f 90%% %.4f max %.3f  %v", lin, c[0], c[1], c[2], c[3], e[N/2], e[N*9/10], e[N-1], dt)
		}
	}
}
