package space

import (
	"os"
	"path/filepath"
	"reflect"
	"testing"
)

// FuzzRead: no text makes the reader panic, and what it accepts can be
// decoded, filled in and read again as the same design.
func FuzzRead(f *testing.F) {
	f.Add([]byte(everything))
	f.Add([]byte(smallest))
	f.Add(starter)
	for _, pattern := range []string{"../testdata/rigs/*.yaml", "../testdata/bad/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			f.Fatal(err)
		}
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	for _, filling := range fillings {
		f.Add([]byte(withRig(filling.before)))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := Read("fuzz.yaml", data)
		if err != nil {
			_ = err.Error()
			return
		}
		checkRoundTrip(t, r)
	})
}

// checkRoundTrip fills a rig in at the middle of the cube and reads it again.
func checkRoundTrip(t *testing.T, r *Rig) {
	d := r.NewDecoder()
	point := make([]float64, r.Dim())
	for k := range point {
		point[k] = 0.5
	}
	d.Point(point)
	_ = r.Doubts()
	text := r.FillIn(d.Design.Unknowns)
	again, err := Read(r.File, text)
	if err != nil {
		t.Fatalf("filled in as\n%s\n%v", text, err)
	}
	e := again.NewDecoder()
	if !d.Finite() {
		return // NaN is not equal to itself
	}
	if !reflect.DeepEqual(d.Design, e.Design) {
		t.Fatalf("filled in as\n%s\n%+v\nwas\n%+v", text, e.Design, d.Design)
	}
}
