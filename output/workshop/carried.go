package workshop

import (
	"math"
	"slices"
	"strconv"

	"evenswing/objective"
)

// Carried is what one pivot, bar, joint, drum's face or fixing of the wall carries,
// at rest and at most while all swings: in the motion where that was followed, else
// by its bound. Of a pivot Along is down and Across sideways; Moment is nil where
// there is none to tell.
type Carried struct {
	Where       string
	Along       [2]Amount // N, at rest and swinging
	Across      [2]Amount
	Moment      *[2]Amount // N m
	Utilisation *float64   // by the bound; nil where the rig file does not tell enough
	Words       string     // what governs
	Assumes     string     // what that takes for granted; "" where nothing is judged
}

// Granted lists what the utilisations take for granted, each once.
func (s *Sheet) Granted() []string {
	var list []string
	for i := range s.Carried {
		if text := s.Carried[i].Assumes; text != "" && !slices.Contains(list, text) {
			list = append(list, text)
		}
	}
	return list
}

const (
	// leastForce and leastMoment are N and N m below which a table says nought: a
	// millionth of what a rig weighs.
	leastForce, leastMoment = 0.05, 0.005
)

// pair is a figure at rest and swinging, what is as good as nought as nought.
func pair(write func(float64) Amount, least, rest, most float64) [2]Amount {
	list := [2]Amount{}
	for k, x := range [2]float64{rest, most} {
		if math.Abs(x) < least {
			x = 0
		}
		list[k] = write(x)
	}
	return list
}

// carried picks the rows for the bench: every pivot, the worst section of each bar,
// every joint, face and fixing.
func (b *bench) carried(built *objective.BuiltAccount) []Carried {
	if built == nil {
		return nil
	}
	var list []Carried
	sections := map[string]*objective.LoadAccount{} // at joints
	for i := range built.Loads {
		l := &built.Loads[i]
		switch {
		case l.Kind != "section":
			list = append(list, b.carriedRow(l, sections))
		case l.Worst:
			row := b.carriedRow(l, nil)
			row.Where += ": the bar is loaded most here"
			list = append(list, row)
		}
		if l.Kind == "section" {
			sections[l.Joint] = l
		}
	}
	return list
}

func (b *bench) carriedRow(l *objective.LoadAccount, sections map[string]*objective.LoadAccount) Carried {
	most := l.Bound
	if l.Motion != nil {
		most = *l.Motion
	}
	c := Carried{Where: l.Where, Utilisation: l.Utilisation,
		Along:  pair(b.bareForce, leastForce, l.Rest.Along, most.Along),
		Across: pair(b.bareForce, leastForce, l.Rest.Across, most.Across),
	}
	if l.Kind != "face" && l.Kind != "fixing" {
		moments := pair(b.moment, leastMoment, l.Rest.Moment, most.Moment)
		c.Moment = &moments
	}
	switch {
	case l.Governs != nil:
		c.Words, c.Assumes = *l.Governs, *l.Assumes
	case l.Kind == "joint":
		c.Words = "the rig file names no screws and no plate here"
		if s := sections[l.Joint]; s != nil && s.Utilisation != nil {
			c.Utilisation, c.Words, c.Assumes = s.Utilisation, *s.Governs+" of the bar here; "+c.Words, *s.Assumes
		}
	case l.Kind == "pivot":
		c.Words = "the rig file does not tell enough of its pivot_kind and edge"
	default:
		c.Words = "its material has no strengths"
	}
	return c
}

// LoadsCSV is everything that carries load, SI, with the bound and the motion beside
// each other.
func (s *Sheet) LoadsCSV() []byte {
	if len(s.Loaded) == 0 {
		return nil
	}
	rows := [][]string{{"kind", "where", "at_mm", "rest_along_n", "rest_across_n", "rest_moment_nm", "bound_along_n", "bound_across_n", "bound_moment_nm",
		"motion_along_n", "motion_across_n", "motion_moment_nm", "utilisation", "worst_of_its_bar", "governs", "assumes"}}
	for i := range s.Loaded {
		l := &s.Loaded[i]
		row := []string{l.Kind, l.Where, optionalText(l.At, 1000)}
		row = append(row, tripleText(&l.Rest)...)
		row = append(row, tripleText(&l.Bound)...)
		row = append(row, tripleText(l.Motion)...)
		rows = append(rows, append(row, optionalText(l.Utilisation, 1), yesNo(l.Worst), wordsOf(l.Governs), wordsOf(l.Assumes)))
	}
	return sheetTable(rows)
}

func tripleText(t *objective.LoadTriple) []string {
	if t == nil {
		return []string{"", "", ""}
	}
	return []string{optionalText(&t.Along, 1), optionalText(&t.Across, 1), optionalText(&t.Moment, 1)}
}

func optionalText(x *float64, factor float64) string {
	if x == nil {
		return ""
	}
	return strconv.FormatFloat(factor**x, 'f', 4, 64)
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}

func wordsOf(text *string) string {
	if text == nil {
		return ""
	}
	return *text
}
