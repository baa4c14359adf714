// Opening, saving, beginning; drafts; a file that was changed by somebody else.

import { byID, dialog, el, say } from "./dom.js";
import { History } from "./history.js";
import { ask, listen, Refusal } from "./net.js";
import { store } from "./store.js";

/** @type {any} */
let start = null;
/** @type {() => void} */
let deaf = () => {};
/** @type {ReturnType<typeof setTimeout> | undefined} */
let drafting;

/** How long the hands rest, in ms, before the draft is kept. */
const REST = 700;

/** @param {any} s what the page begins with */
export async function begin(s) {
  start = s;
  store.sealed = s.sealed;
  for (const name of ["save", "tidying"]) byID(name).hidden = s.sealed;
  const asked = decodeURIComponent(location.hash.slice(1).replace(/\+/g, " "));
  if (asked && s.files.includes(asked)) await open(asked);
  else if (s.files.length === 1 && !asked) await open(s.files[0]);
  else choose();
}

/**
 * Opens a design of the folder.
 * @param {string} file
 */
export async function open(file) {
  let o;
  try {
    o = await ask("/api/read", { file });
  } catch (e) {
    return notice(/** @type {Error} */ (e).message);
  }
  take(o);
  if (o.draft !== undefined) offerDraft(o);
}

/** @param {any} o */
function take(o) {
  store.file = o.file;
  store.mark = o.mark;
  store.savedText = o.text;
  store.variation = "";
  store.selected = "";
  store.answer = null;
  store.drawn = null;
  store.history = new History(o.text);
  store.text = o.text;
  history.replaceState(null, "", "#" + encodeURIComponent(o.file));
  byID("file-name").textContent = o.file.replace(/\.stabile$/, "");
  document.title = o.file.replace(/\.stabile$/, "") + " – bench";
  store.tell("file");
  store.tell("text", { kind: "open", from: 0, to: 0 });
  deaf();
  deaf = listen(o.file, heard);
  kept();
}

/**
 * Hears what happened beside the page.
 * @param {{changed?: string, pages?: number}} m
 */
async function heard(m) {
  if (m.pages !== undefined && m.pages > 1) notice("This design is open on " + m.pages + " pages. What is saved on one is not on the others.", [["Good", () => notice("")]]);
  else if (m.pages === 1 && byID("notice").textContent?.startsWith("This design is open")) notice("");
  if (m.changed !== store.file) return;
  let o;
  try {
    o = await ask("/api/read", { file: store.file });
  } catch {
    return notice("The file was taken away. Your text is still here; save it to put it back.");
  }
  if (o.mark === store.mark) return;
  if (!store.changed) {
    const text = o.text;
    store.mark = o.mark;
    store.savedText = text;
    store.change(text, { kind: "reload" });
    kept();
    return say("The file was changed elsewhere; its new text is shown.");
  }
  notice("The file was changed elsewhere while you worked.", [["Compare", () => compare(o)]]);
}

/**
 * Sets the text of the page and that of the file side by side.
 * @param {any} o
 */
function compare(o) {
  const d = dialog("Changed in two places",
    el("p", {}, "Lines that differ are marked. Choose one; the other can still be copied from here."),
    el("div", { class: "sides" },
      side("Yours", store.text, o.text), side("In the file", o.text, store.text)),
    el("div", { class: "group" },
      el("button", { type: "button", onclick: () => {
        store.mark = o.mark;
        store.savedText = o.text;
        d.close();
        notice("");
        kept();
        save();
      } }, "Save mine over it"),
      el("button", { type: "button", onclick: () => {
        store.mark = o.mark;
        store.savedText = o.text;
        store.change(o.text, { kind: "reload" });
        d.close();
        notice("");
        kept();
      } }, "Take the file's (undo brings mine back)")));
}

/**
 * A text with the lines marked that another does not have.
 * @param {string} title
 * @param {string} text
 * @param {string} other
 */
function side(title, text, other) {
  const theirs = new Set(other.split("\n"));
  return el("section", { "aria-label": title }, el("h3", {}, title),
    el("pre", { tabIndex: 0 }, ...text.split("\n").map((l) => theirs.has(l) ? l + "\n" : el("mark", {}, (l || " ") + "\n"))));
}

/** @param {any} o */
function offerDraft(o) {
  notice(o.stale ? "A draft that was not saved is kept, and the file was changed since." : "A draft that was not saved is kept.", [
    ["Take the draft", () => {
      store.change(o.draft, { kind: "draft" });
      notice("");
    }],
    ["Compare", () => compare({ ...o, text: o.draft })],
    ["Forget it", () => {
      ask("/api/draft", { file: store.file, text: "" }).catch(() => {});
      notice("");
    }],
  ].filter((b) => b[0] !== "Compare" || o.stale));
}

/** Puts the text into neat columns. */
export async function tidy() {
  const t = await ask("/api/tidy", store.state);
  if (t.text !== store.text) store.change(t.text, { kind: "tidy" });
}

/** Saves the text, unless the file was changed meanwhile: tidied, where that is wished and it can be read. */
export async function save() {
  if (!store.file || store.sealed) return;
  if (/** @type {HTMLInputElement} */ (byID("tidy-first")).checked) await tidy().catch(() => {});
  const text = store.text;
  try {
    const s = await ask("/api/save", { file: store.file, text, mark: store.mark });
    store.mark = s.mark;
    store.savedText = text;
    clearTimeout(drafting);
    kept("saved");
    say("Saved");
  } catch (e) {
    if (e instanceof Refusal && e.status === 409) compare(e.body);
    else notice("Not saved: " + /** @type {Error} */ (e).message);
  }
}

/** @param {string} [word] */
function kept(word = "") {
  byID("kept").textContent = store.sealed ? "read only" : store.changed ? "not saved" : word || (store.file ? "as saved" : "");
  byID("kept").classList.toggle("dirty", store.changed);
  store.tell("saved");
}

/**
 * Tells something that must be seen.
 * @param {string} text
 * @param {[string, () => void][] | any} [buttons]
 */
export function notice(text, buttons = []) {
  const box = byID("notice");
  box.hidden = !text;
  box.replaceChildren(el("span", {}, text), ...buttons.map((/** @type {any} */ b) => el("button", { type: "button", onclick: b[1] }, b[0])),
    buttons.length ? "" : el("button", { type: "button", "aria-label": "Close the notice", onclick: () => notice("") }, "×"));
}

/** Offers the designs of the folder, and ways to begin. */
export async function choose() {
  try {
    start = await ask("/api/start");
  } catch {
    // the last list is shown
  }
  const name = el("input", { id: "new-name", value: "new-piece", pattern: "[\\p{L}\\p{N}_][\\p{L}\\p{N}_ \\-]*" });
  const units = el("select", { id: "new-units" }, el("option", { value: "inch" }, "inches, pounds"), el("option", { value: "mm" }, "millimetres, kilograms"));
  const wrong = el("p", { class: "note", role: "alert" });
  const make = async (/** @type {string} */ example) => {
    try {
      const o = await ask("/api/begin", { file: name.value.trim(), example, units: units.value });
      d.close();
      take(o);
    } catch (e) {
      wrong.textContent = /** @type {Error} */ (e).message;
      name.focus();
    }
  };
  const d = dialog("Designs",
    start.files.length ? el("ul", { class: "designs" }, ...start.files.map((/** @type {string} */ f) => el("li", {}, el("button", { type: "button", onclick: () => {
      d.close();
      open(f);
    } }, f.replace(/\.stabile$/, ""))))) : el("p", { class: "faint" }, "There is no design in the folder " + start.folder + " yet."),
    start.sealed ? "" : el("section", { class: "beginnings", "aria-label": "Begin" }, el("h3", {}, "Begin a new one"),
      el("div", { class: "group" }, el("label", {}, "called ", name), el("label", {}, "in ", units)), wrong,
      el("button", { type: "button", class: "main", onclick: () => make("") }, "Empty"),
      el("ul", { class: "examples" }, ...start.examples.map((/** @type {any} */ x) => el("li", {},
        el("button", { type: "button", onclick: () => make(x.name) }, "From " + x.name.replace(/\.stabile$/, "")), el("span", {}, x.about))))));
}

store.on("text", (how) => {
  if (how.kind === "open" || how.kind === "show") return;
  kept();
  clearTimeout(drafting);
  if (!start?.drafts || store.sealed) return;
  drafting = setTimeout(() => {
    ask("/api/draft", { file: store.file, text: store.changed ? store.text : "", mark: store.mark }).catch(() => {});
  }, REST);
});
window.addEventListener("beforeunload", (e) => {
  if (store.changed && !start?.drafts && !store.sealed) e.preventDefault();
});
