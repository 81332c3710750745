package report

import (
	"html/template"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"evenswing/objective"
	"evenswing/output/drawing"
	"evenswing/space"
)

// functions are what the templates call, with the page's units.
func functions(page *Page) template.FuncMap {
	units := page.Units
	all := template.FuncMap{
		"style": style, "script": script, "readings": func() []string { return readingColumns }, "twenty": timed, "policy": policy, "bar": barOf, "wayBar": wayBar, "mostTurn": func() float64 { return MostTurn }, "signedFigures": signedFigures, "shareBar": shareBar,
		"count": Grouped, "percent": percent, "hundredths": hundredths, "withUnit": withUnit,
		"verdict": verdictOf, "meaning": meaning, "cautions": func() []Caution { return Cautions },
		"significant": significant, "off": off,
		"shared": page.Sources.shared, "sharedAs": page.Sources.sharedAs,
		"metric": func() bool { return units == drawing.Metric },
		"figure": func(value float64, unit string) string { return figure(value, unit, units) },
		"criterion": func(kind space.Criterion, value float64, unit string) string {
			return criterionFigure(kind, value, unit, units)
		},
		"period":   func(seconds float64) string { return strconv.FormatFloat(seconds, 'f', 3, 64) + nbsp + "s" },
		"picture":  sized,
		"relative": func(is, want float64) string { return signedPercent(is/want - 1) },
		"twoDigits": func(n int) string {
			if n < 10 {
				return "0" + strconv.Itoa(n)
			}
			return strconv.Itoa(n)
		},
		"unknownRows": func() []unknownRow { return unknownRows(page.Sheets) },
		"loadGroups":  loadGroups, "carriedShares": carriedShares, "fiveAbreast": fiveAbreast, "sharedNotes": sharedNotes, "explained": explained,
	}
	maps.Copy(all, motionFunctions(units))
	return all
}

// signedPercent writes a relative error with its sign.
func signedPercent(fraction float64) string {
	text := percent(math.Abs(fraction))
	switch {
	case strings.HasPrefix(text, "0"+nbsp):
		return text
	case fraction < 0:
		return "−" + text
	}
	return "+" + text
}

// Undecided tells whether some design of the page may yet meet every limit.
func (p *Page) Undecided() bool {
	return slices.ContainsFunc(p.Sheets, func(s Sheet) bool { return s.Meets == objective.NotKnown })
}

// Keeping counts the designs shown that keep every limit with all of it worked out:
// a search judges by less, so there may be fewer than it counted.
func (p *Page) Keeping() int {
	n := 0
	for i := range p.Sheets {
		if p.Sheets[i].Meets == objective.Yes {
			n++
		}
	}
	return n
}

// Worst is the criterion with the largest utilisation, nil where nothing is
// limited.
func (s *Sheet) Worst() *Criterion {
	var worst *Criterion
	for i := range s.Criteria {
		c := &s.Criteria[i]
		if c.Utilisation.Given && (worst == nil || c.Utilisation.Value > worst.Utilisation.Value) {
			worst = c
		}
	}
	return worst
}

// Limited are the criteria that count, the hardest first.
func (s *Sheet) Limited() []Criterion {
	list := s.withUtilisation(true)
	slices.SortStableFunc(list, func(a, b Criterion) int {
		switch {
		case a.Utilisation.Value > b.Utilisation.Value:
			return -1
		case a.Utilisation.Value < b.Utilisation.Value:
			return 1
		}
		return 0
	})
	return list
}

// Others are the criteria that do not count or were not computed, in the order
// of the table.
func (s *Sheet) Others() []Criterion { return s.withUtilisation(false) }

func (s *Sheet) withUtilisation(given bool) []Criterion {
	var list []Criterion
	for _, c := range s.Criteria {
		if c.Utilisation.Given == given {
			list = append(list, c)
		}
	}
	return list
}

// Standing says why a criterion has no utilisation.
func (c Criterion) Standing() string {
	if !c.Value.Given {
		return notComputed
	}
	if !c.Allowed.Given {
		return "not limited"
	}
	return ""
}

// unknownRow is one unknown in every design of the page.
type unknownRow struct {
	Name, Unit string
	Values     []Unknown
}

// unknownRows turns the sheets' unknowns into one row each.
func unknownRows(sheets []Sheet) []unknownRow {
	if len(sheets) == 0 {
		return nil
	}
	rows := make([]unknownRow, len(sheets[0].Unknowns))
	for i, u := range sheets[0].Unknowns {
		rows[i] = unknownRow{Name: u.Name, Unit: u.Unit}
		for _, s := range sheets {
			if i < len(s.Unknowns) {
				rows[i].Values = append(rows[i].Values, s.Unknowns[i])
			}
		}
	}
	return rows
}
