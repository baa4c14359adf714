package bench

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// Undo takes any run of changes back to the same text, and redo makes it again;
// typing that goes on is one change, and no half of a letter is left.
func TestHistory(t *testing.T) {
	t.Parallel()
	v := visit(t, Options{File: "standing.stabile"})
	p := v.browse(desk, v.address)
	p.until(settled)
	fault := eval[string](p, `(async () => {
  const { History, difference } = await import("/page/history.js");
  let seed = 7;
  const random = n => (seed = (seed * 1103515245 + 12345) % 2147483648) % n;
  const letters = ["a", "b", "\n", "½", "😀", "é", " "];
  for (let round = 0; round < 200; round++) {
    let text = Array.from({ length: random(12) }, () => letters[random(letters.length)]).join("");
    const h = new History(text), texts = [text];
    for (let i = 0; i < 30; i++) {
      const chars = [...text];
      chars.splice(random(chars.length + 1), random(3), ...Array.from({ length: random(3) }, () => letters[random(letters.length)]));
      const next = chars.join("");
      const d = difference(text, next);
      if (text.slice(0, d.at) + d.new + text.slice(d.at + d.old.length) !== next) return "difference of " + JSON.stringify([text, next]);
      text = next;
      h.record(text, random(2) ? "type" : "drag", i * 2000);
      texts.push(text);
    }
    while (h.undo() >= 0) if (!texts.includes(h.text)) return "undo made " + JSON.stringify(h.text);
    if (h.text !== texts[0]) return "undone to " + JSON.stringify(h.text);
    while (h.redo() >= 0);
    if (h.text !== text) return "redone to " + JSON.stringify(h.text);
  }
  const h = new History("");
  for (const [i, text] of ["p", "po", "pos", "post", "pos", "post"].entries()) h.record(text, "type", i * 100);
  if (h.done.length !== 1) return "typing is " + h.done.length + " changes";
  return "";
})()`)
	require.Empty(t, fault)
	colours := eval[[]string](p, `(async () => {
  const { Vocabulary } = await import("/page/colour.js");
  const v = new Vocabulary({ keyword: ["post", "on"], property: ["diameter", "length"], unit: ["in"], function: ["round"] });
  const line = 'post mast on pad { diameter 3-1/2 in, length round(rise) }  # "not" a post';
  return v.stretches(line).map(s => s.sort + " " + line.slice(s.from, s.to));
})()`)
	require.Equal(t, []string{"keyword post", "keyword on", "property diameter", "number 3-1/2", "number in", "property length", "function round", `comment # "not" a post`}, colours)
}

// TestGallery draws the bench for the README, when it is asked for.
func TestGallery(t *testing.T) {
	if *shots == "" {
		t.Skip("give -shots a folder")
	}
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, os.DirFS("../../examples")))
	v := visit(t, Options{Dir: dir, File: "lamp-thorn.stabile"})
	p := v.browse(sized{1360, 860, false}, v.address)
	p.until(settled)
	p.do(`document.querySelector("#part").value = "leader"; document.querySelector("#part").dispatchEvent(new Event("change"))`)
	p.until(`document.querySelector('` + grip("head", 0) + `')`)
	p.pause(500 * time.Millisecond)
	p.shot("bench")
	require.FileExists(t, filepath.Join(*shots, "bench.png"))
}
