package shortlist

import (
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"

	"evenswing/objective"
	"evenswing/output/report"
	"evenswing/space"
)

// How builders read their machine: periods by a stopwatch over many swings, levels
// by a good inclinometer. Moves are made exactly.
const (
	periodReading = 1e-3                 // relative, one standard deviation
	levelReading  = 0.05 * math.Pi / 180 // rad
	tuningRounds  = 3
	buildersSeed  = 20_251_125
	buildersAll   = 200 // builds of make builders
	buildersFew   = 20  // and of every test run
)

// machine is one design as it comes out of workshops, and what its page says.
type machine struct {
	tuner   *objective.Tuner
	design  *space.Design
	page    *report.Tuning
	room    [][2]float64 // by adjuster: down and up, SI
	step    []float64    // by adjuster: what the page's table is per, SI
	effects [][]float64  // by adjuster, then target: as the page prints it
	allowed []float64    // by target, as the page prints it; 0 where nothing is limited
	order   [][2]int     // adjuster and target
}

func newMachine(t *testing.T, file string) *machine {
	t.Helper()
	rig, err := space.Load(file)
	if err != nil {
		t.Fatal(err)
	}
	w := objective.New(rig).NewWorkspace()
	w.ScoreValues(rig.StartValues())
	m := &machine{tuner: w.NewTuner(), design: w.Design(), page: tuningOf(w, rig, w.Tolerance(objective.TrialBuilds, objective.TrialSeed))}
	if !m.tuner.Load() {
		t.Fatal(w.Reason())
	}
	index := map[string]int{}
	for k, row := range m.page.Targets {
		index[row.Name] = k
		m.allowed = append(m.allowed, printed(t, row.Allowed.Text))
	}
	for k, a := range m.page.Adjusters {
		index[a.Name] = k
		down, up := m.tuner.Table.Room(k)
		m.room = append(m.room, [2]float64{down, up})
		m.step = append(m.step, map[string]float64{"1 mm": 1e-3, "100 g": 0.1, "1°": math.Pi / 180}[a.Per])
		var row []float64
		for _, x := range a.Effects {
			row = append(row, printed(t, x.Text))
		}
		m.effects = append(m.effects, row)
	}
	for _, s := range m.page.Steps {
		m.order = append(m.order, [2]int{index[s.Adjuster], index[s.Target]})
	}
	m.tuner.Builds.Load()
	return m
}

// printed reads a number of the page back: seconds, percent or degrees.
func printed(t *testing.T, text string) float64 {
	t.Helper()
	for _, unit := range []string{" s", " %", "°"} {
		text = strings.TrimSuffix(text, unit)
	}
	if text == "" {
		return 0
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// readTo fills dst with what a builder reads off, in the page's units.
func (m *machine) readTo(dst, errors []float64, rng *rand.Rand) {
	periods := make([]float64, len(m.design.Pendulums))
	for i := range periods {
		periods[i] = periodReading * rng.NormFloat64()
	}
	for k, target := range m.tuner.Table.Targets {
		switch {
		case k < len(m.design.Targets.Periods):
			p := &m.design.Targets.Periods[target.Index]
			dst[k] = p.Want * math.Expm1(errors[k]+periods[p.Pendulum])
		case k < len(m.design.Targets.Periods)+len(m.design.Targets.Ratios):
			r := &m.design.Targets.Ratios[target.Index]
			dst[k] = 100 * (errors[k] + periods[r.Slow] - periods[r.Fast])
		default:
			dst[k] = 180 / math.Pi * (errors[k] + levelReading*rng.NormFloat64())
		}
	}
}

// clip keeps an adjuster in its room.
func (m *machine) clip(a int, x float64) float64 {
	return max(-m.room[a][0], min(m.room[a][1], x))
}

// way is how a builder turns readings into places of the adjusters, SI.
type way interface {
	move(m *machine, at, readings []float64, rng *rand.Rand)
}

// byOrder is a builder who takes the page's steps one after the other, and counts
// by its table what each does to the readings of the others.
type byOrder struct{}

func (byOrder) move(m *machine, at, readings []float64, _ *rand.Rand) {
	for _, s := range m.order {
		a, target := s[0], s[1]
		if m.effects[a][target] == 0 {
			continue
		}
		to := m.clip(a, at[a]-readings[target]/m.effects[a][target]*m.step[a])
		for k := range readings {
			readings[k] += m.effects[a][k] * (to - at[a]) / m.step[a]
		}
		at[a] = to
	}
}

// together is a builder who works out all moves at once from the page's table.
type together struct{}

func (together) move(m *machine, at, readings []float64, _ *rand.Rand) {
	n, rows := len(at), len(readings)
	g, e := mat.NewDense(rows+n, n, nil), mat.NewVecDense(rows+n, nil)
	for k := range readings {
		if m.allowed[k] > 0 {
			e.SetVec(k, -readings[k]/m.allowed[k])
			for a := range at {
				g.Set(k, a, m.effects[a][k]/m.allowed[k]*(m.room[a][0]+m.room[a][1])/2/m.step[a])
			}
		}
	}
	for a := range at {
		g.Set(rows+a, a, 0.01)
	}
	var x mat.VecDense
	if err := x.SolveVec(g, e); err != nil {
		return
	}
	for a := range at {
		at[a] = m.clip(a, at[a]+x.AtVec(a)*(m.room[a][0]+m.room[a][1])/2)
	}
}

// unaided is a builder without the table. He knows which adjuster is for which
// reading, guesses the direction first, and goes on by what his own last move
// did to that reading alone.
type unaided struct{ last, was []float64 }

func (u *unaided) move(m *machine, at, readings []float64, rng *rand.Rand) {
	first := u.last == nil
	if first {
		u.last, u.was = make([]float64, len(at)), make([]float64, len(readings))
	}
	for _, s := range m.order {
		a, target := s[0], s[1]
		before := at[a]
		slope := (readings[target] - u.was[target]) / u.last[a]
		switch {
		case first || u.last[a] == 0 || slope == 0:
			at[a] = m.clip(a, before+math.Copysign(0.25, rng.Float64()-0.5)*(m.room[a][0]+m.room[a][1])/2)
		default:
			at[a] = m.clip(a, before-readings[target]/slope)
		}
		u.last[a] = at[a] - before
	}
	copy(u.was, readings)
}

// meeting counts the builds that keep every linear limit after the rounds.
func (m *machine) meeting(builds, rounds int, newWay func() way) (met int) {
	b := m.tuner.Builds
	defer b.Restore()
	errors, readings := make([]float64, len(m.allowed)), make([]float64, len(m.allowed))
	for build := range builds {
		b.Draw(rand.New(rand.NewPCG(buildersSeed, uint64(build))))
		rng := rand.New(rand.NewPCG(buildersSeed+1, uint64(build)))
		at, w := make([]float64, len(m.room)), newWay()
		sound := b.ErrorsTo(errors, at)
		for range rounds {
			if !sound {
				break
			}
			m.readTo(readings, errors, rng)
			w.move(m, at, readings, rng)
			sound = b.ErrorsTo(errors, at)
		}
		if sound && m.tuner.Table.Keeps(errors) {
			met++
		}
	}
	return met
}

func (m *machine) compare(builds int) (untuned, ordered, atOnce, alone int) {
	untuned = m.meeting(builds, 0, func() way { return byOrder{} })
	ordered = m.meeting(builds, tuningRounds, func() way { return byOrder{} })
	atOnce = m.meeting(builds, tuningRounds, func() way { return together{} })
	alone = m.meeting(builds, tuningRounds, func() way { return &unaided{} })
	return
}

// TestBuilders: builders of a demo design who use its page come right, and clearly
// more often than those without it: of twenty, with the page nineteen, without it
// at least six fewer. (Of 200, `make builders` counts 200 and 45.)
func TestBuilders(t *testing.T) {
	m := newMachine(t, "../../testdata/builders/landing.yaml")
	untuned, ordered, atOnce, alone := m.compare(buildersFew)
	t.Logf("of %d builds %d keep every linear limit untuned, %d by table and order, %d by the table at once, %d without a table", buildersFew, untuned, ordered, atOnce, alone)
	if ordered < 19 || ordered < alone+6 || alone < untuned {
		t.Errorf("of %d builds %d untuned, %d by table and order, %d without a table", buildersFew, untuned, ordered, alone)
	}
	if m.page.Near || m.page.Mixing == nil || m.page.Rounds() > tuningRounds {
		t.Errorf("the page calls it near-equal (%v) or wants %d rounds", m.page.Near, m.page.Rounds())
	}
}

// TestBuildersAll prints what make builders is for: the best design of the demo in
// the hands of 200 builders, then which designs a table serves.
func TestBuildersAll(t *testing.T) {
	file := os.Getenv("EVENSWING_BUILDERS")
	if file == "" {
		t.Skip("takes a minute: run `make builders`")
	}
	m := newMachine(t, file)
	untuned, ordered, atOnce, alone := m.compare(buildersAll)
	t.Logf("%d builds of %s within its tolerances, %d rounds of readings with %g %% error:", buildersAll, file, tuningRounds, 100*periodReading)
	t.Logf("  untuned                          %3d keep every linear limit", untuned)
	t.Logf("  by the page's table and order    %3d", ordered)
	t.Logf("  by the table, all moves at once  %3d", atOnce)
	t.Logf("  without the table                %3d", alone)
	study(t)
}
