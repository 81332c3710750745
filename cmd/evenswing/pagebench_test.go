package main

import (
	"fmt"
	"html"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// benchTables are the tables of a sheet that stand beside the page as files too.
var benchTables = map[string]string{"Pivots": "pivots.csv", "Cut list": "cutlist.csv", "Metal and weights": "metal.csv"}

var (
	tableRow  = regexp.MustCompile(`(?s)<tr>(.*?)</tr>`)
	tableCell = regexp.MustCompile(`(?s)<td[^>]*>(.*?)</td>`)
	anyTag    = regexp.MustCompile(`<[^>]*>`)
)

// checkBench: every number in a row of the sheet's tables for the bench stands in the
// same row of the table's file.
func checkBench(t *testing.T, d *told, page []byte) {
	t.Helper()
	_, sheet, _ := strings.Cut(string(page), fmt.Sprintf(`<section class="sheet" id="design-%d"`, d.rank))
	sheet, _, _ = strings.Cut(sheet, `<section class="sheet"`)
	for label, file := range benchTables {
		_, table, ok := strings.Cut(sheet, `aria-label="`+label+`"`)
		if !ok {
			t.Errorf("design %d has no table %s", d.rank, label)
			continue
		}
		table, _, _ = strings.Cut(table, "</table>")
		_, table, _ = strings.Cut(table, "<tbody>")
		rows := tableRow.FindAllStringSubmatch(table, -1)
		if len(rows) != len(d.tables[file]) || len(rows) == 0 {
			t.Errorf("design %d: %d rows of %s, %d in %s", d.rank, len(rows), label, len(d.tables[file]), file)
			continue
		}
		for k, row := range rows {
			for _, cell := range tableCell.FindAllStringSubmatch(row[1], -1) {
				for line := range strings.SplitSeq(cell[1], "</div>") {
					text := html.UnescapeString(anyTag.ReplaceAllString(line, ""))
					if problem := inRow(text, d.tables[file][k]); problem != "" {
						t.Errorf("design %d, %s, row %d: %q: %s", d.rank, label, k+1, text, problem)
					}
				}
			}
		}
	}
}

// inRow tells which number of a text is not in a row of a table.
func inRow(text string, row map[string]string) string {
	if saidIn(text, row) {
		return ""
	}
	for _, part := range strings.Split(text, ", ") {
		s, ok := readShown(strings.TrimPrefix(strings.TrimPrefix(part, "hole "), "⌀ "))
		if ok && !s.standsIn(row) {
			return "that number is in no cell of its row"
		}
	}
	return ""
}

// wordCells are the headings under which a table has words, numbers and all.
var wordCells = []string{"openings", "pivots_on_it", "note", "material"}

// saidIn tells whether a cell says the text in words.
func saidIn(text string, row map[string]string) bool {
	text = strings.ReplaceAll(text, "\u00a0", " ")
	return slices.ContainsFunc(wordCells, func(heading string) bool { return strings.Contains(row[heading], text) })
}

// tableUnits are the units at the end of the headings, in SI.
var tableUnits = map[string]struct {
	size float64
	of   string
}{"mm": {0.001, "m"}, "kg": {1, "kg"}, "deg": {math.Pi / 180, "rad"}, "count": {1, ""}, "number": {1, ""}}

func (s written) standsIn(row map[string]string) bool {
	for heading, cell := range row {
		u, ok := tableUnits[heading[strings.LastIndex(heading, "_")+1:]]
		if ok && u.of == s.of && apart(s.size(), parsed(cell)*u.size, s.step) == "" {
			return true
		}
	}
	return false
}
