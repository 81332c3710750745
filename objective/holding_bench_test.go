package objective

import (
	"os"
	"testing"

	"evenswing/space"
)

// holdingOf is a workspace with a design of a demonstration rig, let swing.
func holdingOf(b testing.TB, file string, values []float64) *Workspace {
	b.Helper()
	text, err := os.ReadFile("../testdata/rigs/" + file)
	if err != nil {
		b.Fatal(err)
	}
	rig, err := space.Read(file, text)
	if err != nil {
		b.Fatal(err)
	}
	w := New(rig).NewWorkspace()
	if values == nil {
		values = rig.StartValues()
	}
	w.ScoreValues(values)
	w.SwingUp()
	return w
}

// BenchmarkHolding takes apart what WorkHolding and WorkMap cost a design of
// three pendulums, of which the averaged motion doubts every release.
func BenchmarkHolding(b *testing.B) {
	w := holdingOf(b, "landing.yaml", nil)
	w.WorkHolding()
	h := w.swung.holder
	afresh := func() {
		h.Holding = Holding{Allowed: DefaultDrift}
		h.ready(w, w.Design())
	}
	b.Run("map", func(b *testing.B) {
		for b.Loop() {
			afresh()
			h.draw(w, 0, 1)
		}
		b.ReportMetric(float64(h.Map.Followed), "followed")
	})
	b.Run("largest", func(b *testing.B) {
		for b.Loop() {
			afresh()
			h.stretch(w)
		}
		b.ReportMetric(float64(h.Largest.Motions), "motions")
	})
	b.Run("builds", func(b *testing.B) {
		for b.Loop() {
			afresh()
			h.buildAll(w, w.Design())
		}
		b.ReportMetric(float64(h.Built.Followed), "followed")
	})
}
