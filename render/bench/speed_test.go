package bench

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// row returns a design of so many parts: balls on posts, side by side.
func rowOf(parts int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "sculpture \"Row\"\nunits inch\nadjust rise = 30 in from 20 in to 40 in\nmetal skin { alloy low-carbon-steel, gauge 18 }\n"+
		"metal slab { alloy low-carbon-steel, thickness 1/2 in }\nbase pad { plate %d in by 60 in, metal slab }\nsite { push 20 lbf at 30 in, people none, seismic 0, ice 0 in }\n", max(60, 5*parts))
	across := max(4, parts/10)
	for i := range parts / 2 {
		x, y := 10*(i%across)-5*across, 10*(i/across)-20
		fmt.Fprintf(&b, "post p%d on pad { diameter 2 in, length rise, at (%d in, %d in), metal skin }\nball b%d on p%d { diameter 6 in, gores 8, metal skin }\n", i, x, y, i, i)
	}
	return b.String()
}

// measured times on the page a change of the text until its drawing and verdict
// are shown, so often, by typing and by a slider.
const measured = `async (n, by) => {
  const { store } = await import("/page/store.js");
  const times = [];
  const field = document.querySelector("#text"), slider = document.querySelector("#slide-rise");
  for (let i = 0; i < n; i++) {
    await new Promise(r => setTimeout(r, 30));
    const begun = performance.now();
    const shown = new Promise(r => { const was = store.answer; const look = () => store.answer !== was && store.answer.drawing ? r() : setTimeout(look, 0); look() });
    if (by === "key") {
      field.value = field.value.replace(/rise = \d+/, "rise = " + (25 + i % 10));
      field.dispatchEvent(new InputEvent("input", { data: "1" }));
    } else {
      slider.value = String(0.2 + 0.5 * (i % 10) / 10);
      slider.dispatchEvent(new Event("input"));
    }
    await shown;
    await new Promise(r => requestAnimationFrame(() => setTimeout(r, 0)));
    times.push(performance.now() - begun);
  }
  return times;
}`

// BenchmarkBench measures on a real page, in ms at the 95th percentile, what a maker
// waits for.
func BenchmarkBench(b *testing.B) {
	many, changes := []int{30, 300}, 20
	if testing.Short() {
		many, changes = many[:1], 3
	}
	for _, parts := range many {
		for _, by := range []string{"key", "slider"} {
			b.Run(fmt.Sprintf("%s/%d-parts", by, parts), func(b *testing.B) {
				v := visit(b, Options{})
				require.NoError(b, os.WriteFile(filepath.Join(v.dir, "row.stabile"), []byte(rowOf(parts)), 0o644))
				p := v.browse(desk, v.address+"&file=row.stabile")
				p.until(settled)
				p.run(enablePerformance)
				var times []float64
				page, own := p.metric("TaskDuration"), processor()
				for b.Loop() {
					times = append(times, eval[[]float64](p, fmt.Sprintf(`(%s)(%d, %q)`, measured, changes, by))...)
				}
				n := float64(len(times))
				b.ReportMetric(1e3*(p.metric("TaskDuration")-page)/n, "ms-page-cpu")
				b.ReportMetric(1e3*(processor()-own)/n, "ms-own-cpu")
				slices.Sort(times)
				b.ReportMetric(times[len(times)*95/100], "ms-p95")
				b.ReportMetric(times[len(times)/2], "ms-median")
			})
		}
	}
	b.Run("drag/30-parts", benchmarkDrag)
	b.Run("first-view", benchmarkFirst)
	b.Run("rest", benchmarkRest)
}

// benchmarkDrag measures how many pictures a second a drag shows.
func benchmarkDrag(b *testing.B) {
	v := visit(b, Options{})
	require.NoError(b, os.WriteFile(filepath.Join(v.dir, "row.stabile"), []byte(rowOf(30)), 0o644))
	p := v.browse(desk, v.address+"&file=row.stabile")
	p.until(settled)
	p.do(`document.querySelector("#part").value = "b3"; document.querySelector("#part").dispatchEvent(new Event("change"))`)
	p.until(`document.querySelector('` + grip("size", 0) + `')`)
	rate := 0.0
	for b.Loop() {
		rate = eval[float64](p, `(async () => {
  const { store } = await import("/page/store.js");
  const e = document.querySelector('`+grip("size", 0)+`'), r = e.getBoundingClientRect(), x = r.left + r.width / 2, y = r.top + r.height / 2;
  let shown = 0; store.on("answer", () => shown++);
  e.setPointerCapture = () => {};
  const send = (type, dx) => e.dispatchEvent(new PointerEvent(type, { pointerId: 1, clientX: x + dx, clientY: y, bubbles: true }));
  send("pointerdown", 0);
  const begun = performance.now();
  for (let i = 0; performance.now() - begun < 1500; i++) { send("pointermove", 4 + i % 12); await new Promise(r => requestAnimationFrame(r)); }
  const rate = shown / (performance.now() - begun) * 1000;
  document.dispatchEvent(new KeyboardEvent("keydown", { key: "Escape" }));
  await new Promise(r => setTimeout(r, 300));
  return rate;
})()`)
	}
	b.ReportMetric(rate, "pictures/s")
}

// benchmarkFirst measures when the first view stands, and what the page loads.
func benchmarkFirst(b *testing.B) {
	v := visit(b, Options{File: "standing.stabile"})
	var times []float64
	var bytes float64
	for b.Loop() {
		p := v.browse(desk, v.address)
		p.until(`document.querySelectorAll(".edge").length > 0`)
		times = append(times, eval[float64](p, `performance.getEntriesByType("resource").filter(e => e.name.endsWith("/api/work"))[0].responseEnd`))
		bytes = eval[float64](p, `performance.getEntries().reduce((n, e) => n + (e.transferSize || 0), 0)`)
	}
	slices.Sort(times)
	b.ReportMetric(times[len(times)/2], "ms")
	b.ReportMetric(bytes/1000, "kB")
}

// benchmarkRest measures what an idle page takes of a processor, and that many
// changes leave its memory flat.
func benchmarkRest(b *testing.B) {
	v := visit(b, Options{File: "standing.stabile"})
	p := v.browse(desk, v.address)
	p.until(settled)
	p.run(enablePerformance)
	busy := func() float64 { return p.metric("TaskDuration") }
	heap := func() float64 {
		p.do(`0`)
		return p.metric("JSHeapUsedSize")
	}
	warm, changes := 60, 200
	if testing.Short() {
		warm, changes = 3, 10
	}
	eval[[]float64](p, fmt.Sprintf(`(%s)(%d, "key")`, measured, warm))
	var share, before, after float64
	for b.Loop() {
		time.Sleep(time.Second)
		was := busy()
		time.Sleep(3 * time.Second)
		share = (busy() - was) / 3
		before = heap()
		eval[[]float64](p, fmt.Sprintf(`(%s)(%d, "key")`, measured, changes))
		after = heap()
	}
	b.ReportMetric(100*share, "%-of-a-core")
	b.ReportMetric((after-before)/1e6, "MB-more")
}

var enablePerformance = chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
	_, err := chromedp.Call(ctx, performance.Enable, performance.EnableParams{TimeDomain: performance.EnableTimeDomainThreadTicks})
	return err
})

// processor returns how many seconds of a processor this process has taken: on a
// machine with other work it says what the clock does not.
func processor() float64 {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano()).Seconds()
}

// metric returns a figure that the browser keeps of a page.
func (p *tab) metric(name string) float64 {
	p.t.Helper()
	m, err := chromedp.Call(p.ctx, performance.GetMetrics, cdp.Empty{})
	require.NoError(p.t, err)
	for _, x := range m.Metrics {
		if x.Name == name {
			return x.Value
		}
	}
	p.t.Fatalf("there is no %s", name)
	return 0
}
