package report

import (
	"context"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// complaints are what a browser says against a page: errors, exceptions,
// requests for anything but the page itself.
type complaints struct {
	sync.Mutex
	page string
	said []string
}

func (c *complaints) hear(event any) {
	c.Lock()
	defer c.Unlock()
	switch e := event.(type) {
	case *runtime.EventConsoleAPICalled:
		c.said = append(c.said, fmt.Sprintf("console.%s", e.Type))
	case *runtime.EventExceptionThrown:
		c.said = append(c.said, "exception: "+e.ExceptionDetails.Text)
	case *log.EventEntryAdded:
		c.said = append(c.said, fmt.Sprintf("%s: %s", e.Entry.Level, e.Entry.Text))
	case *network.EventRequestWillBeSent:
		if e.Request.URL != c.page {
			c.said = append(c.said, "request for "+e.Request.URL)
		}
	}
}

// take returns what was said since the last time, and names the page that is
// to be opened next.
func (c *complaints) take(page string) []string {
	c.Lock()
	defer c.Unlock()
	said := c.said
	c.said, c.page = nil, page
	return said
}

// listen hears what the browser says from now on.
func listen(t *testing.T, ctx context.Context) *complaints {
	t.Helper()
	c := &complaints{}
	if err := chromedp.Listen(ctx, c.hear); err != nil {
		t.Fatal(err)
	}
	return c
}

// written puts a page into a file of its own and returns its address.
func written(t *testing.T, html string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "index.html")
	if err := os.WriteFile(path, []byte(html), 0o644); err != nil {
		t.Fatal(err)
	}
	return (&url.URL{Scheme: "file", Path: path}).String()
}

// browsedPages are the pages that are looked at in the browser.
func browsedPages(t *testing.T) map[string]string {
	t.Helper()
	return map[string]string{
		"shortlist": made(t, invented(3, false)), "failing": made(t, failing()), "hostile": made(t, invented(1, true)),
		"motions": made(t, moving()), "bare": made(t, &Page{Rig: "Bare"}), "bench": made(t, benched(t)),
	}
}

// The widths of a desk, a tablet and a telephone, CSS pixels.
var widths = []int64{1400, 768, 390}

func TestPagesInABrowser(t *testing.T) {
	ctx := openTab(t)
	heard := listen(t, ctx)
	for name, html := range browsedPages(t) {
		address := written(t, html)
		for _, width := range widths {
			t.Run(fmt.Sprintf("%s at %d", name, width), func(t *testing.T) {
				heard.take(address)
				err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate(address))
				if err != nil {
					t.Fatal(err)
				}
				checkLayout(t, ctx, width)
				for _, said := range heard.take("") {
					t.Error(said)
				}
			})
		}
	}
}

// measured is what a page measures of itself.
type measured struct {
	Width, Inner float64
	Pictures     int
	Empty        []string
	Beyond       []string
}

// measure finds the page's width, pictures without a size, and what sticks out
// of the window without a part round it that scrolls.
const measure = `(() => {
	const root = document.documentElement, empty = [], beyond = [];
	const pictures = document.querySelectorAll("svg, img");
	for (const p of pictures) {
		const r = p.getBoundingClientRect();
		if (!(r.width > 0 && r.height > 0)) empty.push(p.outerHTML.slice(0, 120));
	}
	for (const e of document.body.querySelectorAll("*")) {
		if (e.closest(".wide, svg svg, .unseen, .skip")) continue;
		if (e.getBoundingClientRect().right > root.clientWidth + 0.5 && !e.closest("svg *")) beyond.push(e.outerHTML.slice(0, 120));
	}
	return {Width: root.scrollWidth, Inner: root.clientWidth, Pictures: pictures.length, Empty: empty, Beyond: beyond.slice(0, 5)};
})()`

func checkLayout(t *testing.T, ctx context.Context, width int64) {
	t.Helper()
	l, err := chromedp.Run(ctx, chromedp.Evaluate[measured](measure))
	if err != nil {
		t.Fatal(err)
	}
	if l.Width > float64(width) || l.Inner > float64(width) {
		t.Errorf("the page is %v wide in a window of %d", l.Width, width)
	}
	for _, e := range l.Empty {
		t.Errorf("a picture without a size: %s", e)
	}
	for _, e := range l.Beyond {
		t.Errorf("sticks out of the window: %s", e)
	}
}

// TestTheBrowserTestCanFail opens pages with each fault that the test looks for.
func TestTheBrowserTestCanFail(t *testing.T) {
	ctx := openTab(t)
	heard := listen(t, ctx)
	for fault, html := range map[string]string{
		"exception":  `<script>throw new Error("broken")</script>`,
		"console":    `<script>console.error("broken")</script>`,
		"request":    `<img src="other.png" width="9" height="9">`,
		"violation":  `<meta http-equiv="Content-Security-Policy" content="default-src 'none'"><style>p{color:red}</style>`,
		"wide":       `<p style="width: 3000px">wide</p>`,
		"empty":      `<svg width="0" height="0"></svg>`,
		"overlapped": `<div style="overflow: hidden"><p style="width: 3000px">cut off</p></div>`,
	} {
		address := written(t, "<!DOCTYPE html><title>x</title><body>"+html)
		heard.take(address)
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(390, 900), chromedp.Navigate(address)); err != nil {
			t.Fatal(err)
		}
		l, err := chromedp.Run(ctx, chromedp.Evaluate[measured](measure))
		if err != nil {
			t.Fatal(err)
		}
		if said := heard.take(""); len(said) == 0 && l.Width <= 390 && len(l.Empty)+len(l.Beyond) == 0 {
			t.Errorf("%s is not noticed", fault)
		}
	}
}

// TestWhatIsShownInTheBrowser: hostile names are text, and the page's style
// and nothing else is let in by its policy.
func TestWhatIsShownInTheBrowser(t *testing.T) {
	ctx := openTab(t)
	address := written(t, made(t, invented(1, true)))
	if err := chromedp.Do(ctx, chromedp.Navigate(address)); err != nil {
		t.Fatal(err)
	}
	said, err := chromedp.Run(ctx, chromedp.Evaluate[string]("document.body.innerText"))
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(said, `<script>alert("x")</script>`) {
		t.Error("a hostile name is not shown as it is written")
	}
	border, err := chromedp.Run(ctx, chromedp.Evaluate[string](`getComputedStyle(document.querySelector(".sheet")).borderTopWidth`))
	if err != nil || border != "1px" {
		t.Errorf("the style is not applied: border %q, %v", border, err)
	}
}
