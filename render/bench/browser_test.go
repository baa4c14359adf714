package bench

import (
	"context"
	"flag"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"stabile/param/external"
)

var shots = flag.String("shots", "", "a folder for pictures of the page, to be looked at")

// chromium returns the browser that tests drive.
func chromium(t testing.TB) string {
	t.Helper()
	return external.Tool(t, "chromium", "chromium-browser", "google-chrome")
}

// browser is one Chromium for all tests of the package; each has its own page, as
// of another person.
var browser struct {
	once sync.Once
	ctx  context.Context
	stop func()
}

func TestMain(m *testing.M) {
	flag.Parse()
	status := m.Run()
	if browser.stop != nil {
		browser.stop()
	}
	os.Exit(status)
}

func openBrowser(t testing.TB) context.Context {
	path := chromium(t)
	browser.once.Do(func() {
		options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox,
			chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
			chromedp.WSURLReadTimeout(60*time.Second))
		allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
		ctx, cancel := chromedp.NewContext(allocator)
		if _, err := chromedp.Run(ctx, chromedp.Evaluate[int]("1")); err != nil {
			t.Fatalf("Chromium does not start: %v", err)
		}
		browser.ctx = ctx
		browser.stop = func() {
			cancel()
			stop()
		}
	})
	return browser.ctx
}

// A tab is a page of the bench in a browser.
type tab struct {
	t   testing.TB
	ctx context.Context
	v   *visitor

	deaf bool // to complaints of the page
}

// sized says how large a window is, and whether it is touched.
type sized struct {
	width, height int64
	touch         bool
}

var desk = sized{1440, 900, false}

// open opens an address of the bench in a page of its own.
func (v *visitor) browse(size sized, address string) *tab {
	v.t.Helper()
	ctx, cancel := chromedp.NewContext(openBrowser(v.t), chromedp.WithNewBrowserContext())
	ctx, late := context.WithTimeout(ctx, 3*time.Minute)
	v.t.Cleanup(func() {
		late()
		cancel()
	})
	p := &tab{t: v.t, ctx: ctx, v: v}
	p.run(chromedp.EmulateViewport(size.width, size.height, touching(size.touch)))
	go p.hear()
	p.run(chromedp.Navigate(address))
	return p
}

// hear hears what the page complains of: what nothing caught, and what its policy
// forbids.
func (p *tab) hear() {
	for m, err := range chromedp.Console(p.ctx) {
		if err != nil {
			return
		}
		if !p.deaf && (m.IsException() || m.Source == "security" || m.Source == "violation") {
			p.t.Errorf("the page complained: %s", m.Text)
		}
	}
}

// touching emulates a screen that is touched.
func touching(on bool) chromedp.EmulateViewportOption {
	if on {
		return chromedp.EmulateTouch
	}
	return func(*emulation.SetDeviceMetricsOverrideParams, *emulation.SetTouchEmulationEnabledParams) {}
}

// run does things on the page, in order.
func (p *tab) run(actions ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	require.NoError(p.t, chromedp.Do(p.ctx, actions...))
}

// do runs a statement of the page.
func (p *tab) do(statement string) {
	p.t.Helper()
	p.run(chromedp.Evaluate[chromedp.Void](statement))
}

// pause lets the page alone for a moment.
func (p *tab) pause(d time.Duration) { time.Sleep(d) }

// patience is how long a test waits for the page before it gives up.
const patience = 25 * time.Second

// until waits for an expression of the page to hold.
func (p *tab) until(expression string) {
	p.t.Helper()
	poll := chromedp.Poll[chromedp.Void](expression, chromedp.WithPollingInterval(30*time.Millisecond), chromedp.WithPollingTimeout(patience))
	if err := chromedp.Do(p.ctx, poll); err != nil {
		text, _ := chromedp.Run(p.ctx, chromedp.Evaluate[string](`document.body.innerText.slice(0, 3000)`))
		p.shot("failed-" + p.t.Name())
		p.t.Fatalf("never: %s: %v; the page says\n%s", expression, err, text)
	}
}

// eval returns what an expression of the page comes to.
func eval[T any](p *tab, expression string) T {
	p.t.Helper()
	v, err := chromedp.Run(p.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	require.NoError(p.t, err, expression)
	return v
}

// shot takes a picture of the page, where it is wanted.
func (p *tab) shot(name string) {
	if *shots == "" {
		return
	}
	png, err := chromedp.Run(p.ctx, chromedp.CaptureScreenshot())
	if err != nil {
		p.t.Errorf("shot %s: %v", name, err)
		return
	}
	require.NoError(p.t, os.MkdirAll(*shots, 0o755))
	require.NoError(p.t, os.WriteFile(filepath.Join(*shots, name+".png"), png, 0o644))
}

// settled is when all checks have been made.
const settled = `document.querySelector("#verdict b") && !/Checking/.test(document.querySelector("#verdict").textContent)`

// TestLook opens each example at each size, to be looked at.
func TestLook(t *testing.T) {
	if *shots == "" {
		t.Skip("give -shots a folder")
	}
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, os.DirFS("../../examples")))
	v := visit(t, Options{Dir: dir, File: "slow-tide.stabile"})
	for name, size := range map[string]sized{"1440": desk, "1024": {1024, 768, true}, "390": {390, 844, true}} {
		p := v.browse(size, v.address)
		p.until(settled)
		p.pause(300 * time.Millisecond)
		p.shot("open-" + name)
		p.do(`document.querySelector("#part").value="mast";document.querySelector("#part").dispatchEvent(new Event("change"))`)
		p.pause(400 * time.Millisecond)
		p.shot("part-" + name)
		p.do(`document.querySelector("#dims").click()`)
		p.pause(200 * time.Millisecond)
		p.shot("sizes-" + name)
		p.do(`document.querySelector("[data-show=picture]").click();document.querySelector("#tab-checks").click();document.querySelector("#shade").click()`)
		p.pause(1500 * time.Millisecond)
		p.shot("picture-dark-" + name)
		for _, tab := range []string{"blanks", "shop", "variations", "papers"} {
			p.do(`document.querySelector("#tab-` + tab + `").click()`)
			p.pause(200 * time.Millisecond)
			p.shot("tab-" + tab + "-" + name)
		}
	}
}
