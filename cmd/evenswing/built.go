package main

import (
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"evenswing/objective"
)

// printBuilt prints the loads of a design and how it gives.
func printBuilt(out io.Writer, a *objective.BuiltAccount) {
	if a == nil {
		return
	}
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "\npivot\tload while swinging\tsideways N\toff its edge's middle mm\twould lean deg\trubs N m\tsag mm")
	for _, p := range a.Pendulums {
		fmt.Fprintf(t, "%s\t%.4f of the weight\t%.2f\t%s\t%s\t%.2g\t%s\n", p.Name, p.Factor, p.Side, shownOr(p.Offset, 1000, 1), shownOr(p.Lean, 180/math.Pi, 1), p.Friction, shownOr(p.Sag, 1000, 3))
	}
	t.Flush()
	fmt.Fprintf(out, "The wall carries %.0f N", a.Weight)
	if a.PullOut != nil {
		fmt.Fprintf(out, ", which pulls away from it with %.1f N m", *a.PullOut)
	}
	if a.Fixing != nil {
		fmt.Fprintf(out, ": %.0f N on one of the uppermost fixings under a sudden load", *a.Fixing)
	}
	fmt.Fprintln(out, ".")
}

// printLoads prints what is loaded most: the worst section of each bar, and every
// pivot, joint, face and fixing whose strength the file tells.
func printLoads(out io.Writer, a *objective.BuiltAccount) {
	if a == nil {
		return
	}
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(t, "\nloaded most\tforce N\tmoment N m\tutilisation\tof\n")
	count := 0
	for i := range a.Loads {
		l := &a.Loads[i]
		if l.Utilisation == nil || l.Kind == "section" && !l.Worst {
			continue
		}
		count++
		most := l.Bound
		if l.Motion != nil {
			most = *l.Motion
		}
		fmt.Fprintf(t, "%s\t%.0f\t%.1f\t%s\t%s\n", l.Where, math.Hypot(most.Along, most.Across), most.Moment, useWords(*l.Utilisation), *l.Governs)
	}
	if count == 0 {
		return
	}
	t.Flush()
	fmt.Fprintf(out, "At most while all swings; utilisation is demand over allowance, above 1 it may break. Safety factor %g on the mean\nstrength of clear, straight wood at 12 %% moisture: lasting load, scatter and bumps are in it.\n", a.Safety)
}

// printShifts prints what giving changes of each period.
func printShifts(out io.Writer, a *objective.BuiltAccount) {
	if a == nil {
		return
	}
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "\nof the design that evaluate takes: period changes, %\tby sag\tby the edge's radius\tby the bracket\tby springing of the bars")
	for _, p := range a.Pendulums {
		fmt.Fprintf(t, "%s\t%s\t%+.4f\t%+.4f\t%s\n", p.Name, shownOr(p.BySag, 100, 4), 100*p.ByEdge, 100*p.ByBrace, shownOr(p.Spring, 100, 4))
	}
	t.Flush()
	if a.Sprung {
		fmt.Fprintln(out, "The periods that `evaluate` tells and judges hold all of these; a search adds springing where it works out the\nstrength, close to the limits.")
		return
	}
	fmt.Fprintln(out, "The periods that `evaluate` tells and judges hold these but for springing: nothing here limits strength, balance\nor clearance, with which it is worked out.")
}

// shownOr shows a signed figure times a factor with so many decimals; "-" where it is
// not known.
func shownOr(x *float64, factor float64, decimals int) string {
	if x == nil || math.IsNaN(*x) {
		return "-"
	}
	return fmt.Sprintf("%+.*f", decimals, *x*factor)
}

// plateWords tells plates that make up a charge's metal.
func plateWords(list []objective.PlateChoice) string {
	var words []string
	for _, p := range list {
		text := fmt.Sprintf("%d of %.4g mm %s", p.Count, 1000*p.Thick, p.Of)
		if !p.Fits {
			text += " (too deep)"
		}
		words = append(words, text)
	}
	return strings.Join(words, ", or ")
}
