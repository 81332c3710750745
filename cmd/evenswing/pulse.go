package main

import (
	"encoding/json"
	"time"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
)

// pulse is what a search says of itself now and then, as the note of the run's
// lock: for `status`, which so knows what tasks at work have done, and how fast by
// a clock that nobody sets. Nothing else depends on it.
type pulse struct {
	Doing       string        `json:"doing"`
	Evaluations int           `json:"evaluations"` // of the run, tasks at work among them
	Session     int           `json:"session"`     // of them since this process began to search
	Seconds     float64       `json:"seconds"`     // that this took
	Cores       int           `json:"cores"`
	Best        *dataset.Best `json:"best"`
}

// What a search may be doing.
const (
	measuring = "measuring how fast it goes"
	searching = "searching"
	following = "following the motion of finalists"
)

// beats is the time between two pulses.
const beats = time.Second

// heart gives the pulses of a search.
type heart struct {
	pulse
	lock *durable.Held
	now  clock
	last time.Time // of a pulse

	// Of the plan at work: evaluations of the run before it, and when it began;
	// session and seconds before it.
	base    int
	began   time.Time
	session int
	seconds float64
}

func newHeart(lock *durable.Held, now clock, cores int) *heart {
	return &heart{lock: lock, now: now, pulse: pulse{Cores: cores}}
}

// does begins something else.
func (h *heart) does(what string) {
	h.Doing = what
	h.beat()
}

// plan begins to search by a plan that has base evaluations of the run before it.
func (h *heart) plan(base int) {
	h.base, h.began = base, h.now()
	h.session, h.seconds = h.Session, h.Seconds
}

// follow is told by the search how far it is.
func (h *heart) follow(now search.Progress) {
	h.Evaluations, h.Session = h.base+now.Evaluations, h.session+now.Evaluations-now.Before
	h.Seconds = h.seconds + h.now.since(h.began).Seconds()
	if best := bestOf(now.Best); best != nil && (h.Best == nil || best.Before(*h.Best)) {
		h.Best = best
	}
	if h.now.since(h.last) >= beats {
		h.beat()
	}
}

// bestOf is a search's best as files have it; nil while none can exist.
func bestOf(b search.Best) *dataset.Best {
	v := b.Verdict
	if b.ID == search.NoParent || !v.Exists {
		return nil
	}
	return &dataset.Best{ID: b.ID, Score: v.Score, Worst: v.Worst, Meets: v.Meets == objective.Yes, Averaged: v.At >= objective.Averaged}
}

// beat writes the pulse. Where that fails, status knows less; the search goes on,
// and its next file tells what is wrong.
func (h *heart) beat() {
	h.last = h.now()
	if text, err := json.Marshal(h.pulse); err == nil {
		_ = h.lock.Note(string(text))
	}
}

// readPulse is the last pulse of the search that holds a run's lock, or held it
// last; false where there is none.
func readPulse(run string) (p pulse, ok bool) {
	err := json.Unmarshal([]byte(durable.Noted(dataset.LockPath(run))), &p)
	return p, err == nil && p.Cores > 0
}

// rate is evaluations a second, all cores together; false where none was done.
func (p *pulse) rate() (float64, bool) {
	return float64(p.Session) / p.Seconds, p.Session > 0 && p.Seconds > 0
}
