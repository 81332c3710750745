package main

import (
	"fmt"
	"io"
	"os"
	"time"

	"golang.org/x/term"

	"evenswing/objective"
	"evenswing/search"
)

// progress tells on standard error how far a search is: one line that renews
// itself on a terminal, plain lines now and then otherwise.
type progress struct {
	out      io.Writer
	terminal bool
	every    time.Duration
	heart    *heart // is told, too
	last     time.Time
	written  bool
}

// Intervals between two messages.
const (
	everyOnTerminal = 200 * time.Millisecond
	everyInLog      = 10 * time.Second
)

func newProgress(out io.Writer, e *objective.Evaluator, h *heart) *progress {
	p := &progress{out: out, every: everyInLog, heart: h}
	if f, ok := out.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		p.terminal, p.every = true, everyOnTerminal
	}
	rig := e.Rig()
	fmt.Fprintf(out, "searching %s: %d unknowns\n", rig.Name, rig.Dim())
	return p
}

// show is called by the search now and then.
func (p *progress) show(now search.Progress) {
	p.heart.follow(now)
	if p.heart.now.since(p.last) < p.every && now.Evaluations < now.Total {
		return
	}
	p.last = p.heart.now()
	line := p.line(now)
	if p.terminal {
		fmt.Fprintf(p.out, "\r%s\x1b[K", line)
		p.written = true
		return
	}
	fmt.Fprintln(p.out, line)
}

func (p *progress) line(now search.Progress) string {
	text := fmt.Sprintf("%s of %s evaluations", count(now.Evaluations), count(now.Total))
	if rate, known := p.heart.rate(); known {
		text += fmt.Sprintf(", %s a second", count(int(rate)))
		if left := float64(now.Total-now.Evaluations) / rate; left >= 1 {
			text += fmt.Sprintf(", %s left", time.Duration(left*float64(time.Second)).Round(time.Second))
		}
	}
	b := now.Best
	switch {
	case b.ID == search.NoParent:
	case b.Verdict.Meets == objective.Yes:
		text += fmt.Sprintf("; best score %.3f, meets every limit", b.Verdict.Score)
	case b.Verdict.Worst <= 1:
		text += fmt.Sprintf("; best score %.3f, keeps every limit but those that only the motion tells", b.Verdict.Score)
	default:
		text += fmt.Sprintf("; best so far: its hardest limit is at %.3g times what is allowed", b.Verdict.Worst)
	}
	return text
}

// done leaves the last line standing.
func (p *progress) done() {
	if p.written {
		fmt.Fprintln(p.out)
		p.written = false
	}
}
