package search

import (
	"bytes"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"
)

// written is the state of a real task: the second epoch of smallPlan, in the
// cloud or not.
func written(t testing.TB, task Task) []byte {
	m := newMemory()
	if err := Run(t.Context(), mixed(4), smallPlan(8), m, 2, nil); err != nil {
		t.Fatal(err)
	}
	return m.states[task]
}

var stateTask = Task{2, 1}

func TestStateRoundTrip(t *testing.T) {
	data := written(t, stateTask)
	s, err := decodeState(data, smallPlan(8), stateTask, 6)
	if err != nil {
		t.Fatal(err)
	}
	again, err := encodeState(s)
	if err != nil || !bytes.Equal(again, data) {
		t.Fatalf("the bytes differ: %v", err)
	}
	twice, err := decodeState(again, smallPlan(8), stateTask, 6)
	if err != nil || !reflect.DeepEqual(twice, s) {
		t.Fatalf("the states differ: %v", err)
	}
	if len(s.Population) == 0 || len(s.Elites) == 0 || len(s.Past) == 0 || len(s.Marks) == 0 {
		t.Errorf("a state without %d breeders, %d elites, %d replaced parents, %d marks proves little",
			len(s.Population), len(s.Elites), len(s.Past), len(s.Marks))
	}
}

// Numbers come back exactly, the smallest and the largest too.
func TestStateIsExact(t *testing.T) {
	s := newState()
	s.Plan, s.Task = smallPlan(1), Task{0, 0}
	s.Summary.Evaluations = s.Plan.Budget(s.Task)
	point := []float64{math.SmallestNonzeroFloat64, 1.0 / 3, math.Nextafter(1, 0), 0, 1}
	s.Population = []candidate{{Point: point, ID: 1 << 52, Score: worstScore}}
	data, err := encodeState(s)
	if err != nil {
		t.Fatal(err)
	}
	got, err := decodeState(data, s.Plan, s.Task, 5)
	if err != nil || !reflect.DeepEqual(got.Population, s.Population) {
		t.Errorf("%v, %v", got, err)
	}
}

// Beginning again keeps what was found and forgets the rest.
func TestRestart(t *testing.T) {
	s, err := decodeState(written(t, stateTask), smallPlan(8), stateTask, 6)
	if err != nil {
		t.Fatal(err)
	}
	want := newState()
	want.Plan, want.Task, want.Summary, want.Starts, want.Elites = s.Plan, s.Task, s.Summary, s.Starts, s.Elites
	s.restart()
	if !reflect.DeepEqual(s, want) {
		t.Errorf("after a restart: %+v", s)
	}
}

// A flipped bit or a cut anywhere is found out.
func TestStateDamaged(t *testing.T) {
	data := written(t, stateTask)
	for at := range data {
		bad := bytes.Clone(data)
		bad[at] ^= 1 << (at % 8)
		if _, err := decodeState(bad, smallPlan(8), stateTask, 6); !errors.Is(err, errDamaged) {
			t.Fatalf("bit %d of byte %d flipped: %v", at%8, at, err)
		}
	}
	for end := 0; end < len(data); end += 1 + end/10 {
		if _, err := decodeState(data[:end], smallPlan(8), stateTask, 6); !errors.Is(err, errDamaged) {
			t.Fatalf("cut at %d: %v", end, err)
		}
	}
}

// What is well sealed may still make no sense.
func TestStateNonsense(t *testing.T) {
	body := func(data []byte) string { return string(data[bytes.IndexByte(data, '\n')+1:]) }
	good := body(written(t, stateTask))
	for _, c := range []struct{ old, new, want string }{
		{`"seed":8`, `"seed":9`, "belongs to"},
		{`"Island":1`, `"Island":0`, "belongs to"},
		{`"round":`, `"round":-`, "rounds"},
		{`"round":`, `"round":9223372036854775`, "rounds"},
		{`"summary":{"evaluations":`, `"summary":{"evaluations":1`, "another number"},
		{`"f":[`, `"f":[0.5,`, "history"},
		{`"cr":[`, `"cr":[-`, "history"},
		{`"next":`, `"next":9`, "history"},
		{`"past":[[`, `"past":[[0.5,`, "parent"},
		{`"point":[`, `"point":[-`, "candidate"},
		{`"score":`, `"score":1e301,"score2":`, "unknown field"},
		{`"Meets":`, `"Meets":7`, "best candidate"},
		{`"plan":`, `"plane":`, "unknown field"},
		{`{`, ``, "json"},
		{good, good + "}", "more follows"},
		{good, `null`, "belongs to"},
		{good, good + good, "more follows"},
	} {
		if !strings.Contains(good, c.old) {
			t.Fatalf("the state has no %s", c.old)
		}
		bad := sealState([]byte(strings.Replace(good, c.old, c.new, 1)))
		_, err := decodeState(bad, smallPlan(8), stateTask, 6)
		if !errors.Is(err, errDamaged) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s for %s: %v, want %q", c.new[:min(len(c.new), 30)], c.old[:min(len(c.old), 30)], err, c.want)
		}
	}
	if _, err := decodeState(sealState([]byte(good)), smallPlan(8), stateTask, 5); !errors.Is(err, errDamaged) {
		t.Errorf("a state of another rig: %v", err)
	}
}

// Whatever bytes lie where a state should be, reading them fails or gives a
// state that the next epoch can go on from.
func FuzzState(f *testing.F) {
	data := written(f, stateTask)
	body := data[bytes.IndexByte(data, '\n')+1:]
	f.Add(body)
	f.Add([]byte(`{"plan":{"seed":8,"evaluations":10801,"islands":3,"epochs":4},"task":{"Epoch":2,"Island":1}}`))
	f.Add([]byte(`null`))
	f.Fuzz(func(t *testing.T, body []byte) {
		if _, err := decodeState(body, smallPlan(8), stateTask, 6); err == nil {
			t.Fatal("a state without its mark is read")
		}
		m := newMemory()
		m.rows[stateTask] = 1
		m.states[stateTask] = sealState(body)
		s, err := RunTask(t.Context(), mixed(4), smallPlan(8), Task{3, 1}, m)
		if err == nil && s.Evaluations != smallPlan(8).islandBudget(1, 4) {
			t.Fatalf("%+v", s)
		}
	})
}
