package shortlist

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"evenswing/objective"
	"evenswing/search"
	"evenswing/space"
)

// adjusted makes a rig of two adjusters a pendulum of four.yaml: weights that slide
// up and down, and sideways.
var adjusted = []string{
	"  a4:  150 to 450 mm", "  a4:  150 to 450 mm\n  s2: {range: -20 to 20 mm, movable: 25 mm}\n  s4: {range: -20 to 20 mm, movable: 25 mm}",
	"  b4:  200 to 550 mm", "  b4:  {range: 200 to 550 mm, movable: 25 mm}",
	"  a2:  120 to 450 mm", "  a2:  {range: 120 to 450 mm, movable: 25 mm}",
	"  h3:  -80 to 80 mm", "  h3:  {range: -80 to 80 mm, movable: 25 mm}",
	"  h1:  -120 to 120 mm", "  h1:  {range: -120 to 120 mm, movable: 25 mm}",
	"  r1:  150 to 600 mm", "  r1:  {range: 150 to 600 mm, movable: 15 mm}",
	"  l3:  120 to 450 mm", "  l3:  {range: 120 to 450 mm, movable: 15 mm}",
	"lumps: {bob: {at: [0 mm, a2]", "lumps: {bob: {at: [s2, a2]",
	"      bob: {at: [0 mm, -b4]", "      bob: {at: [s4, -b4]",
}

// studied are kinds of rig: equal slow and equal fast periods that hardly touch,
// the same with much exchange allowed, near periods, and separate ones.
var studied = []struct {
	name    string
	replace []string
}{
	{"4.6 4.6 2.3 2.3 s, slosh 4 %", nil},
	{"4.6 4.6 2.3 2.3 s, slosh 60 %", []string{"slosh: 4 %", "slosh: 60 %"}},
	{"4.6 4.55 2.3 2.275 s, slosh 60 %", []string{"two: 4.6 s", "two: 4.55 s", "four: 2.3 s", "four: 2.275 s", "slosh: 4 %", "slosh: 60 %"}},
	{"4.6 4.48 2.3 2.24 s", []string{"two: 4.6 s", "two: 4.48 s", "four: 2.3 s", "four: 2.24 s"}},
	{"4.6 4.1 2.3 2.05 s", []string{"two: 4.6 s", "two: 4.1 s", "four: 2.3 s", "four: 2.05 s", "slosh: 4 %", "slosh: 20 %"}},
}

// studyDesigns is how many designs of a kind are looked at, studyBuilds how many
// builds of each, studyTry how many evaluations find them.
const (
	studyDesigns = 60
	studyBuilds  = 100
	studyTry     = 30_000
)

// study prints, for designs that keep every limit and have travel enough, how many
// builds the page's table and order bring right, by how well the periods follow
// the table: the measurement behind what the page calls near-equal.
func study(t *testing.T) {
	bounds := []float64{0.1, 0.3, 0.6, 0.8, 1, 1.5, 100}
	count, right, least := make([]int, len(bounds)), make([]int, len(bounds)), make([]int, len(bounds))
	agree, all := 0, 0
	for _, kind := range studied {
		for _, m := range machinesOf(t, kind.replace) {
			if a := m.tuner.Authority; a.Share > 0.95 || a.Remainder > 0.3 {
				continue
			}
			met := m.meeting(studyBuilds, tuningRounds, func() way { return byOrder{} })
			k := 0
			for m.page.Mixing.Bend > bounds[k] && k < len(bounds)-1 {
				k++
			}
			if count[k] == 0 || met < least[k] {
				least[k] = met
			}
			count[k]++
			right[k] += met
			all++
			if m.page.Near == (met < 95) {
				agree++
			}
		}
	}
	t.Logf("off the table, over what is allowed (2 sigma): designs, of 100 builds right by table and order, least")
	for k, b := range bounds {
		if count[k] > 0 {
			t.Logf("  up to %5.1f: %3d designs, %5.1f, %3d", b, count[k], float64(right[k])/float64(count[k]), least[k])
		}
	}
	t.Logf("the page's word on the kind is right for %d of %d designs (a table fails where it brings less than 95 of 100 builds right)", agree, all)
}

// machinesOf searches a kind of rig and takes designs that keep every limit, evenly
// from all that were found.
func machinesOf(t *testing.T, replace []string) (list []*machine) {
	data, err := os.ReadFile("../../testdata/rigs/four.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i, all := 0, append(replace, adjusted...); i < len(all); i += 2 {
		if strings.Count(text, all[i]) != 1 {
			t.Fatalf("%q stands %d times", all[i], strings.Count(text, all[i]))
		}
		text = strings.Replace(text, all[i], all[i+1], 1)
	}
	rig, err := space.Read("four.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	e := objective.New(rig)
	k := &keeper{decoder: rig.NewDecoder()}
	plan := search.Plan{Seed: 1, Evaluations: studyTry, Islands: 1, Epochs: 1}
	p := pointed{search.Of(e)}
	if _, err := search.RunTask(t.Context(), p, plan, search.Task{}, k); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	for n := range min(studyDesigns, len(k.points)) {
		k.decoder.Point(k.points[n*len(k.points)/min(studyDesigns, len(k.points))])
		file := filepath.Join(dir, fmt.Sprintf("%d.yaml", n))
		if err := os.WriteFile(file, rig.FillIn(k.decoder.Design.Unknowns), 0o644); err != nil {
			t.Fatal(err)
		}
		list = append(list, newMachine(t, file))
	}
	return list
}

// pointed remembers the point that its scorer was asked last.
type pointed struct{ search.Problem }

func (p pointed) NewScorer() search.Scorer {
	return &pointedScorer{Smooth: p.Problem.NewScorer().(search.Smooth), point: make([]float64, len(p.Genes()))}
}

type pointedScorer struct {
	search.Smooth
	point []float64
}

func (s *pointedScorer) Score(point []float64) objective.Verdict {
	copy(s.point, point)
	return s.Smooth.Score(point)
}

// keeper is a store that keeps the points that meet every limit.
type keeper struct {
	decoder *space.Decoder
	points  [][]float64
}

func (k *keeper) Finished(search.Task) (bool, error)         { return false, nil }
func (k *keeper) ReadState(search.Task) ([]byte, error)      { return nil, nil }
func (k *keeper) WriteState(search.Task, []byte) error       { return nil }
func (k *keeper) RemoveState(search.Task) error              { return nil }
func (k *keeper) Begin(search.Task) (search.Recorder, error) { return k, nil }
func (k *keeper) Finish() error                              { return nil }
func (k *keeper) Discard()                                   {}

func (k *keeper) Record(row *search.Row) error {
	if row.Verdict.Meets == objective.Yes {
		k.points = append(k.points, slices.Clone(row.Scorer.(*pointedScorer).point))
	}
	return nil
}
