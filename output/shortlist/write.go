package shortlist

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/drawing"
	"evenswing/output/durable"
	"evenswing/output/report"
	"evenswing/search"
)

// Written is a shortlist that was written.
type Written struct {
	Page *report.Page
	Dir  string
	List List
}

// design is one design of the list with all that is shown of it.
type design struct {
	file    string
	values  []float64
	sheet   report.Sheet
	drawn   report.Drawn
	filled  []byte
	row     []float32
	missing []bool
	limit   string
	meets   objective.Meets
	chosen  Chosen
}

// Write chooses the best top designs of a run and writes them to dir: index.html,
// shortlist.csv and 01.yaml, 02.yaml, ... Files of an earlier, longer list go.
func Write(fs durable.FS, run *dataset.Run, e *objective.Evaluator, top int, dir string) (*Written, error) {
	g, err := gather(run, e, top)
	if err != nil {
		return nil, err
	}
	designs, err := look(run, e, g.list.Designs)
	if err != nil {
		return nil, err
	}
	page := pageOf(run, e, g, designs)
	html, err := report.HTML(page)
	if err != nil {
		return nil, err
	}
	files := []struct {
		name string
		data []byte
	}{{"index.html", html}, {"shortlist.csv", table(e, designs)}}
	if err := durable.MakeFolder(fs, dir); err != nil {
		return nil, err
	}
	for k := range designs {
		if err := durable.WriteFile(fs, filepath.Join(dir, designs[k].file), designs[k].filled); err != nil {
			return nil, err
		}
	}
	for _, f := range files {
		if err := durable.WriteFile(fs, filepath.Join(dir, f.name), f.data); err != nil {
			return nil, err
		}
	}
	return &Written{page, dir, g.list}, removeOlder(fs, dir, len(designs))
}

// look works every chosen design out again.
func look(run *dataset.Run, e *objective.Evaluator, chosen []Chosen) ([]design, error) {
	designs := make([]design, len(chosen))
	for k, c := range chosen {
		values, err := valuesOf(run, e, c.ID)
		if err != nil {
			return nil, err
		}
		w := e.NewWorkspace() // keeps the design for its drawing
		w.ScoreValues(values)
		if float32(w.Verdict.Score) != float32(c.Score) {
			return nil, fmt.Errorf("candidate %d scores %g here and %g in its file: the run was made by another version or another kind of machine", c.ID, w.Verdict.Score, c.Score)
		}
		d := &designs[k]
		d.file, d.values, d.chosen, d.meets = fmt.Sprintf("%02d.yaml", k+1), values, c, w.Meets
		d.limit, _ = w.WorstLimit()
		d.sheet = sheetOf(e, w)
		d.sheet.Rank, d.sheet.ID, d.sheet.File = k+1, c.ID, d.file
		d.drawn = report.Drawn{Design: w.Design(), Rest: w.Pose(), Masses: w.Masses()}
		d.filled = e.Rig().FillIn(values)
		d.row, d.missing = make([]float32, len(e.Columns())), make([]bool, len(e.Columns()))
		w.RowTo(d.row, d.missing)
	}
	return designs, nil
}

func pageOf(run *dataset.Run, e *objective.Evaluator, g *gathered, designs []design) *report.Page {
	rig, plan := e.Rig(), run.Start.Plan
	p := &report.Page{
		Rig: rig.Name, Made: run.Start.Started.Format("2 January 2006"), Seed: plan.Seed, Version: run.Start.Version,
		Plan:  planWords(plan),
		Units: drawing.UnitsOf(rig), Tried: int(g.rows), Families: g.list.Families, Notes: rig.Doubts(),
	}
	p.Meeting = int(g.tally.meeting)
	drawn, values := make([]report.Drawn, len(designs)), make([][]float64, len(designs))
	for k := range designs {
		drawn[k], values[k] = designs[k].drawn, designs[k].values
	}
	pictures := report.PicturesOf(rig, drawn, p.Units)
	for k := range designs {
		s := designs[k].sheet
		s.Pictures, s.Apart = pictures[k], report.Apart(rig, values, k)
		p.Sheets = append(p.Sheets, s)
	}
	if p.Meeting == 0 && len(designs) > 0 {
		_, limits := useColumns(e)
		w := e.NewWorkspace()
		w.ScoreValues(designs[0].values)
		p.Hindrance = g.tally.hindrance(e, limits, w)
		p.Hindrance.Bounds = bounds(rig, values)
	}
	return p
}

func planWords(p search.Plan) string {
	return fmt.Sprintf("%d evaluations, %s, %s", p.Evaluations, several(p.Islands, "island"), several(p.Epochs, "epoch"))
}

func several(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// filledName is how the filled-in rig files are called.
var filledName = regexp.MustCompile(`^[0-9]{2,}\.yaml$`)

// removeOlder removes the filled-in rigs beyond the n that were written.
func removeOlder(fs durable.FS, dir string, n int) error {
	names, err := fs.Names(dir)
	if err != nil {
		return err
	}
	for _, name := range names {
		var k int
		if !filledName.MatchString(name) {
			continue
		}
		if _, err := fmt.Sscanf(name, "%d", &k); err != nil || k <= n {
			continue
		}
		if err := fs.Remove(filepath.Join(dir, name)); err != nil && !os.IsNotExist(err) {
			return err
		}
	}
	return nil
}
