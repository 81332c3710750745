package report

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// numberStops numbers everything of a page that a hand can use and that shows.
const numberStops = `(() => {
	let n = 0;
	for (const e of document.querySelectorAll("a[href], button, input, select, textarea, summary, [tabindex]"))
		if (e.tabIndex >= 0 && e.checkVisibility({visibilityProperty: true})) e.dataset.stop = n++;
	return n;
})()`

// stopped is where the keyboard is, whether that shows in the window, and how
// wide its outline is.
const stopped = `(() => {
	const e = document.activeElement, r = e.getBoundingClientRect(), s = getComputedStyle(e);
	return {Stop: Number(e.dataset.stop ?? -1), Outline: s.outlineStyle === "none" ? 0 : parseFloat(s.outlineWidth), Says: e.outerHTML.slice(0, 80),
		Seen: r.bottom > 0 && r.top < innerHeight && r.right > 0 && r.left < innerWidth};
})()`

type stop struct {
	Stop    int
	Outline float64
	Says    string
	Seen    bool
}

// leastOutline is what shows where the keyboard is, px.
const leastOutline = 2

// TestEverythingIsReachedByKeyboard goes through a page by the tabulator.
func TestEverythingIsReachedByKeyboard(t *testing.T) {
	ctx := openTab(t)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1400, 900), chromedp.Navigate(written(t, made(t, benched(t))))); err != nil {
		t.Fatal(err)
	}
	count := evaluated[int](t, ctx, numberStops)
	if count < 20 {
		t.Fatalf("only %d things to be used", count)
	}
	reached := map[int]bool{}
	for range count + 5 {
		if err := chromedp.Do(ctx, chromedp.KeyEvent(kb.Tab)); err != nil {
			t.Fatal(err)
		}
		s := evaluated[stop](t, ctx, stopped)
		if s.Stop < 0 {
			continue
		}
		reached[s.Stop] = true
		if !s.Seen || s.Outline < leastOutline {
			t.Errorf("the keyboard is there and it does not show: %+v", s)
		}
	}
	if len(reached) != count {
		t.Errorf("%d of %d are reached", len(reached), count)
	}
}

// TestOneDesignIsPrintedAlone: with a box ticked by the keyboard, the other
// designs and the front page stay away from paper, the cautions do not.
func TestOneDesignIsPrintedAlone(t *testing.T) {
	ctx := openTab(t)
	if err := chromedp.Do(ctx, chromedp.Navigate(written(t, made(t, invented(3, false))))); err != nil {
		t.Fatal(err)
	}
	const shown = `["#designs", "#notes", "#cautions", "#design-1", "#design-2", "#design-3"].filter((s) => document.querySelector(s).checkVisibility()).join(" ")`
	inMedium(t, ctx, "print", 700)
	if got := evaluated[string](t, ctx, shown); got != "#designs #notes #cautions #design-1 #design-2 #design-3" {
		t.Errorf("with no box ticked, print shows %s", got)
	}
	inMedium(t, ctx, "screen", 700)
	if err := chromedp.Do(ctx, chromedp.Focus("#design-2 .alone"), chromedp.KeyEvent(" ")); err != nil {
		t.Fatal(err)
	}
	if got := evaluated[string](t, ctx, shown); got != "#designs #notes #cautions #design-1 #design-2 #design-3" {
		t.Errorf("with a box ticked, the screen shows %s", got)
	}
	inMedium(t, ctx, "print", 700)
	if got := evaluated[string](t, ctx, shown); got != "#cautions #design-2" {
		t.Errorf("with its box ticked, print shows %s", got)
	}
}
