package build

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"evenswing/objective/motion"
	"evenswing/space"
)

// numbers are the places of all float64 under v.
func numbers(v reflect.Value, list []reflect.Value) []reflect.Value {
	switch v.Kind() {
	case reflect.Float64:
		list = append(list, v)
	case reflect.Struct:
		for i := range v.NumField() {
			list = numbers(v.Field(i), list)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			list = numbers(v.Index(i), list)
		}
	}
	return list
}

// everything is all that a Workspace tells.
type everything struct {
	Pivots   [motion.Max]Pivot
	Strength Strength
	Balance  [motion.Max]Balance
	Clear    Clearance
	Room     RoomGap
	Sag      [motion.Max]Sag
	Lowered  [motion.Max]motion.Body
	Spring   [motion.Max]float64
	Bracket  [motion.Max]float64
}

func (s *standing) everything(fit *Fittings) *everything {
	e := &everything{}
	s.w.PivotsTo(&e.Pivots)
	s.w.StrengthTo(&e.Strength, fit)
	s.w.BalanceTo(&e.Balance)
	s.w.ClearanceTo(&e.Clear)
	floor := space.Optional{Value: -1, Given: true}
	s.w.RoomTo(&e.Room, &Room{Floor: floor, Right: floor})
	s.w.SagTo(&e.Sag)
	s.w.LowerTo(&e.Lowered)
	s.w.SpringTo(&e.Spring)
	BracketTo(&e.Bracket, &s.rest, &s.modes, 1e6)
	return e
}

// TestBadNumbers: designs with one or two numbers put out of joint hang or are
// refused; what is told of those that hang is finite.
func TestBadNumbers(t *testing.T) {
	bad := []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -1, 1e300, 1e-300, -1e-9, 1e12, 7}
	hung, refused := 0, 0
	count := 1500
	if testing.Short() {
		count = 300
	}
	for k := range count {
		r := rand.New(rand.NewPCG(uint64(k), 3))
		s := hang(t, randomRig(r, 1+k%4))
		all := numbers(reflect.ValueOf(s.design).Elem(), nil)
		touched := ""
		for range 1 + k%2 {
			at := r.IntN(len(all))
			x := bad[r.IntN(len(bad))]
			all[at].SetFloat(x)
			touched += fmt.Sprintf(" number %d is %g", at, x)
		}
		for i := range s.design.Pendulums {
			s.sum(i).BodyTo(&s.bodies[i], s.design.Pendulums[i].Pivot)
		}
		if !s.forest.RestTo(&s.rest, &s.bodies, s.design.Gravity) || !s.forest.ModesTo(&s.modes, &s.rest) {
			refused++
			continue
		}
		if !s.w.Hang(s.design, &s.bodies, &s.rest, &s.modes) {
			refused++
			continue
		}
		hung++
		fit := &Fittings{Bracket: Bracket{Deep: r.Float64() - 0.3, Fixings: 4, Top: 2, Side: 500, Pull: 900}}
		fit.Seats[0] = Seat{Thick: 0.004, Long: r.Float64() - 0.5, Strength: 7e6}
		for _, v := range numbers(reflect.ValueOf(s.everything(fit)).Elem(), nil) {
			if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("rig %d,%s: a figure is %g\n%+v", k, touched, x, s.everything(fit))
			}
		}
	}
	if hung < count/10 || refused < count/10 {
		t.Errorf("%d hung, %d refused", hung, refused)
	}
}

// TestSameBytes: the same design gives the same figures, whatever the Workspace
// held before.
func TestSameBytes(t *testing.T) {
	s := hang(t, randomRig(rand.New(rand.NewPCG(4, 7)), 4))
	first := *s.everything(nil)
	other := s.model.NewWorkspace()
	if !other.Hang(s.design, &s.bodies, &s.rest, &s.modes) {
		t.Fatal("does not hang")
	}
	s.everything(nil)
	if again := *s.everything(nil); again != first {
		t.Error("twice differs")
	}
	s.w = other
	if fresh := *s.everything(nil); fresh != first {
		t.Error("a fresh Workspace differs")
	}
}

// TestMirror: a rig seen in a mirror has the same strength, balance, sag and
// clearance.
func TestMirror(t *testing.T) {
	s := hang(t, fmt.Sprintf(near, 3.0, 2.5, 2.0))
	before := s.everything(nil)
	for i := range s.design.Pendulums {
		p := &s.design.Pendulums[i]
		p.Pivot.X = -p.Pivot.X
		for k := range p.Bars {
			p.Bars[k].From.X, p.Bars[k].To.X = -p.Bars[k].From.X, -p.Bars[k].To.X
		}
		for k := range p.Blocks {
			p.Blocks[k].At.X, p.Blocks[k].Turned = -p.Blocks[k].At.X, -p.Blocks[k].Turned
		}
		for k := range p.Lumps {
			p.Lumps[k].At.X = -p.Lumps[k].At.X
		}
	}
	s.again(t)
	after := s.everything(nil)
	for i := range s.design.Pendulums {
		agree(t, "strength", after.Strength.Pendulums[i].Value, before.Strength.Pendulums[i].Value, 1e-9)
		agree(t, "factor", after.Pivots[i].Factor, before.Pivots[i].Factor, 1e-12)
		agree(t, "sag", after.Sag[i].Most, before.Sag[i].Most, 1e-9)
	}
	if math.Abs(after.Clear.Gap-before.Clear.Gap) > gapTolerance {
		t.Errorf("gap %g, mirrored %g", before.Clear.Gap, after.Clear.Gap)
	}
}
