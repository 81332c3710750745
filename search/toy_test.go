package search

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sync"
	"testing"

	"evenswing/objective"
	"evenswing/space"
)

// toy is a problem whose answer is known: f of the unit cube is to be at most
// limit.
type toy struct {
	genes []space.Gene
	f     func(point []float64) float64
	limit float64
}

func (p *toy) Genes() []space.Gene { return p.genes }
func (p *toy) NewScorer() Scorer   { return &toyScorer{p, make([]float64, len(p.genes)), 0} }

type toyScorer struct {
	*toy
	point []float64
	score float64
}

func (s *toyScorer) Score(point []float64) objective.Verdict {
	copy(s.point, point)
	s.score = s.f(point)
	v := objective.Verdict{Score: s.score, Exists: true, Meets: objective.No, Worst: s.score / s.limit}
	if s.score <= s.limit {
		v.Meets = objective.Yes
	}
	return v
}

func (s *toyScorer) RowTo(values []float32, _ []bool) {
	for i, t := range s.point {
		values[i] = float32(t)
	}
}

// continuous is n genes without steps.
func continuous(n int) []space.Gene {
	genes := make([]space.Gene, n)
	for i := range genes {
		genes[i].Unknown = i
	}
	return genes
}

// mixed has every kind of gene: the least value is 0, at the third of seven
// steps, the second of three words and 0.7 in every continuous one.
func mixed(n int) *toy {
	genes := append(continuous(n), space.Gene{Unknown: n, Count: 7, Ordered: true}, space.Gene{Unknown: n + 1, Count: 3})
	return &toy{genes, func(x []float64) float64 {
		sum := 0.0
		for _, t := range x[:n] {
			sum += (t - 0.7) * (t - 0.7)
		}
		step, word := int(x[n]*7), int(x[n+1]*3)
		return sum + 0.1*math.Abs(float64(step-2)) + 0.3*math.Abs(float64((word+2)%3))
	}, 1e-6}
}

// memory is a Store in memory. It can fail and cancel at will.
type memory struct {
	sync.Mutex
	states   map[Task][]byte
	rows     map[Task]uint64 // hash of all rows of a finished task
	counts   map[Task]int
	open     map[Task]bool
	discards int
	see      func(row *Row) error // is asked at every row
	fail     func(call string, t Task) error
}

func newMemory() *memory {
	return &memory{
		states: map[Task][]byte{}, rows: map[Task]uint64{}, counts: map[Task]int{}, open: map[Task]bool{},
		see: func(*Row) error { return nil }, fail: func(string, Task) error { return nil },
	}
}

func (m *memory) Finished(t Task) (bool, error) {
	m.Lock()
	defer m.Unlock()
	_, done := m.rows[t]
	return done, m.fail("Finished", t)
}

func (m *memory) ReadState(t Task) ([]byte, error) {
	m.Lock()
	defer m.Unlock()
	data, ok := m.states[t]
	if !ok {
		return nil, errors.New("no state")
	}
	return data, m.fail("ReadState", t)
}

func (m *memory) WriteState(t Task, data []byte) error {
	m.Lock()
	defer m.Unlock()
	if err := m.fail("WriteState", t); err != nil {
		return err
	}
	m.states[t] = slices.Clone(data)
	return nil
}

func (m *memory) RemoveState(t Task) error {
	m.Lock()
	defer m.Unlock()
	delete(m.states, t)
	return m.fail("RemoveState", t)
}

func (m *memory) Begin(t Task) (Recorder, error) {
	m.Lock()
	defer m.Unlock()
	if m.open[t] {
		return nil, fmt.Errorf("%v is open twice", t)
	}
	m.open[t] = true
	return &hasher{memory: m, task: t, hash: 1}, m.fail("Begin", t)
}

// hasher is a Recorder that keeps a hash of all it sees.
type hasher struct {
	memory  *memory
	task    Task
	hash    uint64
	count   int
	next    int          // number of the next row
	values  [256]float32 // more than any rig of testdata has columns
	missing [256]bool
}

func (h *hasher) Record(row *Row) error {
	_, n := RowTask(row.ID)
	_, gaps := row.Scorer.(Smooth) // derivatives count as evaluations without a row
	if row.ID != RowID(h.task, n) || row.Task != h.task || n < h.next || n > h.next && !gaps {
		return fmt.Errorf("row %d has the id %d, want %d", h.count, row.ID, RowID(h.task, h.next))
	}
	h.count++
	h.next = n + 1
	row.Scorer.RowTo(h.values[:], h.missing[:])
	h.add(uint64(row.ID), uint64(row.Stage), uint64(row.Parents[0]), uint64(row.Parents[1]), math.Float64bits(row.Verdict.Score))
	for _, v := range h.values {
		h.add(uint64(math.Float32bits(v)))
	}
	return h.memory.see(row)
}

func (h *hasher) Finish() error {
	h.memory.Lock()
	defer h.memory.Unlock()
	if err := h.memory.fail("Finish", h.task); err != nil {
		return err
	}
	h.memory.open[h.task] = false
	h.memory.rows[h.task] = h.hash
	h.memory.counts[h.task] = h.count
	return nil
}

func (h *hasher) Discard() {
	h.memory.Lock()
	defer h.memory.Unlock()
	h.memory.open[h.task] = false
	h.memory.discards++
}

func (h *hasher) add(values ...uint64) {
	for _, v := range values {
		h.hash = scramble(h.hash ^ v)
	}
}

// quiet is a memory that keeps no rows.
type quiet struct{ *memory }

func (quiet) Begin(Task) (Recorder, error) { return silent{}, nil }

// same fails unless two stores hold the same finished rows and states.
func same(t *testing.T, what string, got, want *memory) {
	t.Helper()
	if len(got.rows) != len(want.rows) || len(got.states) != len(want.states) {
		t.Fatalf("%s: %d tasks and %d states, want %d and %d", what, len(got.rows), len(got.states), len(want.rows), len(want.states))
	}
	for task, h := range want.rows {
		if got.rows[task] != h || got.counts[task] != want.counts[task] {
			t.Fatalf("%s: the rows of %v differ", what, task)
		}
	}
	for task, s := range want.states {
		if string(got.states[task]) != string(s) {
			t.Fatalf("%s: the state of %v differs", what, task)
		}
	}
}
