package main

import (
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"evenswing/objective"
	"evenswing/objective/motion"
	"evenswing/output/drawing"
	"evenswing/space"
	"evenswing/space/quantity"
)

type releaseCommand struct {
	Rig      string   `arg:"" help:"The rig file."`
	Set      []string `sep:"none" placeholder:"NAME=VALUE" help:"Give an unknown a value; may be repeated."`
	From     []string `sep:"none" placeholder:"NAME=ANGLE" help:"Let a pendulum go from this angle, counter-clockwise from the pose that the file draws; may be repeated. The others start as the file's release says, or at rest plus their swing."`
	For      string   `placeholder:"TIME" help:"How long (default: the rig's drawing time)."`
	At       string   `placeholder:"T1,T2,..." help:"Tell the motion at exactly these times, rising."`
	Undamped bool     `help:"Switch all damping off."`
	Line     string   `placeholder:"FILE" help:"Write the line that the pen draws (SVG), at true size."`
	JSON     bool     `name:"json" help:"Print one JSON object, in SI."`
}

func (c *releaseCommand) Run(to *console) error {
	rig, err := loadRig(c.Rig, c.Set)
	if err != nil {
		return err
	}
	w := objective.New(rig).NewWorkspace()
	if v := w.ScoreValues(rig.StartValues()); !v.Exists {
		reason, _ := w.Reason()
		return fault("%s: this design cannot exist: %s", c.Rig, reason)
	}
	l, err := c.letting(rig, w)
	if err != nil {
		return err
	}
	if c.Line != "" && !(w.Design().Pen.Given && w.Design().Paper.Given) {
		return fault("--line: the rig has no pen or no paper; add `pen:` and `paper:` to %s", c.Rig)
	}
	r := w.Release(l)
	if r.OverTop {
		fmt.Fprintln(to.err, "warning: a pendulum swings beyond a right angle; nothing hangs on its edge there")
	}
	if c.Line != "" {
		d := w.Design()
		style := drawing.LineStyle{Title: "Predicted line of " + rig.Name, Units: drawing.UnitsOf(rig)}
		if err := writeOver(c.Line, drawing.Line(r.Line, d.Paper.Size, d.Pen.Line, style)); err != nil {
			return err
		}
		fmt.Fprintf(to.err, "drew %s at true size\n", c.Line)
	}
	if c.JSON {
		return printJSON(to.out, r)
	}
	printRelease(to.out, rig, r, l)
	return nil
}

// mostTimes bounds what one call tells.
const mostTimes = 200_000

// letting reads the options.
func (c *releaseCommand) letting(rig *space.Rig, w *objective.Workspace) (*objective.Letting, error) {
	l := &objective.Letting{From: map[int]float64{}, Until: w.Design().Targets.DrawingTime, Undamped: c.Undamped}
	for _, from := range c.From {
		if err := readFrom(l, rig, from); err != nil {
			return nil, err
		}
	}
	if c.For != "" {
		t, err := quantity.Parse(c.For, quantity.Time)
		if err != nil {
			return nil, fault("--for %s: %v", c.For, err)
		}
		if !(t > 0) {
			return nil, fault("--for %s: a time above 0, such as 240 s", c.For)
		}
		l.Until = t
	}
	if c.At == "" {
		l.Times = motion.EvenTimes(nil, l.Until, evenCount(l.Until, w))
		return l, nil
	}
	times, err := readTimes(c.At)
	l.Times = times
	return l, err
}

// evenCount is how many even times show every swing: 24 in a cycle of the
// fastest mode.
func evenCount(until float64, w *objective.Workspace) int {
	modes := w.Modes()
	n := 24 * until * modes.Omega[modes.N-1] / (2 * math.Pi)
	return int(min(max(n, 2), mostTimes))
}

// readFrom reads NAME=ANGLE.
func readFrom(l *objective.Letting, rig *space.Rig, text string) error {
	at := strings.LastIndex(text, "=")
	if at < 0 {
		return fault("--from %s: there is no = in it; write NAME=ANGLE, such as %s=4deg", text, rig.Pendulums[0].Name)
	}
	name := strings.TrimSpace(text[:at])
	angle, err := quantity.Parse(strings.TrimSpace(text[at+1:]), quantity.Angle)
	if err != nil {
		return fault("--from %s: %v", text, err)
	}
	var names []string
	for i, p := range rig.Pendulums {
		if p.Name == name {
			l.From[i] = angle
			return nil
		}
		names = append(names, p.Name)
	}
	return fault("--from %s: there is no pendulum %q; the rig has %s", text, name, strings.Join(names, ", "))
}

// readTimes reads T1,T2,...; a number without a unit is in seconds.
func readTimes(text string) ([]float64, error) {
	var times []float64
	for _, piece := range strings.Split(text, ",") {
		t, err := readTime(strings.TrimSpace(piece))
		if err != nil {
			return nil, fault("--at %s: %v", piece, err)
		}
		if t < 0 || len(times) > 0 && t <= times[len(times)-1] {
			return nil, fault("--at %s: times must rise from 0 on, each later than the one before", text)
		}
		times = append(times, t)
	}
	if len(times) > mostTimes {
		return nil, fault("--at: %d times; at most %d are possible", len(times), mostTimes)
	}
	return times, nil
}

func readTime(text string) (float64, error) {
	if a, err := quantity.ParseAny(text); err == nil && a.Dim == quantity.Number {
		return a.SI, nil
	}
	return quantity.Parse(text, quantity.Time)
}

func printRelease(out io.Writer, rig *space.Rig, r *objective.Released, l *objective.Letting) {
	damped := "damped"
	if l.Undamped {
		damped = "undamped"
	}
	fmt.Fprintf(out, "%s, let go %s, %s, over %.4g s\n", rig.Name, startWordsOf(rig, r), damped, l.Until)
	if r.Reason != nil {
		fmt.Fprintf(out, "it could not be followed to the end: %s\n", *r.Reason)
	}
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "\npendulum\tperiod kept s\tripple %\tlargest swing deg\thalves in s")
	for _, p := range rig.Pendulums {
		fmt.Fprintf(t, "%s\t%s\t%s\t%.3f\t%s\n", p.Name, shownTo(r.Period[p.Name], 1, 4), shownTo(r.Ripple[p.Name], 100, 2),
			r.Largest[p.Name]*180/math.Pi, shownTo(r.HalvesIn[p.Name], 1, 1))
	}
	t.Flush()
	t = tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	if len(r.Ratios) > 0 {
		fmt.Fprintln(t, "\nratio\tlinear\tkept\tdrift %\tpull %")
	}
	for _, x := range r.Ratios {
		fmt.Fprintf(t, "%s/%s\t%.5f\t%s\t%s\t%s\n", x.Slow, x.Fast, x.Linear, shownTo(x.Kept, 1, 5), shownTo(x.Drift, 100, 4), shownTo(x.Pull, 100, 4))
	}
	t.Flush()
	fmt.Fprintf(out, "\nenergy in the wrong mode at most %s %%; irregularity of the passes %s %%\n", shownTo(r.Exchange, 100, 2), shownTo(r.Trace, 100, 3))
	if r.Margin != nil {
		fmt.Fprintf(out, "the line stays %.1f mm inside the paper's edge (negative: it runs off); spacing of passes %s line widths\n", 1000**r.Margin, shownTo(r.Spacing, 1, 2))
	}
}

// startWordsOf says from where each pendulum is let go, from its rest pose.
func startWordsOf(rig *space.Rig, r *objective.Released) string {
	var words []string
	for i, p := range rig.Pendulums {
		words = append(words, fmt.Sprintf("%s %+.3g deg", p.Name, r.Start[i]*180/math.Pi))
	}
	return "from rest plus " + strings.Join(words, ", ")
}
