package report

import (
	"context"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// paper is a sheet of a printer, mm, and what the margins of the style sheet
// leave of it.
type paper struct {
	name          string
	size          chromedp.PaperSize
	width, height float64
}

// The margins of @page in style.css, mm.
const (
	marginAcross = 11.0
	marginDown   = 10.0
)

// A4 is 210 by 297 mm (ISO 216), letter 8.5 by 11 in (ANSI Y14.1).
var papers = []paper{{"A4", chromedp.PaperA4, 210, 297}, {"letter", chromedp.PaperLetter, 215.9, 279.4}}

// pixelsPerMillimetre: a CSS pixel is 1/96 in.
const pixelsPerMillimetre = 96 / 25.4

// laidOut looks at every picture and every text of a page as it is laid out for
// print: pictures that a page has no room for or that may be split, and text
// below 7 points.
const laidOut = `((width, height) => {
	const bad = [], pictures = [...document.querySelectorAll("figure, .picture, svg")].filter((e) => e.checkVisibility() && !e.closest("svg svg"));
	const kept = (e) => { for (; e; e = e.parentElement) if (getComputedStyle(e).breakInside === "avoid") return true; return false; };
	for (const p of pictures) {
		const r = p.getBoundingClientRect(), name = p.outerHTML.slice(0, 90);
		if (r.width > width + 0.5 || r.height > height + 0.5) bad.push("a page has no room for " + r.width + " by " + r.height + ": " + name);
		if (r.left < -0.5 || r.right > width + 0.5) bad.push("beyond the margin: " + name);
		if (!kept(p)) bad.push("may be split: " + name);
	}
	const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
	for (let n = walker.nextNode(); n; n = walker.nextNode()) {
		const e = n.parentElement;
		if (!n.data.trim() || e.closest("title, desc, script, style, option, .unseen, .skip") || !e.checkVisibility()) continue;
		const scale = e.ownerSVGElement ? Math.hypot(e.getScreenCTM().a, e.getScreenCTM().b) : 1, points = parseFloat(getComputedStyle(e).fontSize) * scale * 0.75;
		if (points < 6.99) bad.push(points.toFixed(2) + " points: " + n.data.trim().slice(0, 40) + " in " + e.outerHTML.slice(0, 90));
	}
	return {Looked: pictures.length, Bad: [...new Set(bad)].slice(0, 40)};
})`

// marked puts marks into a page, to be found in its print: q, a number and a, b,
// c or d in the corners of a picture, z in its caption; k, a number, a in a
// heading and b in what comes after it. It returns how many of each there are.
const marked = `(() => {
	let pictures = 0, headings = 0;
	const shows = (e) => e && e.checkVisibility();
	const first = (e) => {
		const w = document.createTreeWalker(e, NodeFilter.SHOW_TEXT, (n) => n.data.trim() && !n.parentElement.closest("title, desc, style, .unseen") && n.parentElement.checkVisibility()
			? NodeFilter.FILTER_ACCEPT : NodeFilter.FILTER_REJECT);
		return w.nextNode();
	};
	for (const h of document.querySelectorAll("main h2, main h3, main h4, main h5")) {
		let next = h.nextElementSibling;
		while (next && !shows(next)) next = next.nextElementSibling;
		const text = shows(h) && next && first(next);
		if (!text) continue;
		text.data = "k" + headings + "b " + text.data;
		h.append(" k" + headings++ + "a");
	}
	for (const svg of document.querySelectorAll(".picture svg, .trueSize svg")) {
		if (!shows(svg)) continue;
		const v = svg.viewBox.baseVal, r = svg.getBoundingClientRect(), size = 5 * v.width / r.width;
		for (const [corner, x, y, anchor] of [["a", v.x, v.y + size, "start"], ["b", v.x + v.width - size, v.y + size, "end"],
			["c", v.x, v.y + v.height - size / 3, "start"], ["d", v.x + v.width - size, v.y + v.height - size / 3, "end"]]) {
			const t = document.createElementNS(svg.namespaceURI, "text");
			t.textContent = "q" + pictures + corner;
			for (const [k, w] of Object.entries({x, y, "text-anchor": anchor, "font-size": size, fill: "#000"})) t.setAttribute(k, w);
			svg.append(t);
		}
		const caption = svg.closest("figure")?.querySelector("figcaption");
		caption?.prepend("q" + pictures + "z ");
		pictures++;
	}
	document.querySelector(".sheethead h2").append(" sheet0a");
	return {Pictures: pictures, Headings: headings};
})()`

// marksPut is how many pictures and headings are marked.
type marksPut struct{ Pictures, Headings int }

// place is where a mark is printed, points from the upper left.
type place struct {
	page                     int
	left, top, right, bottom float64
}

// printedMarks reads the marks of a printed page back by pdftotext (Debian's
// package poppler-utils). A mark may be there more than once: then a picture was split.
func printedMarks(t *testing.T, pdf []byte) (found map[string][]place, pages int) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "page.pdf")
	if err := os.WriteFile(path, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-bbox", path, "-").Output()
	if err != nil {
		t.Fatalf("pdftotext: %v", err)
	}
	found = map[string][]place{}
	put := func(mark string, at place) {
		if k := len(found[mark]) - 1; k >= 0 && found[mark][k].page == at.page && math.Abs(found[mark][k].top-at.top) < 3 {
			return // a text with a halo is printed twice in its place
		}
		found[mark] = append(found[mark], at)
	}
	reader := xml.NewDecoder(strings.NewReader(string(out)))
	var now place
	for {
		token, err := reader.Token()
		if errors.Is(err, io.EOF) {
			return found, pages
		}
		if err != nil {
			t.Fatalf("what pdftotext says does not read: %v", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			if token.Name.Local == "page" {
				pages++
			}
			now = boxOf(token, pages)
		case xml.CharData:
			for _, m := range mark.FindAllString(string(token), -1) {
				put(m, now)
			}
		}
	}
}

var mark = regexp.MustCompile(`(q|k|sheet)[0-9]+[abcdz]\b`)

// boxOf is the box of a word.
func boxOf(e xml.StartElement, page int) place {
	p := place{page: page}
	for _, a := range e.Attr {
		for name, to := range map[string]*float64{"xMin": &p.left, "yMin": &p.top, "xMax": &p.right, "yMax": &p.bottom} {
			if a.Name.Local == name {
				*to, _ = strconv.ParseFloat(a.Value, 64) // its program writes numbers alone
			}
		}
	}
	return p
}

// needsPoppler skips a test without pdftotext, but not where CI is set.
func needsPoppler(t *testing.T) {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("no pdftotext, and CI is set: install Debian's package poppler-utils")
		}
		t.Skip("THE PRINT IS NOT READ BACK: there is no pdftotext; install Debian's package poppler-utils")
	}
}

// whole is one design with every section that a sheet may have.
func whole(t *testing.T) *Page {
	page := benched(t)
	page.Sheets[0].Tuning = inventedTuning()
	return page
}

// TestPrintIsLaidOutForPaper: every picture has room on a page and stays in one
// piece, nothing is in smaller type than 7 points.
func TestPrintIsLaidOutForPaper(t *testing.T) {
	ctx := openTab(t)
	for name, page := range map[string]*Page{"whole": whole(t), "motions": moving()} {
		if err := chromedp.Do(ctx, chromedp.Navigate(written(t, made(t, page)))); err != nil {
			t.Fatal(err)
		}
		for _, p := range papers {
			width, height := (p.width-2*marginAcross)*pixelsPerMillimetre, (p.height-2*marginDown)*pixelsPerMillimetre
			inMedium(t, ctx, "print", int64(width))
			f := evaluated[found](t, ctx, laidOut+"("+decimals(width, 1)+", "+decimals(height, 1)+")")
			if f.Looked < 10 {
				t.Errorf("%s on %s: only %d pictures", name, p.name, f.Looked)
			}
			for _, bad := range f.Bad {
				t.Errorf("%s on %s: %s", name, p.name, bad)
			}
		}
	}
}

// mostPagesEach is what one design may take, with everything that a sheet can say:
// nine pages of A4, one more of letter, which is shorter.
const mostPagesEach = 10

// TestNothingIsSplitInPrint prints a design with marks and reads them back: the
// corners of every picture and its caption are on one page within its margins,
// each heading is on the page of what it heads.
func TestNothingIsSplitInPrint(t *testing.T) {
	needsPoppler(t)
	ctx := openTab(t)
	for _, p := range papers {
		if err := chromedp.Do(ctx, chromedp.Navigate(written(t, made(t, whole(t))))); err != nil {
			t.Fatal(err)
		}
		inMedium(t, ctx, "print", int64((p.width-2*marginAcross)*pixelsPerMillimetre))
		m := evaluated[marksPut](t, ctx, marked)
		if m.Pictures < 20 || m.Headings < 20 {
			t.Fatalf("%d pictures and %d headings", m.Pictures, m.Headings)
		}
		pdf := pdfOf(t, ctx, p.size)
		all, pages := printedMarks(t, pdf)
		for i := range m.Pictures {
			checkPicture(t, p, all, "q"+strconv.Itoa(i))
		}
		for i := range m.Headings {
			k := "k" + strconv.Itoa(i)
			if a, b := all[k+"a"], all[k+"b"]; len(a) != 1 || len(b) == 0 || a[0].page != b[0].page { // a table's head is printed on each of its pages
				t.Errorf("on %s heading %s is at %v, what it heads at %v", p.name, k, a, b)
			}
		}
		if each := pages - all["sheet0a"][0].page + 1; each > mostPagesEach {
			t.Errorf("on %s one design takes %d pages", p.name, each)
		}
	}
}

// checkPicture looks at the marks of one picture.
func checkPicture(t *testing.T, p paper, all map[string][]place, name string) {
	t.Helper()
	left, top := marginAcross*pointsPerMillimetre-1, marginDown*pointsPerMillimetre-1
	page := 0
	for _, corner := range []string{"a", "b", "c", "d", "z"} {
		found := all[name+corner]
		if corner == "z" && len(found) == 0 {
			continue // without a caption
		}
		if len(found) != 1 {
			t.Errorf("on %s mark %s%s is printed %d times: %v", p.name, name, corner, len(found), found)
			continue
		}
		f := found[0]
		if page != 0 && f.page != page {
			t.Errorf("on %s picture %s is on pages %d and %d", p.name, name, page, f.page)
		}
		page = f.page
		if f.left < left || f.top < top || f.right > p.width*pointsPerMillimetre-left || f.bottom > p.height*pointsPerMillimetre-top {
			t.Errorf("on %s picture %s reaches into the margin: %v", p.name, name, f)
		}
	}
}

// pdfOf prints the page that is open.
func pdfOf(t *testing.T, ctx context.Context, size chromedp.PaperSize) []byte {
	t.Helper()
	pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(size), chromedp.PDFPreferCSSPageSize()))
	if err != nil {
		t.Fatal(err)
	}
	return pdf
}
