package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"evenswing/space"
)

// told is all that a shortlist tells of one design, in its three forms.
type told struct {
	rank    int
	cells   map[string]string // of shortlist.csv, by heading
	account any               // what `evaluate --json` prints of its rig file
	rig     *space.Rig        // that file
	design  *space.Design
	tables  map[string][]map[string]string // of the bench, by name
}

// TestPageTableAndEvaluate searches a little, and compares every number of the
// page with its sources: shortlist.csv, evaluate --json, the bench's tables and
// the rig file.
func TestPageTableAndEvaluate(t *testing.T) {
	used := make([]bool, len(unmarked))
	for _, c := range []struct{ rig, evaluations, top string }{{"landing", "1500", "1"}, {"attic", "4000", "2"}} {
		t.Run(c.rig, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "run")
			evenswing(t, "search", "../../testdata/rigs/"+c.rig+".yaml", "--out", dir, "--evaluations", c.evaluations, "--motions", "20", "--top", c.top)
			dir = filepath.Join(dir, "shortlist")
			page, err := os.ReadFile(filepath.Join(dir, "index.html"))
			if err != nil {
				t.Fatal(err)
			}
			designs := readDesigns(t, dir)
			marks, rest := numbersOf(t, page)
			for k := range marks {
				checkMark(t, &marks[k], designs, marks)
			}
			checkLoose(t, rest, used)
			for k := range designs {
				checkColumns(t, &designs[k], marks)
				checkAccount(t, &designs[k])
				checkBench(t, &designs[k], page)
			}
		})
	}
	for k := range used {
		if !used[k] {
			t.Errorf("no page writes a number as unmarked[%d] allows, %v %v: take it out", k, unmarked[k].at, unmarked[k].text)
		}
	}
}

// evenswing runs a command and returns what it prints.
func evenswing(t *testing.T, args ...string) []byte {
	t.Helper()
	var out, problem bytes.Buffer
	if code := run(t.Context(), args, &out, &problem); code != exitDone {
		t.Fatalf("evenswing %s: exit code %d: %s", strings.Join(args, " "), code, problem.Bytes())
	}
	return out.Bytes()
}

// readDesigns reads shortlist.csv and evaluates every rig file that it names.
func readDesigns(t *testing.T, dir string) []told {
	t.Helper()
	var list []told
	for k, cells := range readTable(t, filepath.Join(dir, "shortlist.csv")) {
		d := told{rank: k + 1, cells: cells, tables: map[string][]map[string]string{}}
		path := filepath.Join(dir, cells["file"])
		if err := json.Unmarshal(evenswing(t, "evaluate", path, "--json"), &d.account); err != nil {
			t.Fatal(err)
		}
		rig, err := space.Load(path)
		if err != nil {
			t.Fatal(err)
		}
		decoder := rig.NewDecoder()
		decoder.Values(rig.StartValues())
		d.rig, d.design = rig, &decoder.Design
		for _, name := range []string{"cutlist.csv", "metal.csv", "pivots.csv"} {
			d.tables[name] = readTable(t, filepath.Join(dir, fmt.Sprintf("%02d-%s", d.rank, name)))
		}
		list = append(list, d)
	}
	if len(list) == 0 {
		t.Fatal("no designs")
	}
	return list
}

// readTable reads a CSV file's rows by their headings.
func readTable(t *testing.T, path string) []map[string]string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var list []map[string]string
	for _, row := range rows[1:] {
		cells := map[string]string{}
		for k, heading := range rows[0] {
			cells[heading] = row[k]
		}
		list = append(list, cells)
	}
	return list
}

// checkMark compares a number of the page with all its sources, and what the page
// writes with the number.
func checkMark(t *testing.T, m *marked, designs []told, all []marked) {
	t.Helper()
	if m.rank < 1 || m.rank > len(designs) {
		t.Errorf("%s: %q is about no design", m.at, m.text)
		return
	}
	d := &designs[m.rank-1]
	sources := 0
	for what, name := range m.from {
		sources++
		var problem string
		switch what {
		case "column":
			problem = d.column(name, m.value)
		case "pointer":
			problem = d.pointer(name, m.value)
		case "table":
			problem = d.table(name, m.value)
		case "rig":
			problem = d.asked(name, m.value)
		case "is":
			problem = offWanted(m, all)
		case "wanted":
		default:
			problem = "what is data-" + what + "?"
		}
		if problem != "" {
			t.Errorf("design %d, %s: %q has the value %s; %s %s: %s", m.rank, m.at, m.text, m.value, what, name, problem)
		}
	}
	if sources == 0 {
		t.Errorf("design %d, %s: %q with the value %s has no source", m.rank, m.at, m.text, m.value)
	}
	if problem := d.writes(m); problem != "" {
		t.Errorf("design %d, %s: the page writes %q for %s, %v: %s", m.rank, m.at, m.text, m.value, m.from, problem)
	}
}

func parsed(text string) float64 {
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return math.NaN()
	}
	return x
}

// column compares with shortlist.csv: words and the maker's numbers as they are,
// figures as float32 holds them.
func (d *told) column(name, value string) string {
	cell, ok := d.cells[name]
	x, y := parsed(cell), parsed(value)
	switch {
	case !ok:
		return "there is no such column"
	case cell == value:
		return ""
	case math.IsNaN(x) || math.IsNaN(y) || float32(x) != float32(y) || d.isUnknown(name):
		return "the cell is " + cell
	}
	return ""
}

func (d *told) isUnknown(heading string) bool {
	_, ok := d.unknown(heading)
	return ok
}

// unknown is the unknown of a column.
func (d *told) unknown(heading string) (*space.Unknown, bool) {
	name, _, _ := strings.Cut(heading, " (")
	for k := range d.rig.Unknowns {
		if u := &d.rig.Unknowns[k]; u.Name == name {
			return u, true
		}
	}
	return nil, false
}

// find follows a JSON Pointer.
func (d *told) find(pointer string) any {
	at := d.account
	for _, key := range strings.Split(pointer, "/")[1:] {
		key = strings.NewReplacer("~1", "/", "~0", "~").Replace(key)
		switch in := at.(type) {
		case map[string]any:
			at = in[key]
		case []any:
			k, err := strconv.Atoi(key)
			if err != nil || k >= len(in) {
				return nil
			}
			at = in[k]
		default:
			return nil
		}
	}
	return at
}

// pointer compares with evaluate, bit for bit.
func (d *told) pointer(name, value string) string {
	x, ok := d.find(name).(float64)
	if !ok {
		return "there is no number"
	}
	if y := parsed(value); x != y {
		return fmt.Sprintf("evaluate says %v", x)
	}
	return ""
}

// tableStep is the last digit of a mass in the bench's tables, kg.
const tableStep = 1e-5

// table compares with the sum of the masses of a material in a bench's table.
func (d *told) table(name, value string) string {
	file, of, _ := strings.Cut(name, " ")
	sum, rows := 0.0, 0
	for _, row := range d.tables[file] {
		if row["material"] == of || row["material"] == "" && of == "any weight" {
			sum += parsed(row["mass_kg"])
			rows++
		}
	}
	if rows == 0 || !(math.Abs(sum-parsed(value)) <= float64(rows)*tableStep/2*1.001) {
		return fmt.Sprintf("%d rows add up to %g", rows, sum)
	}
	return ""
}

// asked compares with what the rig file asks.
func (d *told) asked(name, value string) string {
	x, err := d.wanted(strings.Split(name, "."))
	if err != nil {
		return err.Error()
	}
	if x != parsed(value) {
		return fmt.Sprintf("the rig file asks %v", x)
	}
	return ""
}

func (d *told) wanted(path []string) (float64, error) {
	pendulum := func(name string) int {
		for i := range d.rig.Pendulums {
			if d.rig.Pendulums[i].Name == name {
				return i
			}
		}
		return -1
	}
	switch {
	case len(path) == 3 && path[1] == "ratios":
		if k, err := strconv.Atoi(path[2]); err == nil && k < len(d.design.Targets.Ratios) {
			return d.design.Targets.Ratios[k].Is, nil
		}
	case len(path) == 3 && path[1] == "periods":
		for _, p := range d.design.Targets.Periods {
			if p.Pendulum == pendulum(path[2]) {
				return p.Want, nil
			}
		}
	case len(path) == 3 && path[2] == "halves_in":
		if i := pendulum(path[1]); i >= 0 {
			return d.design.Pendulums[i].HalvesIn, nil
		}
	}
	return 0, fmt.Errorf("the rig file asks no %s", strings.Join(path, "."))
}

// offWanted works out how far a number is off the wanted one; both stand marked in
// the same row.
func offWanted(m *marked, all []marked) string {
	is, wanted := false, false
	for k := range all {
		if x := &all[k]; x.row == m.row && x.rank == m.rank {
			is = is || x.value == m.from["is"] && x.from["column"] != ""
			wanted = wanted || x.value == m.from["wanted"] && x.from["rig"] != ""
		}
	}
	if !is || !wanted {
		return "it is not told of numbers in its row"
	}
	if off := parsed(m.from["is"])/parsed(m.from["wanted"]) - 1; off != parsed(m.value) {
		return fmt.Sprintf("it is off by %g", off)
	}
	return ""
}

// checkColumns: every column that a builder can use has a place on the page.
func checkColumns(t *testing.T, d *told, marks []marked) {
	t.Helper()
	there := map[string]bool{}
	for k := range marks {
		if marks[k].rank == d.rank {
			there[marks[k].from["column"]] = true
		}
	}
	for heading, cell := range d.cells {
		if cell != "" && !there[heading] && !unshown.MatchString(heading) && !d.wholeRoom(heading, cell) {
			t.Errorf("design %d: column %s, %s, has no place on the page", d.rank, heading, cell)
		}
	}
}

// wholeRoom tells whether a column is the room of an adjuster that nothing stops: the
// page then tells its travel alone.
func (d *told) wholeRoom(heading, cell string) bool {
	for k := range d.rig.Unknowns {
		u := &d.rig.Unknowns[k]
		room := strings.HasPrefix(heading, "room_up_"+u.Name+"_") || strings.HasPrefix(heading, "room_down_"+u.Name+"_")
		if room && float32(parsed(cell)) == float32(u.Movable) {
			return true
		}
	}
	return false
}

// unshown are the columns without a place on the page: the name of the rig file,
// which is a link; figures of the search; what another figure of the page says
// better; what the page says as a count or in words.
var unshown = regexp.MustCompile(strings.Join([]string{
	`^file$`,
	`^averaged_`,                    // the search's own motion; the page has the full one
	`^(gap|beat_s|leak)$`,           // share, slosh and inflow say it of every pendulum
	`^triad_`,                       // the page lists all triads of any size
	`^least_density_`,               // of what could be bought instead
	`^wall_moment_n_m$`,             // in the plane of swing; the page tells what pulls off the wall
	`^sag(_shift)?_`,                // the periods are those after sag
	`^holds_share$`,                 // the page has the map
	`^(builds_(un)?tuned)$`,         // as a count
	`^(near_equal|table_share)$`,    // in words
	`^tuning_left$`,                 // told where it is more than is allowed
	`^tuning_(step|target|round)_?`, // as a list of steps
}, "|"))
