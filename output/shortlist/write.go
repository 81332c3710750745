package shortlist

import (
	"context"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/drawing"
	"evenswing/output/durable"
	"evenswing/output/report"
	"evenswing/output/trouble"
	"evenswing/output/workshop"
	"evenswing/space"
)

// Written is a shortlist that was written.
type Written struct {
	Page  *report.Page
	Dir   string
	List  List
	Swung int // how many finalists' motion was followed
	// Settled is how many of these were made of better ones by settling on it.
	Settled int
	// Remark says that another program's rows were gone through, if so.
	Remark string
}

// design is one design of the list with all that is shown of it.
type design struct {
	file    string
	values  []float64
	sheet   report.Sheet
	drawn   report.Drawn
	filled  []byte
	holds   []byte // the map's numbers; nil where there is none
	bench   []workshop.File
	sources report.Sources
	row     []float32
	missing []bool
	limit   string
	meets   objective.Meets
	chosen  Chosen
}

// Write goes through all rows of a run, follows the motion of the finalists,
// and writes the best top of them to dir: index.html, shortlist.csv and 01.yaml,
// 02.yaml, ... with the drawings and tables of each. Files of an earlier, longer list go. The rows of the finalists
// go to the run's folder once all its tasks are finished, unless this program
// would make other rows than the run has. When ctx ends before
// anything is written, its error is returned.
func Write(ctx context.Context, fs durable.FS, run *dataset.Run, e *objective.Evaluator, top int, dir string) (*Written, error) {
	g, err := gather(run, e, FinalistsOf(run.Whole(), e))
	if err != nil {
		return nil, err
	}
	finalists, err := swingAll(ctx, run, e, g.list.Designs)
	if err != nil {
		return nil, err
	}
	settled, err := settleAll(ctx, run.Whole(), e, finalists)
	if err != nil {
		return nil, err
	}
	finalists = append(finalists, settled...)
	w := &Written{Dir: dir, Swung: len(finalists), Settled: len(settled)}
	if same, why := ourHands(run); !same {
		w.Remark = "the designs were chosen by the rows as they are and judged anew by this program: " + why
	} else if err := keepFinalists(fs, run, e, finalists); err != nil {
		return nil, err
	}
	list := rankFinalists(e, finalists, top)
	designs, err := look(ctx, e, finalists, list.Designs)
	if err != nil {
		return nil, err
	}
	w.List = list
	if w.Page, err = pageOf(run, e, g, finalists, &list, designs); err != nil {
		return nil, err
	}
	return w, writeFiles(fs, dir, e, w.Page, designs)
}

// keepFinalists writes the rows of the finalists once all tasks are finished.
func keepFinalists(fs durable.FS, run *dataset.Run, e *objective.Evaluator, finalists []finalist) error {
	whole, err := run.Complete()
	if err != nil || !whole {
		return err
	}
	return writeFinalists(fs, run, e, finalists)
}

func writeFiles(fs durable.FS, dir string, e *objective.Evaluator, page *report.Page, designs []design) error {
	html, err := report.HTML(page)
	if err != nil {
		return err
	}
	if err := durable.MakeFolder(fs, dir); err != nil {
		return err
	}
	written := map[string]bool{}
	for k := range designs {
		for _, f := range designs[k].files(k + 1) {
			if err := durable.WriteFile(fs, filepath.Join(dir, f.Name), f.Data); err != nil {
				return err
			}
			written[f.Name] = true
		}
	}
	if err := durable.WriteFile(fs, filepath.Join(dir, "shortlist.csv"), table(e, designs)); err != nil {
		return err
	}
	if err := durable.WriteFile(fs, filepath.Join(dir, "index.html"), html); err != nil {
		return err
	}
	return removeOlder(fs, dir, written)
}

// files are all of the n-th design, from 1.
func (d *design) files(n int) []workshop.File {
	list := []workshop.File{{Name: d.file, Data: d.filled}}
	if d.holds != nil {
		list = append(list, workshop.File{Name: holdsFile(n), Data: d.holds})
	}
	for _, f := range d.bench {
		list = append(list, workshop.File{Name: fmt.Sprintf("%02d-%s", n, f.Name), Data: f.Data})
	}
	return list
}

func finalistsByID(list []finalist) map[int64]*finalist {
	byID := map[int64]*finalist{}
	for k := range list {
		byID[list[k].chosen.ID] = &list[k]
	}
	return byID
}

// look works every chosen design out once more, for its sheet, side by side.
func look(ctx context.Context, e *objective.Evaluator, finalists []finalist, chosen []Chosen) ([]design, error) {
	byID := finalistsByID(finalists)
	designs := make([]design, len(chosen))
	return designs, sideBySide(ctx, e, len(chosen), func(_ *objective.Workspace, k int) error {
		f := byID[chosen[k].ID]
		w := e.NewWorkspace() // keeps the design for its drawing
		w.ScoreValues(f.origin.values)
		w.SwingUp()
		if f.holding != nil {
			w.KeepHolding(f.holding)
		}
		designs[k] = designOf(e, w, f, chosen[k], k+1)
		troubles, err := w.Troubles(ctx.Err)
		if err == nil {
			designs[k].sheet.Troubles = trouble.New(w, troubles, fmt.Sprintf("t%02d-", k+1))
		}
		return err
	})
}

// designOf makes the n-th design of a list, from 1, from a finalist that was swung up.
func designOf(e *objective.Evaluator, w *objective.Workspace, f *finalist, c Chosen, n int) design {
	d, units := design{file: fmt.Sprintf("%02d.yaml", n), values: w.Design().Unknowns, chosen: c, meets: w.Meets}, drawing.UnitsOf(e.Rig())
	d.limit = f.words.limit
	d.sheet = sheetOf(e, w)
	d.sheet.Rank, d.sheet.ID, d.sheet.File = n, c.ID, d.file
	d.sheet.Modes = modesOf(w, e.Rig(), n, units)
	d.sheet.Motion, d.sheet.Swing = motionOf(e, w, n, units)
	d.sheet.Holds, d.holds = holdsOf(w, e.Rig(), n, units)
	tolerance := w.Tolerance(objective.TrialBuilds, objective.TrialSeed)
	d.sheet.Tuning = tuningOf(w, e.Rig(), tolerance)
	d.sheet.Workshop = workshop.New(e, w, fmt.Sprintf("w%02d-", n))
	d.sources = sourcesOf(w, tolerance, d.sheet.Metal())
	d.bench = d.sheet.Workshop.Files()
	d.drawn = report.Drawn{Design: w.Design(), Rest: w.Pose(), Masses: w.Masses()}
	d.filled = e.Rig().FillIn(d.values)
	d.row, d.missing = f.row, f.missing
	return d
}

func pageOf(run *dataset.Run, e *objective.Evaluator, g *gathered, finalists []finalist, list *List, designs []design) (*report.Page, error) {
	rig, plan := e.Rig(), run.Start.Plan
	p := &report.Page{
		Rig: rig.Name, Made: run.Start.Started.Format("2 January 2006"), Seed: plan.Seed, Version: run.Start.Version,
		Plan:  planWords(run),
		Units: drawing.UnitsOf(rig), Tried: int(g.rows), Families: g.list.Families, Notes: rig.Doubts(), Sources: report.Sources{},
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
		maps.Copy(p.Sources, designs[k].sources)
		p.Sheets = append(p.Sheets, s)
	}
	return values
}

func planWords(run *dataset.Run) string {
	p := run.Start.Plan
	text := fmt.Sprintf("%s evaluations, %s, %s", report.Grouped(run.Whole().Evaluations), several(p.Islands, "island"), several(p.Epochs, "epoch"))
	if n := len(run.Tasks()) - p.Islands*p.Epochs; n > 0 {
		text += fmt.Sprintf(", %s in the time that was left", several(n, "further island"))
	}
	return text
}

func several(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// filledName is how the files of single designs are called.
var filledName = regexp.MustCompile(`^[0-9]{2,}(\.yaml|-(holds|cutlist|metal|pivots|loads)\.csv|-(front|side|parts)\.(svg|dxf))$`)

// removeOlder removes the files of single designs that were not written now.
func removeOlder(fs durable.FS, dir string, written map[string]bool) error {
	names, err := fs.Names(dir)
	if err != nil {
		return err
	}
	for _, name := range names {
		if written[name] || !filledName.MatchString(name) {
			continue
		}
		if err := fs.Remove(filepath.Join(dir, name)); err != nil && !os.IsNotExist(err) {
			return err
		}
	}
	return nil
}
