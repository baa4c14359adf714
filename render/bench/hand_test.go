package bench

import (
	"fmt"
	"strings"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// What a maker does with a pointer, a finger and the keys. Nothing here reaches
// into the page but to find where things are.

// A spot is a place on the page, in pixels.
type spot struct{ X, Y float64 }

// at returns the middle of the first thing that a selector finds, brought into
// sight.
func (p *tab) at(selector string) spot {
	p.t.Helper()
	p.until(fmt.Sprintf(`(() => { const e = document.querySelector(%q); return e && e.getClientRects().length > 0 })()`, selector))
	s := eval[[]float64](p, fmt.Sprintf(`(() => { const e = document.querySelector(%q); e.scrollIntoView({block: "nearest", inline: "nearest"});
		const r = e.getBoundingClientRect(); return [r.left + r.width/2, r.top + r.height/2] })()`, selector))
	return spot{s[0], s[1]}
}

// click clicks on what a selector finds.
func (p *tab) click(selector string) {
	p.t.Helper()
	s := p.at(selector)
	p.run(chromedp.MouseClickXY(s.X, s.Y))
}

// tap touches it with a finger.
func (p *tab) tap(selector string) {
	p.t.Helper()
	s := p.at(selector)
	p.run(chromedp.TapXY(s.X, s.Y))
}

// drag drags what a selector finds by so many pixels, in steps as a hand does.
func (p *tab) drag(selector string, dx, dy float64) {
	p.t.Helper()
	p.until(settled)
	p.pause(80 * time.Millisecond) // the drawing has found its place
	s := p.at(selector)
	p.run(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, s.X, s.Y))
	p.run(chromedp.MouseEvent(input.DispatchMouseEventTypeMousePressed, s.X, s.Y, chromedp.ButtonType(input.MouseButtonLeft), chromedp.ClickCount(1)))
	const steps = 8
	for i := 1; i <= steps; i++ {
		p.run(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, s.X+dx*float64(i)/steps, s.Y+dy*float64(i)/steps, chromedp.ButtonType(input.MouseButtonLeft)))
		p.pause(12 * time.Millisecond)
	}
	p.run(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseReleased, s.X+dx, s.Y+dy, chromedp.ButtonType(input.MouseButtonLeft), chromedp.ClickCount(1)))
}

// undo takes the last change back, once there is one.
func (p *tab) undo() {
	p.t.Helper()
	p.until(`!document.querySelector("#undo").disabled`)
	p.click("#undo")
}

// key strikes keys, with modifiers held.
func (p *tab) key(keys string, held ...chromedp.Modifier) {
	p.t.Helper()
	p.run(chromedp.KeyEvent(keys, chromedp.KeyModifiers(held...)))
}

// tabTo goes on with the Tab key until what a selector finds has the focus.
func (p *tab) tabTo(selector string) {
	p.t.Helper()
	p.until(fmt.Sprintf(`document.querySelector(%q)`, selector))
	for range 150 {
		if eval[bool](p, fmt.Sprintf(`document.activeElement?.matches(%q) ?? false`, selector)) {
			return
		}
		p.key(kb.Tab)
	}
	p.shot("tab-lost")
	p.t.Fatalf("the Tab key never comes to %s", selector)
}

// text returns the text of the design as the field has it.
func (p *tab) text() string { return eval[string](p, `document.querySelector("#text").value`) }

// says waits for the last word.
func (p *tab) says(state string) {
	p.t.Helper()
	p.until(fmt.Sprintf(`document.querySelector("#verdict").classList.contains(%q)`, state))
}

// bodyOf is the selector of a part in a view: 1 for the front, 2 for the right, 3
// for the plan.
func bodyOf(name string, view int) string {
	return fmt.Sprintf(`.view:nth-of-type(%d) [data-part="%s"] .body`, view, name)
}

// grip is the selector of a handle in a view, counted from 0.
func grip(name string, view int) string {
	return fmt.Sprintf(`[data-hand="%s@%d"]`, name, view)
}

// hasLine reports that a line of the text has some words.
func (p *tab) hasLine(words string) {
	p.t.Helper()
	require.Contains(p.t, strings.Join(strings.Fields(p.text()), " "), words)
}
