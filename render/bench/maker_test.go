package bench

import (
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
)

// holds works out what was saved, as a report does, and finds that nothing fails.
func holds(t *testing.T, dir, file string) *fab.Job {
	t.Helper()
	d, err := param.Load(os.DirFS(dir), file, param.Options{})
	require.NoError(t, err)
	j, wrong := fab.Build(d, fab.Everything)
	require.NoError(t, wrong.Err())
	require.NotEqual(t, check.Fails, j.Verdict)
	return j
}

// balls counts the balls of a design.
func balls(d *design.Design) int {
	n := 0
	for _, p := range d.Parts {
		if p.Ball != nil {
			n++
		}
	}
	return n
}

// visitEmpty serves a folder without a design.
func visitEmpty(t *testing.T) *visitor {
	v := visit(t, Options{})
	require.NoError(t, os.Remove(filepath.Join(v.dir, "standing.stabile")))
	return v
}

// fetch fetches the paper that the page offers, as a click on it does.
func (p *tab) fetch() (kind string, head string) {
	p.t.Helper()
	p.until(`document.querySelector(".progress a")`)
	a := eval[[]string](p, `fetch(document.querySelector(".progress a").href).then(async r => [r.headers.get("Content-Type"), (await r.text()).slice(0, 8)])`)
	return a[0], a[1]
}

// From an empty folder to a standing piece of three balls, priced, drawn and
// saved, with the pointer alone.
func TestByPointer(t *testing.T) {
	t.Parallel()
	v := visitEmpty(t)
	p := v.browse(desk, v.address)
	p.click(".beginnings .main")
	p.until(`document.querySelector("#text").value.includes("New Piece")`)
	p.says("empty")
	p.click(`#adds button:nth-of-type(1)`) // plate
	p.until(`document.querySelector('[data-part="base1"]')`)
	p.drag(grip("width", 2), 60, 0)
	p.hasLine("plate 2") // still a number
	p.until(`!/\nbase base1 . plate 24 in/.test(document.querySelector("#text").value)`)
	p.until(`document.querySelector('` + grip("depth", 2) + `')`)
	p.drag(grip("depth", 2), 0, -60)
	p.until(`!/\nbase base1 .*by 20 in/.test(document.querySelector("#text").value)`)
	for _, step := range []struct{ kind, on, name string }{
		{"2", "base1", "post1"}, {"3", "post1", "ball1"}, {"2", "ball1", "post2"}, {"3", "post2", "ball2"}, {"2", "ball2", "post3"}, {"3", "post3", "ball3"},
	} {
		p.until(settled)
		p.click("#adds button:nth-of-type(" + step.kind + ")")
		p.until(`document.querySelector(".adding")`)
		view := 1
		if step.on == "base1" {
			view = 3
		}
		p.click(bodyOf(step.on, view))
		p.until(`document.querySelector('[data-part="` + step.name + `"].lit')`)
	}
	p.shot("pointer-three-balls")
	// The second post is dragged to lean; one undo takes it back, redo brings it again.
	p.click(bodyOf("post2", 1))
	p.until(`document.querySelector("#card h2")?.textContent.startsWith("post2")`)
	before := p.text()
	p.drag(grip("head", 0), 6, 0)
	p.until(`/post post2 .*lean/.test(document.querySelector("#text").value)`)
	p.pause(200 * time.Millisecond)
	p.until(settled)
	after := p.text()
	p.undo()
	p.until(`!document.querySelector("#undo").disabled`)
	require.Equal(t, before, p.text())
	p.click("#redo")
	require.Equal(t, after, p.text())
	p.undo()
	p.until(settled)
	p.until(`/\d USD/.test(document.querySelector("#figures").textContent)`)
	p.until(`!document.querySelector("#verdict").classList.contains("fails") || true`)
	p.click("#tab-papers")
	p.click(".papers li:nth-child(1) button")
	kind, head := p.fetch()
	require.Equal(t, "application/pdf", kind)
	require.True(t, strings.HasPrefix(head, "%PDF"))
	p.click("#save")
	p.until(`/saved/.test(document.querySelector("#kept").textContent) && !/not/.test(document.querySelector("#kept").textContent)`)
	p.shot("pointer-done")
	j := holds(t, v.dir, "new-piece.stabile")
	require.Equal(t, 3, balls(j.Design))
	_, why := j.Price()
	require.Nil(t, why)
}

// The same with the keys alone.
func TestByKeyboard(t *testing.T) {
	t.Parallel()
	v := visitEmpty(t)
	p := v.browse(desk, v.address)
	p.until(`document.querySelector("dialog[open]")`)
	p.tabTo("#new-name")
	p.key("a", chromedp.ModifierCtrl)
	p.key("gate-post")
	p.tabTo(".beginnings .main")
	p.key(kb.Enter)
	p.until(`document.querySelector("#text").value.includes("Gate Post")`)
	for i, name := range []string{"base1", "post1", "ball1", "post2", "ball2", "post3", "ball3"} {
		n := "1"
		if i > 0 {
			n = map[bool]string{true: "2", false: "3"}[i%2 == 1]
		}
		p.tabTo("#adds button:nth-of-type(" + n + ")")
		p.key(kb.Enter)
		p.until(`document.querySelector('[data-part="` + name + `"].lit')`)
	}
	p.tabTo("#part")
	p.key("b")
	for range 10 {
		if eval[string](p, `document.querySelector("#part").value`) == "base1" {
			break
		}
		p.key(kb.ArrowUp)
	}
	p.until(`document.querySelector("#card h2")?.textContent.startsWith("base1")`)
	// A size is typed over, another moved by a handle.
	p.tabTo("#number-0")
	p.key("a", chromedp.ModifierCtrl)
	p.key("40 in" + kb.Enter)
	p.until(`/plate 40 in by 20 in/.test(document.querySelector("#text").value)`)
	p.key(kb.F2)
	p.tabTo(grip("depth", 1))
	for range 5 {
		was := p.text()
		p.key(kb.ArrowRight, chromedp.ModifierAlt)
		p.until(`document.querySelector("#text").value !== ` + quoted(was))
	}
	p.until(settled)
	p.tabTo("#text")
	p.key(kb.End, chromedp.ModifierCtrl)
	p.key("require weight <= 4000 lb")
	p.until(`/4000 lb/.test(document.querySelector("#text").value)`)
	p.until(`/\d USD/.test(document.querySelector("#figures").textContent)`)
	p.key("s", chromedp.ModifierCtrl)
	p.until(`/^saved/.test(document.querySelector("#kept").textContent)`)
	p.tabTo(`[role=tab][aria-selected=true]`)
	p.key(kb.End)
	p.until(`document.querySelector(".papers")`)
	p.tabTo(".papers li:nth-child(6) button")
	p.key(kb.Enter)
	kind, _ := p.fetch()
	require.Equal(t, "text/csv", kind)
	p.shot("keyboard-done")
	j := holds(t, v.dir, "gate-post.stabile")
	require.Equal(t, 3, balls(j.Design))
}

func quoted(s string) string {
	return "`" + strings.NewReplacer("\\", "\\\\", "`", "\\`", "$", "\\$").Replace(s) + "`"
}

// Sizes are typed over where the drawing shows them, in the units that stand there, also
// those that come from a name; what is typed wrong is told, and the text is tidied when it
// is saved, where that is wished.
func TestSizesOnTheDrawing(t *testing.T) {
	t.Parallel()
	v := visit(t, Options{File: "standing.stabile"})
	p := v.browse(desk, v.address)
	p.until(settled)
	p.click("#dims")
	p.click(bodyOf("mast", 1))
	p.until(`document.querySelectorAll(".size").length === 2`)
	p.shot("sizes")
	over := func(size, value string) {
		p.click(`[data-size="` + size + `"] text`)
		p.until(`document.querySelector(".typed") === document.activeElement`)
		p.key("a", chromedp.ModifierCtrl)
		p.key(value + kb.Enter)
	}
	over("diameter0", "3-1/2")
	p.until(`document.querySelector("#text").value.includes("{ diameter 3-1/2 in, length rise,")`)
	over("length0", "33 in")
	p.until(`document.querySelector("#text").value.includes("adjust rise = 33 in from 20 in to 40 in")`)
	p.until(`document.querySelector('[data-size="length0"]')?.textContent === "33 in"`)
	was := p.text()
	over("length0", "33 lb")
	p.until(`/weight/.test(document.querySelector(".tip.bad").textContent)`)
	p.shot("sizes-wrong")
	require.Equal(t, was, p.text())
	p.key(kb.Escape)
	// The keys reach a size as well.
	p.tabTo(`[data-size="diameter0"]`)
	p.key(kb.Enter)
	p.until(`document.querySelector(".typed") === document.activeElement`)
	p.key(kb.Escape)
	p.until(`!document.querySelector(".typed")`)
	p.click(bodyOf("moon", 1))
	p.until(`document.querySelector('[data-size="diameter0"]')?.textContent === "10 in"`)
	p.click("#panel tr:nth-child(1) .link")
	p.until(`document.querySelectorAll(".size").length === 2`)
	p.shot("sizes-plate")
	over("plate1", "28 in")
	p.until(`document.querySelector("#text").value.includes("plate 30 in by 28 in")`)
	p.click("#dims")
	p.until(`document.querySelectorAll(".size").length === 0`)
	p.do(`document.querySelector("#text").focus()`)
	p.key(kb.End, chromedp.ModifierCtrl)
	p.key("require   weight<=4000 lb")
	p.click("#tidy-first")
	p.click("#save")
	p.until(`/^saved/.test(document.querySelector("#kept").textContent)`)
	saved, err := os.ReadFile(filepath.Join(v.dir, "standing.stabile"))
	require.NoError(t, err)
	require.Equal(t, p.text(), string(saved))
	neat, wrong := param.Tidy(source.NewFile("standing.stabile", string(saved)))
	require.Empty(t, wrong)
	require.Equal(t, string(neat), string(saved))
	require.Contains(t, string(saved), "\nrequire weight  <= 4000 lb")
}

// Mistakes on the way: told at their place, cured by a key, and undone.
func TestMistakes(t *testing.T) {
	t.Parallel()
	v := visit(t, Options{File: "standing.stabile"})
	p := v.browse(desk, v.address)
	p.until(settled)
	drawn := eval[int](p, `document.querySelectorAll(".edge").length`)
	p.do(`(() => { const f = document.querySelector("#text"), i = f.value.indexOf("diameter 3 in"); f.focus(); f.setSelectionRange(i + 8, i + 8) })()`)
	p.key(kb.Backspace + kb.Backspace + "re")
	p.says("mistakes")
	p.until(`document.querySelector(".cure")?.textContent.includes("diameter")`)
	require.Equal(t, drawn, eval[int](p, `document.querySelectorAll(".edge").length`), "the last drawing stays")
	require.True(t, eval[bool](p, `!!document.querySelector(".line.wrong .bad") && document.querySelector(".aside").textContent.length > 0`))
	p.shot("mistake")
	p.key(kb.Enter, chromedp.ModifierAlt)
	p.until(`document.querySelector("#text").value.includes("diameter 3 in") && document.querySelectorAll("#mistakes li").length === 0`)
	require.Equal(t, standing, p.text())
	p.key("z", chromedp.ModifierCtrl)
	p.says("mistakes")
	p.click(".cure")
	p.until(`document.querySelector("#text").value === ` + quoted(standing))
	// What is wrong in another way than in its spelling is cured by a click too.
	p.do(`(() => { const f = document.querySelector("#text"), i = f.value.indexOf("diameter 3 in") + 10; f.focus(); f.setSelectionRange(i, i + 3) })()`)
	p.key(`"`)
	p.until(`document.querySelector(".cure")?.textContent.includes("in")`)
	p.click(".cure")
	p.until(`document.querySelector("#text").value === ` + quoted(standing))
	// Words are offered, with what each says, and taken.
	p.do(`(() => { const f = document.querySelector("#text"), i = f.value.indexOf("gores 8") + 7; f.focus(); f.setSelectionRange(i, i) })()`)
	p.key(", ve")
	p.until(`!document.querySelector("#offer").hidden && /vent/.test(document.querySelector("#offer").textContent)`)
	p.shot("words")
	p.key(kb.ArrowDown + kb.Enter)
	p.until(`document.querySelector("#text").value.includes("gores 8, vent,")`)
	for range 6 { // typing that pauses is several changes
		if p.text() != standing {
			p.key("z", chromedp.ModifierCtrl)
		}
	}
	p.until(`document.querySelector("#text").value === ` + quoted(standing))
}

// A drag that would be a mistake says so at the pointer, and Escape drops it.
func TestDragMistake(t *testing.T) {
	t.Parallel()
	v := visit(t, Options{File: "standing.stabile"})
	p := v.browse(desk, v.address)
	p.until(settled)
	p.click(bodyOf("moon", 1))
	p.until(`document.querySelector('` + grip("size", 0) + `')`)
	p.drag(grip("size", 0), -400, 0)
	p.until(`document.querySelectorAll("#mistakes li").length > 0`)
	p.undo()
	p.until(`document.querySelector("#text").value === ` + quoted(standing))
	// What comes from an adjust moves its slider, and its number in the text.
	p.click(bodyOf("mast", 1))
	p.until(`document.querySelector('` + grip("head", 0) + `')`)
	p.drag(grip("head", 0), 0, -40)
	p.until(`!/rise = 30 in/.test(document.querySelector("#text").value)`)
	p.until(`document.querySelector("#slide-rise").getAttribute("aria-valuetext") !== "30 in"`)
	p.undo()
	p.until(`document.querySelector("#text").value === ` + quoted(standing))
}

// A slider, with the keys: each step is in the text, and undo takes it back.
func TestSlide(t *testing.T) {
	t.Parallel()
	v := visit(t, Options{File: "standing.stabile"})
	p := v.browse(desk, v.address)
	p.until(settled)
	p.tabTo("#slide-rise")
	p.key(kb.End)
	p.until(`/rise = 40 in/.test(document.querySelector("#text").value)`)
	p.until(`/50/.test(document.querySelector("#figures").textContent)`)
	p.undo()
	p.until(`document.querySelector("#text").value === ` + quoted(standing))
}

// Two pages with one design are told, a file changed outside too, and what was
// saved elsewhere is never written over unseen.
func TestTwoHands(t *testing.T) {
	t.Parallel()
	v := visit(t, Options{File: "standing.stabile"})
	p := v.browse(desk, v.address)
	p.until(settled)
	q := v.browse(desk, v.address)
	q.until(settled)
	p.until(`/open on 2 pages/.test(document.querySelector("#notice").textContent)`)
	path := filepath.Join(v.dir, "standing.stabile")
	elsewhere := strings.Replace(standing, "10 in, gores", "12 in, gores", 1)
	// One page has nothing to lose and follows; the other shows the two side by side.
	p.do(`document.querySelector("#text").focus()`)
	p.key(kb.End, chromedp.ModifierCtrl)
	p.key("# mine")
	require.NoError(t, os.WriteFile(path, []byte(elsewhere), 0o644))
	q.until(`/12 in, gores/.test(document.querySelector("#text").value)`)
	p.until(`/changed elsewhere/.test(document.querySelector("#notice").textContent)`)
	p.key("s", chromedp.ModifierCtrl)
	p.until(`document.querySelector("dialog[open] .sides mark")`)
	p.shot("two-hands")
	now, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, elsewhere, string(now))
	p.click("dialog .group button:nth-of-type(1)")
	p.until(`/^saved|as saved/.test(document.querySelector("#kept").textContent)`)
	now, err = os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, standing+"# mine", string(now))
}

// The program ends: it is said at once and the text stays. Started again, it has
// the draft.
func TestEndedAndStartedAgain(t *testing.T) {
	t.Parallel()
	dir, drafts := t.TempDir(), t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "standing.stabile"), []byte(standing), 0o644))
	s, err := New(Options{Dir: dir, File: "standing.stabile", Drafts: drafts})
	require.NoError(t, err)
	l, address, err := s.Listen(0)
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(ctx, l) }()
	v := &visitor{t: t}
	p := v.browse(desk, address)
	p.until(settled)
	p.do(`document.querySelector("#text").focus()`)
	p.key(kb.End, chromedp.ModifierCtrl)
	p.key("# not saved")
	p.until(settled)
	require.Eventually(t, func() bool { f, _ := os.ReadDir(drafts); return len(f) == 1 }, 5*time.Second, 20*time.Millisecond)
	stop()
	require.NoError(t, <-ended)
	require.NoError(t, s.Close())
	p.until(`/has ended/.test(document.querySelector("#notice").textContent)`)
	p.key(" still here")
	require.Contains(t, p.text(), "# not saved still here")
	p.shot("ended")

	again := visit(t, Options{Dir: dir, File: "standing.stabile", Drafts: drafts})
	q := again.browse(desk, again.address)
	q.until(`/draft/.test(document.querySelector("#notice").textContent)`)
	require.NotContains(t, q.text(), "not saved")
	q.click("#notice button")
	q.until(`/# not saved/.test(document.querySelector("#text").value)`)
}

// A finger on a tablet and on a telephone: to look, to choose, to slide, to turn.
func TestTouch(t *testing.T) {
	t.Parallel()
	v := visit(t, Options{File: "standing.stabile"})
	for name, size := range map[string]sized{"tablet": {1024, 768, true}, "telephone": {390, 844, true}} {
		p := v.browse(size, v.address)
		p.until(settled)
		require.LessOrEqual(t, eval[float64](p, `document.documentElement.scrollWidth`), float64(size.width), name+": nothing reaches past the edge")
		p.tap(bodyOf("moon", 1))
		p.until(`document.querySelector("#card h2")?.textContent.startsWith("moon")`)
		p.tap(`[data-show="picture"]`)
		p.until(`document.querySelector(".picture")?.complete && document.querySelector(".picture").naturalWidth > 0`)
		p.until(`document.querySelector("#slide-rise").getClientRects().length > 0`)
		s := eval[[]float64](p, `(() => { const e = document.querySelector("#slide-rise"); e.scrollIntoView({block: "center"}); const r = e.getBoundingClientRect(); return [r.right - 8, r.top + r.height/2] })()`)
		p.run(chromedp.TapXY(s[0], s[1]))
		p.until(`!/rise = 30 in/.test(document.querySelector("#text").value)`)
		p.shot("touch-" + name)
	}
}

// Variations, a client's view, and the tabs.
func TestTabs(t *testing.T) {
	t.Parallel()
	v := visit(t, Options{File: "standing.stabile"})
	p := v.browse(desk, v.address)
	p.until(settled)
	p.click("#figures li:nth-child(3) button")
	p.until(`document.querySelector("details[open]")?.textContent.includes("tipping")`)
	p.click("#tab-variations")
	p.click(".asks button:nth-of-type(2)") // at random
	p.until(`document.querySelectorAll(".dot").length >= 50`)
	p.click(".dot")
	p.until(`document.querySelector(".pin img")?.naturalWidth > 0`)
	p.shot("variations")
	p.click(".pin .group button")
	p.until(`!/rise = 30 in/.test(document.querySelector("#text").value)`)
	p.undo()
	p.until(`document.querySelector("#text").value === ` + quoted(standing))
	p.click("#tab-parts")
	p.click(`#panel tbody tr:nth-child(3) td:last-child button`)
	p.until(`document.querySelector("#panel h2")?.textContent.startsWith("Blanks of moon") && document.querySelectorAll(".blanks li").length < 4`)
	p.click("#client")
	p.until(`document.querySelector("dialog.client img")?.naturalWidth > 0`)
	p.shot("client")
	require.NotContains(t, eval[string](p, `document.querySelector("dialog.client").innerText`), "tipping")
	p.key(kb.Escape)
	p.click("#tab-papers")
	p.click(".papers li:nth-child(5) button")
	kind, head := p.fetch()
	require.Equal(t, "application/pdf", kind)
	require.True(t, strings.HasPrefix(head, "%PDF"))
	p.until(`document.querySelector(".preview img")?.naturalWidth > 0`)
	p.shot("papers")
}

// markup is what would run or load something, were it taken for markup.
const markup = `<img src=x onerror=window.owned=1><script>window.owned=1</script>`

// Nothing in a design becomes markup, in any view of it.
func TestNamesAreNoMarkup(t *testing.T) {
	t.Parallel()
	v := visit(t, Options{})
	text := strings.Replace(standing, `"Standing"`, `"`+markup+`"`, 1)
	text = strings.Replace(text, "require tipping >= 1.5", `require tipping >= 99 "`+markup+`"`, 1)
	text += "variation \"" + markup + "\" { rise = 32 in }\nshop { name \"" + markup + "\", currency \"" + markup + "\" }\n# " + markup + "\n"
	require.NoError(t, os.WriteFile(filepath.Join(v.dir, "markup.stabile"), []byte(text), 0o644))
	p := v.browse(desk, v.address+"&file=markup.stabile")
	p.until(settled)
	clean := func(where string) {
		t.Helper()
		require.False(t, eval[bool](p, `!!window.owned || !!document.querySelector("img[src='x'], body script:not([src]), svg script")`), where)
	}
	clean("at first")
	for _, tab := range []string{"parts", "blanks", "checks", "shop", "variations", "papers"} {
		p.click("#tab-" + tab)
		clean(tab)
	}
	p.click(".papers li:nth-child(5) button")
	p.until(`document.querySelector(".preview img")?.naturalWidth > 0`)
	p.do(`document.querySelector("#text").focus()`)
	p.key(kb.End, chromedp.ModifierCtrl)
	p.key("wrong <b onclick=alert(1)>")
	p.says("mistakes")
	clean("in a mistake")
	p.click("#files")
	p.until(`document.querySelector("dialog[open]")`)
	clean("in the list")
	p.key(kb.Escape)
	p.click("#client")
	p.until(`document.querySelector("dialog.client")`)
	clean("client")
}

// A hostile page gets nowhere: it cannot frame the bench, load from it, or send to
// it, although the browser has the cookie.
func TestHostilePage(t *testing.T) {
	t.Parallel()
	v := visit(t, Options{File: "standing.stabile"})
	p := v.browse(desk, v.address)
	p.until(settled)
	hostile := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		_, _ = io.WriteString(w, `<!doctype html><iframe id=f src="`+v.base+`/"></iframe><img id=i src="`+v.base+`/page/mark.svg">
<form id=s method=post enctype="text/plain" target=t action="`+v.base+`/api/save"><input name='{"file":"standing.stabile","text":"gone","mark":"`+mark(standing)+`","x":"' value='"}'></form><iframe name=t></iframe>`)
	}))
	defer hostile.Close()
	p.deaf = true // of the frame that is refused
	q := p
	q.run(chromedp.Navigate(strings.Replace(hostile.URL, "127.0.0.1", "localhost", 1)))
	require.Zero(t, eval[int](q, `document.querySelector("#i").naturalWidth`), "it loads a picture")
	sent := eval[string](q, `fetch("`+v.base+`/api/save", {method: "POST", credentials: "include", mode: "no-cors", headers: {"Content-Type": "text/plain"}, body: JSON.stringify({file: "standing.stabile", text: "gone", mark: "`+mark(standing)+`"})}).then(r => "sent " + r.status, e => "failed")`)
	require.NotContains(t, sent, "200")
	read := eval[string](q, `fetch("`+v.base+`/api/start", {credentials: "include"}).then(r => r.text(), e => "failed")`)
	require.Equal(t, "failed", read)
	q.do(`document.querySelector("#s").submit()`)
	q.pause(200 * time.Millisecond)
	framed := eval[bool](q, `(() => { try { return document.querySelector("#f").contentDocument?.body?.innerText.includes("Save") ?? false } catch { return false } })()`)
	require.False(t, framed)
	now, err := os.ReadFile(filepath.Join(v.dir, "standing.stabile"))
	require.NoError(t, err)
	require.Equal(t, standing, string(now))
}
