package bench

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"stabile/param/external"
)

// axeVersion is the release of axe-core that the page is held to. It is fetched for
// the tests alone: see .ci/run.
const axeVersion = "4.14.1"

// axe returns the code of axe-core; the test skips without it.
func axe(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(os.Getenv("STABILE_AXE"), "axe.min.js"))
	if os.Getenv("STABILE_AXE") == "" || err != nil {
		external.Missing(t, "there is no axe-core %s: STABILE_AXE names its folder; %v", axeVersion, err)
	}
	return string(text)
}

// faultsFound runs axe-core on the page by WCAG 2.2 AA and its good practices.
const faultsFound = `(async () => (await axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }))
  .violations.map(v => v.id + ": " + v.help + ": " + v.nodes.map(n => n.target.join(" ") + " " + (n.any[0]?.message ?? n.all[0]?.message ?? "")).slice(0, 5).join("; ")))()`

// axe-core finds no fault, in any tab and sheet, dark and light, on a desk, a
// tablet and a telephone.
func TestAccess(t *testing.T) {
	t.Parallel()
	code := axe(t)
	v := visit(t, Options{File: "standing.stabile"})
	for name, size := range map[string]sized{"1440": desk, "1024": {1024, 768, true}, "390": {390, 844, true}} {
		p := v.browse(size, v.address)
		p.until(settled)
		p.do(code)
		require.Equal(t, axeVersion, eval[string](p, "axe.version"))
		look := func(where string) {
			t.Helper()
			for _, fault := range eval[[]string](p, faultsFound) {
				t.Errorf("%s, %s: %s", name, where, fault)
			}
		}
		look("light")
		p.click("#shade")
		p.do(`document.querySelector("#part").value = "mast"; document.querySelector("#part").dispatchEvent(new Event("change"))`)
		p.until(`!document.querySelector("#card").hidden`)
		look("dark, with a part")
		if size != desk {
			continue
		}
		for _, tab := range []string{"blanks", "checks", "shop", "variations", "papers"} {
			p.click("#tab-" + tab)
			look("dark, " + tab)
		}
		p.click(`[data-show="picture"]`)
		p.click("#shade")
		p.click("#tab-checks")
		look("light, checks and picture")
		p.click("#files")
		p.until(`document.querySelector("dialog[open]")`)
		look("designs")
		p.key(kb.Escape)
		p.do(`(() => { const f = document.querySelector("#text"); f.focus(); f.value = f.value.replace("length", "lenght"); f.dispatchEvent(new InputEvent("input", {data: "x"})) })()`)
		p.says("mistakes")
		look("mistakes")
	}
}
