package workshop

import "testing"

// BenchmarkSheet is the sheet of one design of the demo rig, motion followed.
func BenchmarkSheet(b *testing.B) {
	_, w := sheetOf(b, rigText(b, "landing.yaml"))
	w.SwingUp()
	b.ReportAllocs()
	for b.Loop() {
		New(w.Evaluator(), w, "b-")
	}
}
