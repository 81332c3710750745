package drawing

import (
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"evenswing/space"
)

func TestCalloutsStandApart(t *testing.T) {
	for _, s := range scenes() {
		if s.style.Card {
			continue
		}
		places := placesOf(s.design, s.pose)
		v := view{rig: s.rig, design: s.design, places: places, style: &s.style, extent: extentOf(s.rig, s.design, places)}
		v.letter(sheetLines)
		all := calloutsOf(s.rig, s.design, places, &s.style)
		left, right := v.margins(all)
		checkApart(t, s.name, all, left, right)
	}
}

func TestManyCalloutsStandApart(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		all := make([]callout, 1+random.IntN(30))
		for i := range all {
			all[i] = callout{lines: make([]string, 1+random.IntN(4)), x: 1000 * random.Float64(), y: 1000 * random.Float64()}
		}
		arrange(all, -50, 1050, 12, func(_, _ float64) bool { return random.IntN(2) == 0 })
		checkApart(t, "random", all, -50, 1050)
	}
}

// apartSlack forgives rounding where two callouts touch, mm.
const apartSlack = 1e-6

// checkApart fails where two callouts of a margin overlap or their leaders
// cross.
func checkApart(t *testing.T, name string, all []callout, left, right float64) {
	t.Helper()
	for i := range all {
		for j := range all {
			a, b := &all[i], &all[j]
			if i == j || a.left != b.left || a.top > b.top {
				continue
			}
			if a.top+a.height > b.top+apartSlack {
				t.Errorf("%s: %q and %q overlap", name, a.lines, b.lines)
			}
			if leadersCross(a, b, a.edge(left, right)) {
				t.Errorf("%s: leaders of %q and %q cross", name, a.lines, b.lines)
			}
		}
	}
}

func TestNumbersOfACardStandApart(t *testing.T) {
	for _, s := range scenes() {
		if !s.style.Card {
			continue
		}
		numbers := balloonsOf(t, s.draw())
		if len(numbers) != len(s.design.Pendulums) {
			t.Errorf("%s: %d numbers for %d pendulums", s.name, len(numbers), len(s.design.Pendulums))
		}
		for i := range numbers {
			for j := range i {
				if hidden(numbers[i].at, numbers[j].at, numbers[i].radius+numbers[j].radius) > 0 {
					t.Errorf("%s: numbers %d and %d overlap", s.name, i+1, j+1)
				}
			}
		}
	}
}

type numberCircle struct {
	at     space.Vec
	radius float64
}

// balloonsOf are the circles that directly precede a bold text.
func balloonsOf(t *testing.T, picture []byte) []numberCircle {
	t.Helper()
	var found []numberCircle
	all := elements(t, picture)
	for i := 1; i < len(all); i++ {
		if c := &all[i-1]; all[i].attributes["font-weight"] == "bold" && c.name == "circle" {
			found = append(found, numberCircle{space.Vec{X: c.number(t, "cx"), Y: c.number(t, "cy")}, c.number(t, "r")})
		}
	}
	return found
}

func TestWrapped(t *testing.T) {
	for _, c := range []struct {
		text  string
		width int
		most  int
		want  []string
	}{
		{"beam", 10, 2, []string{"beam"}},
		{"", 10, 2, nil},
		{"12 discs of steel, 300\u00a0mm", 18, 3, []string{"12 discs of steel,", "300\u00a0mm"}},
		{"abcdefghijkl", 5, 2, []string{"abcde", "fghi…"}},
		{"abcdefghij", 5, 2, []string{"abcde", "fghij"}},
		{"אבגדהוזחטיך", 5, 1, []string{"אבגד…"}},
	} {
		if got := wrapped(c.text, c.width, c.most); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
	}
}

func TestWrappedNeverTooLong(t *testing.T) {
	for width := 2; width < 40; width++ {
		for _, line := range wrapped(strings.Repeat("swing of a pendulum ", 20), width, 4) {
			if n := len([]rune(line)); n > width {
				t.Errorf("width %d: line of %d", width, n)
			}
		}
	}
}
