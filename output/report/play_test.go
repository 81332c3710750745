package report

import (
	"context"
	"math"
	"strconv"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// evaluated is what an expression gives in the page that is open.
func evaluated[T any](t *testing.T, ctx context.Context, expression string) T {
	t.Helper()
	value, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression))
	if err != nil {
		t.Fatalf("%s: %v", expression, err)
	}
	return value
}

// firstTurn is how the first pendulum's first group is put.
const firstTurn = `document.querySelector(".stage [data-body='0']").getAttribute("transform")`

// opened opens the page of a moving rig, with or without the wish for less
// motion, its scene in view.
func opened(t *testing.T, ctx context.Context, less bool) {
	t.Helper()
	wish := "no-preference"
	if less {
		wish = "reduce"
	}
	media := emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-reduced-motion", Value: wish}}}
	if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, media); err != nil {
		t.Fatal(err)
	}
	err := chromedp.Do(ctx, chromedp.EmulateViewport(1400, 1000), chromedp.Navigate(written(t, made(t, invented(1, false)))),
		chromedp.ScrollIntoView(".swing .controls"))
	if err != nil {
		t.Fatal(err)
	}
}

// moves tells whether the rig is elsewhere a while later.
func moves(t *testing.T, ctx context.Context) bool {
	t.Helper()
	before := evaluated[string](t, ctx, firstTurn)
	time.Sleep(400 * time.Millisecond)
	return evaluated[string](t, ctx, firstTurn) != before
}

func TestTheRigSwingsOnTheScreen(t *testing.T) {
	ctx := openTab(t)
	heard := listen(t, ctx)
	heard.take("")
	opened(t, ctx, false)
	if !moves(t, ctx) {
		t.Error("in view, it does not swing")
	}
	press := func() {
		if err := chromedp.Do(ctx, chromedp.Focus(".play"), chromedp.KeyEvent(" ")); err != nil {
			t.Fatal(err)
		}
	}
	press()
	if moves(t, ctx) || evaluated[string](t, ctx, `document.querySelector(".play").textContent`) != "Play" {
		t.Error("the space bar does not stop it")
	}
	press()
	if !moves(t, ctx) {
		t.Error("the space bar does not start it again")
	}
	press()
	before := evaluated[string](t, ctx, firstTurn)
	if err := chromedp.Do(ctx, chromedp.Focus(".swing input"), chromedp.KeyEvent(kb.ArrowRight)); err != nil {
		t.Fatal(err)
	}
	if before == evaluated[string](t, ctx, firstTurn) {
		t.Error("the arrow key does not move the time on")
	}
}

func TestLessMotionIsRespected(t *testing.T) {
	ctx := openTab(t)
	opened(t, ctx, true)
	if moves(t, ctx) {
		t.Error("it swings by itself although less motion is wished for")
	}
	if err := chromedp.Do(ctx, chromedp.Focus(".play"), chromedp.KeyEvent(kb.Enter)); err != nil {
		t.Fatal(err)
	}
	if !moves(t, ctx) {
		t.Error("it does not swing when asked to")
	}
}

// playedTo is how near the played pen is to the one reckoned from the angles,
// mm: a tenth of the line's width and more than 16 bits and two decimals lose.
const playedTo = 0.04

// TestThePenGoesWhereTheAnglesPutIt compares the line of the script with a
// second way through the frames: pivots and sheet by package drawing's rules,
// here by hand, at samples and between them.
func TestThePenGoesWhereTheAnglesPutIt(t *testing.T) {
	ctx := openTab(t)
	opened(t, ctx, true)
	page := invented(1, false)
	s := page.Sheets[0].Swing
	for _, at := range []float64{0, 1.6, 16, 160} {
		k := int(math.Round(at / s.Poses.Step))
		wantX, wantY := penByHand(s, k)
		set := `(() => { const i = document.querySelector(".swing input"); i.value = ` + strconv.FormatFloat(at, 'g', -1, 64) +
			`; i.dispatchEvent(new Event("input")); const c = document.querySelector("[data-nib]"); return [Number(c.getAttribute("cx")), Number(c.getAttribute("cy"))]; })()`
		got := evaluated[[]float64](t, ctx, set)
		if math.Abs(got[0]-wantX) > playedTo || math.Abs(got[1]+wantY) > playedTo {
			t.Errorf("at %v s the pen is at %v, want %v, %v up", at, got, wantX, wantY)
		}
	}
	paths := evaluated[string](t, ctx, `[...document.querySelectorAll(".stage g[id$=line] path")].map(p => p.getAttribute("d").split("L").length).join(" ")`)
	if want := "401 401 401 401 401 401 401 401 401 401 1"; paths != want {
		t.Errorf("places of the line by path: %s, want %s", paths, want)
	}
}

// penByHand is the pen on the sheet, mm from its middle, y up, at a sample: the
// sheet hangs on the third pendulum, the pen on the wall.
func penByHand(s *Swing, k int) (x, y float64) {
	for i := range s.Chains.Bodies[:3] {
		on, turn := s.Chains.Bodies[i], 0.0
		if i > 0 {
			turn = s.Poses.Angles[i-1][k]
		}
		x += math.Cos(turn)*on.At.X - math.Sin(turn)*on.At.Y
		y += math.Sin(turn)*on.At.X + math.Cos(turn)*on.At.Y
	}
	x, y = s.Chains.Pen.At.X-x, s.Chains.Pen.At.Y-y
	turn := s.Poses.Angles[2][k]
	x, y = math.Cos(turn)*x+math.Sin(turn)*y, math.Cos(turn)*y-math.Sin(turn)*x
	return 1000 * (x - s.Chains.Paper.At.X), 1000 * (y - s.Chains.Paper.At.Y)
}
