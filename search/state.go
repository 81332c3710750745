package search

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"

	"evenswing/objective"
)

// state is what an island knows between two epochs.
type state struct {
	Plan       Plan        `json:"plan"`
	Task       Task        `json:"task"` // that wrote it
	Summary    Summary     `json:"summary"`
	Round      int         `json:"round"` // of this start
	Starts     int         `json:"starts"`
	Settled    bool        `json:"settled"`   // this start went down by least squares
	Bred       bool        `json:"bred"`      // the round's breeding is done
	Cloud      bool        `json:"cloud"`     // the last part has begun
	Averaging  bool        `json:"averaging"` // the averaged motion counts
	Turn       int         `json:"turn"`      // of the population: the next to go down with it
	Marks      []float64   `json:"marks"`     // best score after each round of this start
	History    history     `json:"history"`
	Population []candidate `json:"population"` // best first
	Past       [][]float64 `json:"past"`       // replaced parents
	Elites     []candidate `json:"elites"`     // best first
}

func newState() *state {
	return &state{Summary: newSummary(), History: newHistory()}
}

// restart forgets the population and all that belongs to it.
func (s *state) restart() {
	s.Round, s.Bred, s.Cloud, s.Settled = 0, false, false, false
	s.Marks, s.Population, s.Past = nil, nil, nil
	s.History = newHistory()
}

// stateMark begins a state; its number changes with the meaning of the rest.
const stateMark = "evenswing island state 1 "

// encodeState writes the mark, the SHA-256 of the rest in hexadecimal, a line
// feed, and the state as JSON, whose numbers are exact.
func encodeState(s *state) ([]byte, error) {
	body, err := json.Marshal(s)
	if err != nil {
		return nil, fmt.Errorf("writing an island's state: %w", err)
	}
	return sealState(body), nil
}

func sealState(body []byte) []byte {
	head := fmt.Sprintf("%s%x\n", stateMark, sha256.Sum256(body))
	return append([]byte(head), body...)
}

var errDamaged = errors.New("the state is damaged")

// decodeState reads what encodeState wrote for the plan's task, whose points
// have the given number of genes. Whatever the bytes are, it gives a state
// that an island can go on from, or an error.
func decodeState(data []byte, plan Plan, task Task, genes int) (*state, error) {
	head, body, found := bytes.Cut(data, []byte("\n"))
	if !found || !bytes.HasPrefix(head, []byte(stateMark)) {
		return nil, fmt.Errorf("%w: it does not begin with %q", errDamaged, stateMark)
	}
	if !bytes.Equal(sealState(body), data) {
		return nil, fmt.Errorf("%w: its SHA-256 differs from the one it was written with", errDamaged)
	}
	s := &state{}
	decoder := json.NewDecoder(bytes.NewReader(body))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(s); err != nil {
		return nil, fmt.Errorf("%w: %w", errDamaged, err)
	}
	if _, err := decoder.Token(); !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("%w: more follows its end", errDamaged)
	}
	if s.Plan != plan || s.Task != task {
		return nil, fmt.Errorf("%w: it belongs to %+v of %+v, not to %+v of %+v", errDamaged, s.Task, s.Plan, task, plan)
	}
	if what := s.doubt(genes); what != "" {
		return nil, fmt.Errorf("%w: %s", errDamaged, what)
	}
	return s, nil
}

// mostKept bounds every list of a state.
const mostKept = 10_000

// doubt says what an island could not go on from.
func (s *state) doubt(genes int) string {
	switch {
	case s.Turn < 0 || s.Turn > mostKept:
		return "its turn makes no sense"
	case s.Round < 0 || s.Round > mostKept || len(s.Marks) > mostKept || !allFinite(s.Marks):
		return "its rounds make no sense"
	case s.Summary.Evaluations != s.Plan.islandBudget(s.Task.Island, s.Task.Epoch+1):
		return "it counts another number of evaluations than the plan"
	case s.Summary.Best.Verdict.Meets > objective.Yes:
		return "its best candidate makes no sense"
	case !s.History.sound():
		return "its history is out of bounds"
	case len(s.Population) > mostKept || len(s.Elites) > mostKept || len(s.Past) > mostKept:
		return "a list of it is too long"
	}
	for _, list := range [][]candidate{s.Population, s.Elites} {
		for _, c := range list {
			if !inCube(c.Point, genes) || !(math.Abs(c.Score) <= worstScore) || c.ID < 0 {
				return "a candidate of it is out of bounds"
			}
		}
	}
	for _, point := range s.Past {
		if !inCube(point, genes) {
			return "a replaced parent of it is out of bounds"
		}
	}
	return ""
}

func (h *history) sound() bool {
	if len(h.F) != memories || len(h.CR) != memories || h.Next < 0 || h.Next >= memories {
		return false
	}
	for i := range memories {
		if !(h.F[i] >= 0 && h.F[i] <= 1 && h.CR[i] >= 0 && h.CR[i] <= 1) {
			return false
		}
	}
	return true
}

func inCube(point []float64, genes int) bool {
	for _, t := range point {
		if !(t >= 0 && t <= 1) {
			return false
		}
	}
	return len(point) == genes
}

func allFinite(numbers []float64) bool {
	for _, v := range numbers {
		if !(math.Abs(v) <= worstScore) {
			return false
		}
	}
	return true
}
