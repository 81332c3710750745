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
	"evenswing/space"
)

// Written is a shortlist that was written.
type Written struct {
	Page  *report.Page
	Dir   string
	List  List
	Swung int // how many finalists' motion was followed
}

// design is one design of the list with all that is shown of it.
type design struct {
	file    string
	values  []float64
	sheet   report.Sheet
	drawn   report.Drawn
	filled  []byte
	holds   []byte // the map's numbers; nil where there is none
	row     []float32
	missing []bool
	limit   string
	meets   objective.Meets
	chosen  Chosen
}

// Write goes through all rows of a run, follows the motion of the finalists,
// and writes the best top of them to dir: index.html, shortlist.csv and 01.yaml,
// 02.yaml, ... Files of an earlier, longer list go. The rows of the finalists
// go to the run's folder once all its tasks are finished.
func Write(fs durable.FS, run *dataset.Run, e *objective.Evaluator, top int, dir string) (*Written, error) {
	g, err := gather(run, e, FinalistsOf(run.Start.Plan, e))
	if err != nil {
		return nil, err
	}
	finalists, err := swingAll(run, e, g.list.Designs)
	if err != nil {
		return nil, err
	}
	if whole, err := run.Complete(); err != nil {
		return nil, err
	} else if whole {
		if err := writeFinalists(fs, run, e, finalists); err != nil {
			return nil, err
		}
	}
	list := rankFinalists(e, finalists, top)
	designs := look(e, finalists, list.Designs)
	page, err := pageOf(run, e, g, finalists, &list, designs)
	if err != nil {
		return nil, err
	}
	return &Written{page, dir, list, len(finalists)}, writeFiles(fs, dir, e, page, designs)
}

func writeFiles(fs durable.FS, dir string, e *objective.Evaluator, page *report.Page, designs []design) error {
	html, err := report.HTML(page)
	if err != nil {
		return err
	}
	if err := durable.MakeFolder(fs, dir); err != nil {
		return err
	}
	for k := range designs {
		if err := durable.WriteFile(fs, filepath.Join(dir, designs[k].file), designs[k].filled); err != nil {
			return err
		}
		if designs[k].holds == nil {
			continue
		}
		if err := durable.WriteFile(fs, filepath.Join(dir, holdsFile(k+1)), designs[k].holds); err != nil {
			return err
		}
	}
	if err := durable.WriteFile(fs, filepath.Join(dir, "shortlist.csv"), table(e, designs)); err != nil {
		return err
	}
	if err := durable.WriteFile(fs, filepath.Join(dir, "index.html"), html); err != nil {
		return err
	}
	return removeOlder(fs, dir, len(designs))
}

// look works every chosen design out once more, for its sheet.
func look(e *objective.Evaluator, finalists []finalist, chosen []Chosen) []design {
	byID := map[int64]*finalist{}
	for k := range finalists {
		byID[finalists[k].chosen.ID] = &finalists[k]
	}
	designs := make([]design, len(chosen))
	for k, c := range chosen {
		f, d := byID[c.ID], &designs[k]
		w := e.NewWorkspace() // keeps the design for its drawing
		w.ScoreValues(f.origin.values)
		w.SwingUp()
		w.WorkHolding()
		d.file, d.values, d.chosen, d.meets = fmt.Sprintf("%02d.yaml", k+1), w.Design().Unknowns, c, w.Meets
		d.limit = f.words.limit
		d.sheet = sheetOf(e, w)
		d.sheet.Rank, d.sheet.ID, d.sheet.File = k+1, c.ID, d.file
		d.sheet.Motion = motionOf(e, w, k+1, drawing.UnitsOf(e.Rig()))
		d.sheet.Holds, d.holds = holdsOf(w, e.Rig(), k+1, drawing.UnitsOf(e.Rig()))
		d.sheet.Tuning = tuningOf(w, e.Rig())
		d.drawn = report.Drawn{Design: w.Design(), Rest: w.Pose(), Masses: w.Masses()}
		d.filled = e.Rig().FillIn(d.values)
		d.row, d.missing = f.row, f.missing
	}
	return designs
}

func pageOf(run *dataset.Run, e *objective.Evaluator, g *gathered, finalists []finalist, list *List, designs []design) (*report.Page, error) {
	rig, plan := e.Rig(), run.Start.Plan
	p := &report.Page{
		Rig: rig.Name, Made: run.Start.Started.Format("2 January 2006"), Seed: plan.Seed, Version: run.Start.Version,
		Plan:  planWords(plan),
		Units: drawing.UnitsOf(rig), Tried: int(g.rows), Families: g.list.Families, Notes: rig.Doubts(),
	}
	p.Meeting = int(g.meeting)
	t, limits := tallyOf(e, finalists)
	if g.meeting == 0 {
		var names []string
		var err error
		names, limits, _ = useColumns(e.Columns())
		if t, err = tallyRun(run, names); err != nil {
			return nil, err
		}
	} else if e.NeedsMotion() {
		p.Meeting, p.Families = int(t.meeting), list.Families
	}
	values := picture(p, rig, designs)
	if p.Meeting == 0 && len(designs) > 0 {
		w := e.NewWorkspace()
		w.ScoreValues(designs[0].values)
		p.Hindrance = t.hindrance(e, limits, w)
		p.Hindrance.Bounds = bounds(rig, values)
	}
	return p, nil
}

// picture gives the page its sheets, drawn to one scale and told apart. It
// returns the unknowns of each.
func picture(p *report.Page, rig *space.Rig, designs []design) [][]float64 {
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
	return values
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

// filledName is how the filled-in rig files and the tables of maps are called.
var filledName = regexp.MustCompile(`^[0-9]{2,}(\.yaml|-holds\.csv)$`)

// removeOlder removes the files of designs beyond the n that were written.
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
