package objective

import (
	"fmt"
	"math"
	"slices"
	"testing"
)

// TestResidualSlopes: the whole Jacobian against central differences of the
// residuals through the full program, the change of the sag counted.
func TestResidualSlopes(t *testing.T) {
	for name, rig := range testRigs(t) {
		w := New(rig).NewWorkspace()
		r := w.NewResiduals()
		r.slopes.sag = newSagSlopes(w)
		n, dim := r.Len(), rig.Dim()
		jacobian, residuals := make([]float64, n*dim), make([]float64, n)
		var c comparison
		for _, p := range points(rig, 12) {
			if !w.Score(p).Exists {
				continue
			}
			r.To(residuals)
			if !r.SlopesTo(jacobian) {
				t.Fatal(name)
			}
			for at, u := range rig.Searched() {
				got := make([]float64, n)
				for i := range got {
					got[i] = jacobian[i*dim+at]
				}
				if rig.Unknowns[u].Count() > 0 {
					for i := range got {
						if got[i] != 0 {
							t.Fatalf("%s: slope %g along %s, which has steps", name, got[i], rig.Unknowns[u].Name)
						}
					}
					continue
				}
				x, span := w.Design().Unknowns[u], rig.Unknowns[u].Hi-rig.Unknowns[u].Lo
				want, apart, ok := residualDifferences(w, r, u, x, span)
				if !ok {
					c.corners += n
					continue
				}
				c.compare(t, name+", "+rig.Unknowns[u].Name, got, want, apart, residuals, 1)
				r.slopes.movers[u].MoveTo(x)
				w.workOut()
				w.evaluate()
			}
		}
		if n > 0 {
			c.enough(t, name)
		}
	}
}

// residualDifferences is one column of the Jacobian by differences.
func residualDifferences(w *Workspace, r *Residuals, u int, x, span float64) (list, apart []float64, ok bool) {
	const h = 1e-5
	var f [4][]float64
	var own [4]string
	for i, step := range [...]float64{-h, -h / 2, h / 2, h} {
		r.slopes.movers[u].MoveTo(x + step*span)
		w.workOut()
		w.evaluate()
		f[i], own[i] = make([]float64, r.Len()), fmt.Sprint(w.modes.Own)
		if !r.To(f[i]) || own[i] != own[0] {
			return nil, nil, false
		}
	}
	for k := range f[0] {
		wide, narrow := (f[3][k]-f[0][k])/(2*h), (f[2][k]-f[1][k])/h
		left, right := (f[1][k]-f[0][k])/(h/2), (f[3][k]-f[2][k])/(h/2)
		list = append(list, (4*narrow-wide)/3)
		apart = append(apart, math.Max(math.Abs(narrow-wide), math.Abs(right-left)))
	}
	return list, apart, true
}

// TestSagChangesSlopesLittle: what the Jacobian leaves out by holding the sag is
// 2 % of a row's length or less in nine rows of ten, 0.2 % in the median (measured:
// 0.7 and 0.05 %).
func TestSagChangesSlopesLittle(t *testing.T) {
	rig := loadRig(t, "landing.yaml")
	w := New(rig).NewWorkspace()
	quick, full := w.NewResiduals(), w.NewResiduals()
	full.slopes.sag = newSagSlopes(w)
	n, dim := quick.Len(), rig.Dim()
	a, b := make([]float64, n*dim), make([]float64, n*dim)
	var off []float64
	for _, p := range points(rig, 60) {
		if !w.Score(p).Exists || !quick.SlopesTo(a) || !full.SlopesTo(b) {
			continue
		}
		for i := range n {
			var apart, all float64
			for c := i * dim; c < (i+1)*dim; c++ {
				apart, all = math.Hypot(apart, a[c]-b[c]), math.Hypot(all, b[c])
			}
			if all > 0 {
				off = append(off, apart/all)
			}
		}
	}
	slices.Sort(off)
	median, most := off[len(off)/2], off[len(off)*9/10]
	t.Logf("%d rows: %.3g in the median, nine in ten within %.3g, the worst %.3g", len(off), median, most, off[len(off)-1])
	if median > 0.002 || most > 0.02 {
		t.Errorf("median %g, nine in ten within %g", median, most)
	}
}

func TestResidualsAllocateNothing(t *testing.T) {
	rig := loadRig(t, "four.yaml")
	w := New(rig).NewWorkspace()
	r := w.NewResiduals()
	jacobian, residuals := make([]float64, r.Len()*rig.Dim()), make([]float64, r.Len())
	list := points(rig, 50)
	i := 0
	if n := testing.AllocsPerRun(200, func() {
		w.Score(list[i%len(list)])
		r.To(residuals)
		r.SlopesTo(jacobian)
		i++
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

func BenchmarkResidualSlopes(b *testing.B) {
	rig := loadRig(b, "four.yaml")
	w := New(rig).NewWorkspace()
	r := w.NewResiduals()
	jacobian := make([]float64, r.Len()*rig.Dim())
	w.Score(points(rig, 1)[0])
	b.ReportAllocs()
	for b.Loop() {
		r.SlopesTo(jacobian)
	}
}
