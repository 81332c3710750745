package space

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
)

// four is the rig for search and speed figures.
const four = "../testdata/rigs/four.yaml"

func loadFour(t testing.TB) *Rig {
	t.Helper()
	r, err := Load(four)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestPointBounds: any point decodes to single-precision values inside the
// ranges, stepped ones on a step.
func TestPointBounds(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	odd := []float64{0, 1, -1, 2, math.Inf(1), math.Inf(-1), math.NaN(), math.Nextafter(1, 0), math.SmallestNonzeroFloat64}
	for _, r := range []*Rig{loadFour(t), mustRead(t, everything), mustRead(t, string(starter))} {
		d := r.NewDecoder()
		point := make([]float64, r.Dim())
		for range 2000 {
			for k := range point {
				if point[k] = rnd.Float64(); rnd.IntN(4) == 0 {
					point[k] = odd[rnd.IntN(len(odd))]
				}
			}
			d.Point(point)
			for i, v := range d.Design.Unknowns {
				checkValue(t, &r.Unknowns[i], v)
			}
		}
	}
}

func checkValue(t *testing.T, u *Unknown, v float64) {
	t.Helper()
	if v != float64(float32(v)) {
		t.Fatalf("%s: %v is no single-precision value", u.Name, v)
	}
	switch u.Kind {
	case Continuous, WorkedOut:
		if v < u.Lo || v > u.Hi {
			t.Fatalf("%s: %v is outside %v to %v", u.Name, v, u.Lo, u.Hi)
		}
	case Stepped:
		k := math.Round((v - u.Lo) / u.Step)
		if v != float64(float32(u.Lo+k*u.Step)) || k < 0 || int(k) >= u.Count() {
			t.Fatalf("%s: %v is no step", u.Name, v)
		}
	case Choice:
		if v != math.Trunc(v) || v < 0 || int(v) >= len(u.Options) {
			t.Fatalf("%s: %v is no option", u.Name, v)
		}
	}
}

// TestPointFormula follows the stated formulas at known points.
func TestPointFormula(t *testing.T) {
	r := mustRead(t, everything)
	d := r.NewDecoder()
	d.Point([]float64{0.25, 0.5, 0.5, 0.49, 1})
	checkFigures(t, []figure{
		{"arm", d.Design.Unknowns[0], 0.35},
		{"discs", d.Design.Unknowns[1], 4 + math.Floor(0.5*21)},
		{"metal", d.Design.Unknowns[2], 1},
		{"thick", d.Design.Unknowns[3], 0},
		{"rise", d.Design.Unknowns[4], 0.06},
		{"trim", d.Design.Unknowns[5], 2},   // worked out: the middle
		{"load", d.Design.Unknowns[6], 2.5}, // worked out: what `is:` says
	})
}

// TestEveryStepIsReached: equal shares of the unit interval for every value.
func TestEveryStepIsReached(t *testing.T) {
	r := mustRead(t, everything)
	d := r.NewDecoder()
	const samples = 21 * 2 * 100
	count := map[float64]int{}
	for i := range samples {
		d.Point([]float64{0, (float64(i) + 0.5) / samples, 0, 0, 0})
		count[d.Design.Unknowns[1]]++
	}
	if len(count) != 21 {
		t.Fatalf("%d values, want 21", len(count))
	}
	for v, n := range count {
		if n != samples/21 {
			t.Errorf("%v came %d times, want %d", v, n, samples/21)
		}
	}
}

// TestValuesOfPoint: the values of a point give the same design again, and so
// does the point of those values.
func TestValuesOfPoint(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	for _, r := range []*Rig{loadFour(t), mustRead(t, everything), mustRead(t, string(starter))} {
		d, e := r.NewDecoder(), r.NewDecoder()
		point := make([]float64, r.Dim())
		for range 500 {
			for k := range point {
				point[k] = rnd.Float64()
			}
			d.Point(point)
			e.Values(d.Design.Unknowns)
			if !reflect.DeepEqual(d.Design, e.Design) {
				t.Fatalf("point %v\n%+v\nvalues\n%+v", point, d.Design, e.Design)
			}
			back := r.PointOf(d.Design.Unknowns)
			e.Point(back)
			for i := range e.Design.Unknowns {
				u := &r.Unknowns[i]
				// a continuous value may move by the rounding of t, a share of the range
				if slack := 1e-15 * (u.Hi - u.Lo) * 4; math.Abs(e.Design.Unknowns[i]-d.Design.Unknowns[i]) > slack+1e-7*math.Abs(d.Design.Unknowns[i]) {
					t.Fatalf("%s: %v became %v", u.Name, d.Design.Unknowns[i], e.Design.Unknowns[i])
				}
			}
		}
	}
}

func TestPointOfCells(t *testing.T) {
	r := mustRead(t, everything)
	got := r.PointOf([]float64{0.35, 14, 1, 0, -0.1, 0, 0})
	want := []float64{0.25, 10.5 / 21, 0.75, 0.25, 0}
	for k := range want {
		if !near(got[k], want[k]) {
			t.Errorf("coordinate %d is %v, want %v", k, got[k], want[k])
		}
	}
	for k, v := range r.PointOf([]float64{9, 99, 9, -9, 9, 0, 0}) {
		if end := []float64{1, 20.5 / 21, 0.75, 0.25, 1}[k]; !near(v, end) {
			t.Errorf("coordinate %d is %v, want %v", k, v, end)
		}
	}
}

// TestValuesOutside: values are not clamped, but options are.
func TestValuesOutside(t *testing.T) {
	r := mustRead(t, everything)
	d := r.NewDecoder()
	d.Values([]float64{2, 100, 7, -3, math.NaN(), 9, 9})
	checkFigures(t, []figure{{"arm", d.Design.Pendulums[1].Bars[0].From.X, -2}, {"discs", d.Design.Pendulums[1].Drums[0].Charges[0].Count, 100},
		{"metal", d.Design.Unknowns[2], 1}, {"thick", d.Design.Unknowns[3], 0}})
	if d.Finite() {
		t.Error("a value that is no number has a finite design")
	}
	d.Values(r.StartValues())
	if !d.Finite() {
		t.Error("the start values have no finite design")
	}
}

// TestDecodersAreApart: a decoder writes to its own design only.
func TestDecodersAreApart(t *testing.T) {
	r := mustRead(t, everything)
	template := r.template.clone()
	a, b := r.NewDecoder(), r.NewDecoder()
	before := b.Design.clone()
	a.Point([]float64{1, 1, 1, 1, 1})
	if !reflect.DeepEqual(b.Design, before) || !reflect.DeepEqual(r.template, template) {
		t.Error("one decoder changed another or the rig")
	}
	if reflect.DeepEqual(a.Design, before) {
		t.Error("the point changed nothing")
	}
}

// TestWalkIsWhole compares the hand-written walk with reflection: every number
// of a design but its unknowns, and every material.
func TestWalkIsWhole(t *testing.T) {
	d := mustRead(t, everything).template
	numbers, materials := map[*float64]bool{}, map[*int]bool{}
	eachNumber(&d, func(p *float64) { numbers[p] = true })
	eachMaterial(&d, func(p *int) { materials[p] = true })
	found := 0
	var visit func(v reflect.Value, name string)
	visit = func(v reflect.Value, name string) {
		switch v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				visit(v.Field(i), v.Type().Field(i).Name)
			}
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				visit(v.Index(i), name)
			}
		case reflect.Float64:
			if name == "Unknowns" {
				return
			}
			found++
			if !numbers[v.Addr().Interface().(*float64)] {
				t.Errorf("the walk leaves out a %s", name)
			}
		case reflect.Int:
			if name == "Of" && !materials[v.Addr().Interface().(*int)] {
				t.Error("the walk leaves out a material")
			}
		}
	}
	visit(reflect.ValueOf(&d).Elem(), "Design")
	if found != len(numbers) {
		t.Errorf("%d numbers, the walk has %d", found, len(numbers))
	}
}

// TestCloneIsDeep: no slice of a clone shares memory with the original.
func TestCloneIsDeep(t *testing.T) {
	d := mustRead(t, everything).template
	c := d.clone()
	if !reflect.DeepEqual(c, d) {
		t.Fatal("a clone differs")
	}
	shared := map[*float64]bool{}
	eachNumber(&d, func(p *float64) { shared[p] = true })
	eachNumber(&c, func(p *float64) {
		if shared[p] {
			t.Fatal("a clone shares a number")
		}
	})
}

func TestNoAllocation(t *testing.T) {
	for _, r := range []*Rig{loadFour(t), mustRead(t, everything)} {
		d := r.NewDecoder()
		values := r.StartValues()
		point := r.PointOf(values)
		if n := testing.AllocsPerRun(100, func() { d.Point(point); d.Values(values) }); n != 0 {
			t.Errorf("%s: %v allocations", r.Name, n)
		}
	}
}

// TestRangesInSinglePrecision: ends that single precision does not hold.
func TestRangesInSinglePrecision(t *testing.T) {
	r := mustRead(t, "unknowns: {a: 0.1 to 0.3 m, b: 1 to 1.000001 m, c: 0.1 to 0.7 mm by 0.1}\n"+smallest)
	d := r.NewDecoder()
	for _, x := range []float64{0, 1} {
		d.Point([]float64{x, x, x})
		for i := range 2 {
			checkValue(t, &r.Unknowns[i], d.Design.Unknowns[i])
		}
	}
	if got := d.Design.Unknowns[2]; got != float64(float32(0.0007)) {
		t.Errorf("the last step is %v", got)
	}
}

func BenchmarkPoint(b *testing.B) {
	r := loadFour(b)
	d := r.NewDecoder()
	point := r.PointOf(r.StartValues())
	b.ReportAllocs()
	for b.Loop() {
		d.Point(point)
	}
}

func BenchmarkRead(b *testing.B) {
	for b.Loop() {
		mustRead(b, everything)
	}
}
