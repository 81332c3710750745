package report

import (
	"context"
	"errors"
	"fmt"
	"os"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// chromium is where Debian puts it.
const chromium = "/usr/bin/chromium"

// Times that are more than a slow machine takes: all pages of one test, and
// all tests of the package.
const (
	tabTime     = 3 * time.Minute
	browserTime = 9 * time.Minute
)

// flags keep the browser to the page: nothing is looked for in the network.
var flags = map[string]any{
	"disable-quic": true, "disable-background-networking": true, "disable-component-update": true, "disable-sync": true,
}

// shared is the one browser of all tests: to start it takes longer than most
// of them. TestMain closes it.
var shared struct {
	once sync.Once
	ctx  context.Context
	stop func()
	err  error
}

var errNoBrowser = errors.New("no browser")

// TestMain ends the browser after the last test.
func TestMain(m *testing.M) {
	code := m.Run()
	if shared.stop != nil {
		shared.stop()
	}
	os.Exit(code)
}

// startBrowser starts the browser with a new, empty profile.
func startBrowser() {
	if _, err := os.Stat(chromium); err != nil {
		shared.err = errNoBrowser
		return
	}
	profile, err := os.MkdirTemp("", "report-browser-")
	if err != nil {
		shared.err = err
		return
	}
	options := []chromedp.ExecAllocatorOption{
		chromedp.ExecPath(chromium), chromedp.Headless, chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun,
		chromedp.UserDataDir(profile),
	}
	for name, value := range flags {
		options = append(options, chromedp.Flag(name, value))
	}
	limited, stopClock := context.WithTimeout(context.Background(), browserTime)
	allocator, stopBrowser := chromedp.NewExecAllocator(limited, options...)
	ctx, closeTab := chromedp.NewContext(allocator)
	shared.ctx, shared.stop = ctx, func() {
		closeTab()
		stopBrowser()
		stopClock()
		os.RemoveAll(profile) // leftovers of a browser in the folder of temporary files harm nobody
	}
	if err := chromedp.Do(ctx); err != nil {
		shared.err = fmt.Errorf("starting %s: %w", chromium, err)
	}
}

// openTab opens a tab of the shared browser that shares nothing with the other
// tests' tabs. Without a browser the test is skipped, but not where CI is set:
// there it must run.
func openTab(t *testing.T) context.Context {
	t.Helper()
	shared.once.Do(startBrowser)
	if errors.Is(shared.err, errNoBrowser) {
		if os.Getenv("CI") != "" {
			t.Fatalf("no browser at %s, and CI is set: install Debian's package chromium", chromium)
		}
		t.Skipf("NOT TESTED IN A BROWSER: there is none at %s; install Debian's package chromium", chromium)
	}
	if shared.err != nil {
		t.Fatal(shared.err)
	}
	tab, closeTab := chromedp.NewContext(shared.ctx, chromedp.WithNewBrowserContext())
	t.Cleanup(closeTab)
	if err := chromedp.Do(tab); err != nil {
		t.Fatalf("opening a tab: %v", err)
	}
	limited, stopClock := context.WithTimeout(tab, tabTime)
	t.Cleanup(stopClock)
	return limited
}
