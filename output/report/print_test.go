package report

import (
	"bytes"
	"compress/zlib"
	"context"
	"io"
	"math"
	"regexp"
	"strconv"
	"testing"

	"github.com/chromedp/chromedp"
)

// printed is a page printed on a paper, as PDF.
func printed(t *testing.T, ctx context.Context, html string, paper chromedp.PaperSize) []byte {
	t.Helper()
	if err := chromedp.Do(ctx, chromedp.Navigate(written(t, html))); err != nil {
		t.Fatal(err)
	}
	pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(paper), chromedp.PDFPreferCSSPageSize()))
	if err != nil {
		t.Fatal(err)
	}
	return pdf
}

// pointsPerMillimetre: a point of a PDF is 1/72 in.
const pointsPerMillimetre = 72 / 25.4

// trueTo is how exactly a sheet must print, mm: a rule shows half of one.
const trueTo = 0.1

// TestTheDrawingPrintsAtTrueSize measures the sheets in the printed pages: A5
// is 148 by 210 mm (ISO 216).
func TestTheDrawingPrintsAtTrueSize(t *testing.T) {
	const designs = 10 // as wide a table as a page has
	ctx := openTab(t)
	page := invented(designs, false)
	for i := range page.Sheets {
		page.Sheets[i].Pictures.Front = nil // takes long to print
	}
	for name, paper := range map[string]chromedp.PaperSize{"A4": chromedp.PaperA4, "letter": chromedp.PaperLetter} {
		sheets := 0
		for _, r := range rectangles(printed(t, ctx, made(t, page), paper)) {
			if math.Abs(r.width/pointsPerMillimetre-148) < trueTo && math.Abs(r.height/pointsPerMillimetre-210) < trueTo {
				sheets++
			}
		}
		if sheets != designs {
			t.Errorf("on %s %d sheets of %d are printed at true size", name, sheets, designs)
		}
	}
}

func TestEveryPagePrints(t *testing.T) {
	ctx := openTab(t)
	for name, page := range map[string]*Page{"failing": failing(), "hostile": invented(1, true), "bare": {Rig: "Bare"}} {
		pdf := printed(t, ctx, made(t, page), chromedp.PaperLetter)
		if !bytes.HasPrefix(pdf, []byte("%PDF-")) || len(rectangles(pdf)) == 0 {
			t.Errorf("%s: %d bytes that are no printed page", name, len(pdf))
		}
	}
}

// TestTurnedAndReducedSheetsPrintToScale: half a letter across is turned, a
// ledger sheet is drawn 1:2.
func TestTurnedAndReducedSheetsPrintToScale(t *testing.T) {
	ctx := openTab(t)
	page := moving()
	page.Sheets = page.Sheets[3:]
	found := map[[2]float64]bool{}
	for _, r := range rectangles(printed(t, ctx, made(t, page), chromedp.PaperLetter)) {
		for _, want := range [][2]float64{{215.9, 139.7}, {210, 148.5}} {
			if math.Abs(r.width/pointsPerMillimetre-want[0]) < trueTo && math.Abs(r.height/pointsPerMillimetre-want[1]) < trueTo {
				found[want] = true
			}
		}
	}
	if len(found) != 2 {
		t.Errorf("printed to scale: %v", found)
	}
}

// printedRect is a rectangle on a printed page, in points.
type printedRect struct{ width, height float64 }

var pdfStream = regexp.MustCompile(`(?s)stream\r?\n(.*?)\r?\nendstream`)

// rectangles finds every rectangle that a PDF's pages draw.
func rectangles(pdf []byte) []printedRect {
	var all []printedRect
	for _, stream := range pdfStream.FindAllSubmatch(pdf, -1) {
		reader, err := zlib.NewReader(bytes.NewReader(stream[1]))
		if err != nil {
			continue // a font or a picture in another coding
		}
		text, _ := io.ReadAll(reader) // the last byte of its check sum may look like the end of a line
		all = append(all, rectanglesOf(text)...)
	}
	return all
}

// rectanglesOf follows the transformations of one page's content (ISO 32000,
// 8.3: q, Q and cm) to the rectangles (re) in it.
func rectanglesOf(content []byte) []printedRect {
	var all []printedRect
	var numbers []float64
	now := [4]float64{1, 0, 0, 1}
	var kept [][4]float64
	for token := range bytes.FieldsSeq(content) {
		if c := token[0]; c == '-' || c == '.' || c >= '0' && c <= '9' {
			v, _ := strconv.ParseFloat(string(token), 64) // a word that is no number is no rectangle's
			numbers = append(numbers, v)
			continue
		}
		n := len(numbers)
		switch string(token) {
		case "q":
			kept = append(kept, now)
		case "Q":
			if len(kept) > 0 {
				now, kept = kept[len(kept)-1], kept[:len(kept)-1]
			}
		case "cm":
			if n >= 6 {
				now = product([4]float64(numbers[n-6:]), now)
			}
		case "re":
			if n >= 4 {
				w, h := numbers[n-2], numbers[n-1]
				all = append(all, printedRect{math.Hypot(w*now[0], w*now[1]), math.Hypot(h*now[2], h*now[3])})
			}
		}
		numbers = numbers[:0]
	}
	return all
}

// product is the transformation a, then b, without their shifts.
func product(a, b [4]float64) [4]float64 {
	return [4]float64{
		a[0]*b[0] + a[1]*b[2], a[0]*b[1] + a[1]*b[3],
		a[2]*b[0] + a[3]*b[2], a[2]*b[1] + a[3]*b[3],
	}
}
