package report

import (
	"context"
	"fmt"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// contrast finds text that is hard to read: the contrast of every visible text
// with what lies under it, by WCAG 2.2 (relative luminance and contrast ratio;
// success criterion 1.4.3): at least 4.5 to 1, from 24 px, or 18.66 px in bold,
// 3 to 1. Under a text of a page lies the nearest ancestor's ground; under one
// of a picture the last shape painted there before it, of a hatch all its
// colours; a text with a halo lies on its halo.
const contrast = `(() => {
	const numbers = (colour) => { const v = (colour.match(/[\d.]+/g) || [0, 0, 0, 0]).map(Number); return [v[0], v[1], v[2], v[3] ?? 1]; };
	const over = (a, b) => [0, 1, 2].map((i) => a[3] * a[i] + (1 - a[3]) * b[i]).concat(1);
	const linear = (c) => (c /= 255) <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
	const luminance = (c) => 0.2126 * linear(c[0]) + 0.7152 * linear(c[1]) + 0.0722 * linear(c[2]);
	const ratio = (a, b) => { const [x, y] = [luminance(a), luminance(b)].sort((p, q) => q - p); return (x + 0.05) / (y + 0.05); };
	const white = [255, 255, 255, 1], shapes = "rect, circle, polygon, path, ellipse";
	const ground = (e) => {
		const above = [];
		for (; e; e = e.parentElement) above.push(numbers(getComputedStyle(e).backgroundColor));
		return above.reverse().reduce((below, c) => over(c, below), white);
	};
	const fills = (shape) => {
		const fill = getComputedStyle(shape).fill, name = fill.match(/#([^")]+)/);
		const parts = name ? [...document.getElementById(name[1]).children] : [];
		return parts.length ? parts.flatMap((p) => [getComputedStyle(p).fill, getComputedStyle(p).stroke]).filter((c) => c !== "none").map(numbers)
			: [numbers(fill).slice(0, 3).concat(Number(getComputedStyle(shape).fillOpacity))];
	};
	const under = (text) => {
		const style = getComputedStyle(text);
		if (style.stroke !== "none" && style.paintOrder.startsWith("stroke")) return [numbers(style.stroke)];
		const box = text.getBoundingClientRect(), at = new DOMPoint((box.left + box.right) / 2, (box.top + box.bottom) / 2);
		let found = [ground(text.ownerSVGElement)];
		for (const s of text.ownerSVGElement.querySelectorAll(shapes)) {
			if (!(s.compareDocumentPosition(text) & Node.DOCUMENT_POSITION_FOLLOWING)) break;
			if (s.closest("defs") || getComputedStyle(s).fill === "none") continue;
			const b = s.getBoundingClientRect();
			if (at.x < b.left || at.x > b.right || at.y < b.top || at.y > b.bottom) continue;
			if (s.isPointInFill(at.matrixTransform(s.getScreenCTM().inverse()))) found = fills(s).flatMap((c) => found.map((f) => over(c, f)));
		}
		return found;
	};
	const bad = [], walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
	let looked = 0;
	for (let n = walker.nextNode(); n; n = walker.nextNode()) {
		const e = n.parentElement, drawn = e.ownerSVGElement;
		if (!n.data.trim() || e.closest("title, desc, script, style, option, .unseen, .skip") || !e.checkVisibility({visibilityProperty: true})) continue;
		const style = getComputedStyle(e), scale = drawn ? Math.hypot(e.getScreenCTM().a, e.getScreenCTM().b) : 1;
		const size = parseFloat(style.fontSize) * scale, large = size >= 24 || size >= 18.66 && Number(style.fontWeight) >= 700;
		looked++;
		for (const below of drawn ? under(e) : [ground(e)]) {
			const c = ratio(over(numbers(drawn ? style.fill : style.color), below), below);
			if (c < (large ? 3 : 4.5)) { bad.push(c.toFixed(2) + " to 1 at " + size.toFixed(1) + " px: " + n.data.trim().slice(0, 40) + " in " + e.outerHTML.slice(0, 80)); break; }
		}
	}
	return {Looked: looked, Bad: bad.slice(0, 8)};
})()`

// found is what a look at every text of a page finds.
type found struct {
	Looked int
	Bad    []string
}

// inMedium shows a page of some width on the screen or as it would be printed.
func inMedium(t *testing.T, ctx context.Context, medium string, width int64) {
	t.Helper()
	if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: medium}); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 1000)); err != nil {
		t.Fatal(err)
	}
}

// TestEveryTextCanBeRead: on the screen of a desk and of a telephone, and in
// print.
func TestEveryTextCanBeRead(t *testing.T) {
	ctx := openTab(t)
	for name, page := range map[string]*Page{"bench": benched(t), "failing": failing(), "motions": moving()} {
		if err := chromedp.Do(ctx, chromedp.Navigate(written(t, made(t, page)))); err != nil {
			t.Fatal(err)
		}
		for _, m := range []struct {
			medium string
			width  int64
		}{{"screen", 1400}, {"screen", 390}, {"print", 700}} {
			inMedium(t, ctx, m.medium, m.width)
			f := evaluated[found](t, ctx, contrast)
			if f.Looked < 300 {
				t.Errorf("%s in %s: only %d texts were looked at", name, m.medium, f.Looked)
			}
			for _, bad := range f.Bad {
				t.Errorf("%s in %s at %d: %s", name, m.medium, m.width, bad)
			}
		}
	}
}

// TestContrastCanFail: grey on white, grey on pale, and text over a dark shape
// of a picture are found; black on white is not. #777 on white is 4.48 to 1,
// #767676 is 4.54 to 1 (computed by the formula).
func TestContrastCanFail(t *testing.T) {
	ctx := openTab(t)
	for html, want := range map[string]int{
		`<p style="color: #777">grey</p>`: 1, `<p style="color: #767676">grey</p>`: 0,
		`<p style="color: #777; font-size: 24px">grey</p>`:                                                                                                       0,
		`<div style="background: #ccc"><p style="color: #666">grey</p></div>`:                                                                                    1,
		`<svg width="90" height="30"><rect width="90" height="30" fill="#333"/><text x="9" y="20" fill="#000">dark</text></svg>`:                                 1,
		`<svg width="90" height="30"><rect width="90" height="30" fill="#333"/><text x="9" y="20" stroke="#fff" paint-order="stroke" fill="#000">d</text></svg>`: 0,
	} {
		if err := chromedp.Do(ctx, chromedp.Navigate(written(t, "<!DOCTYPE html><title>x</title><body>"+html))); err != nil {
			t.Fatal(err)
		}
		if f := evaluated[found](t, ctx, contrast); f.Looked != 1 || len(f.Bad) != want {
			t.Errorf("%s: %s", html, fmt.Sprint(f))
		}
	}
}
