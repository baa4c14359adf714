// The text: a plain field of the browser, with colours painted under it, and with
// mistakes, cures and words that may stand there.

import { Vocabulary } from "./colour.js";
import { byID, el, say } from "./dom.js";
import { offer } from "./offer.js";
import { store } from "./store.js";

/** @type {HTMLTextAreaElement} */
const field = byID("text");
const paint = byID("paint");
const box = byID("field");
const list = byID("mistakes");

let vocabulary = new Vocabulary({});
/** @type {{key: string, line: HTMLElement}[]} */
let painted = [];

/** @param {Record<string, string[]>} words */
export function speak(words) {
  vocabulary = new Vocabulary(words);
}

/** Paints the lines that changed. */
function repaint() {
  const lines = store.text.split("\n");
  const marks = marksOf(lines);
  /** @type {{key: string, line: HTMLElement}[]} */
  const next = [];
  for (let i = 0; i < lines.length; i++) {
    const m = marks[i];
    const key = lines[i] + "\n" + m.lit + m.spans.map((s) => s.from + "," + s.to).join(";") + m.aside;
    const old = painted[i];
    if (old && old.key === key) {
      next.push(old);
      continue;
    }
    const line = lineOf(lines[i], m);
    if (old) old.line.replaceWith(line);
    else paint.append(line);
    next.push({ key, line });
  }
  for (const old of painted.slice(lines.length)) old.line.remove();
  painted = next;
}

/**
 * @typedef {{lit: boolean, spans: {from: number, to: number}[], aside: string}} Marks
 */

/**
 * Returns what is marked on each line.
 * @param {string[]} lines
 * @returns {Marks[]}
 */
function marksOf(lines) {
  /** @type {Marks[]} */
  const marks = lines.map(() => ({ lit: false, spans: [], aside: "" }));
  const a = store.answer;
  if (!a || painted.length === 0 && !a) return marks;
  const starts = [0];
  for (const l of lines) starts.push(starts[starts.length - 1] + l.length + 1);
  const lineAt = (/** @type {number} */ at) => {
    let i = 0;
    while (i + 1 < lines.length && starts[i + 1] <= at) i++;
    return i;
  };
  for (const w of a.wrong) {
    if (w.file || w.line === 0) continue;
    const i = lineAt(w.from);
    marks[i].spans.push({ from: w.from - starts[i], to: Math.max(w.to, w.from + 1) - starts[i] });
    marks[i].aside ||= w.text;
  }
  const part = (a.parts.length ? a : store.drawn)?.parts.find((/** @type {any} */ p) => p.name === store.selected);
  if (part && part.to > part.from) for (let i = lineAt(part.from); i <= lineAt(part.to - 1); i++) marks[i].lit = true;
  return marks;
}

/**
 * @param {string} text
 * @param {Marks} marks
 * @returns {HTMLElement}
 */
function lineOf(text, marks) {
  const line = el("div", { class: "line" + (marks.lit ? " lit" : "") + (marks.spans.length ? " wrong" : "") });
  const cuts = new Set([0, text.length]);
  const stretches = vocabulary.stretches(text);
  for (const s of [...stretches, ...marks.spans]) cuts.add(Math.min(s.from, text.length)).add(Math.min(s.to, text.length));
  const at = [...cuts].sort((a, b) => a - b);
  for (let i = 0; i + 1 < at.length; i++) {
    const piece = text.slice(at[i], at[i + 1]);
    const sort = stretches.find((s) => s.from <= at[i] && at[i + 1] <= s.to)?.sort;
    const bad = marks.spans.some((s) => s.from <= at[i] && at[i] < s.to);
    if (!sort && !bad) line.append(piece);
    else line.append(el("span", { class: (sort ? "w-" + sort : "") + (bad ? " bad" : "") }, piece));
  }
  if (text === "") line.append(marks.spans.length ? el("span", { class: "bad" }, " ") : "\u200b");
  if (marks.aside) line.append(el("span", { class: "aside" }, marks.aside));
  return line;
}

/** Lists the mistakes, each with its cure. */
function relist() {
  const wrong = store.answer?.wrong ?? [];
  if (store.answer?.empty) {
    list.replaceChildren(el("li", { class: "begin" }, "There is no part yet. Begin with ", el("b", {}, "Add: plate"), ", then a post on it."));
    return;
  }
  list.replaceChildren(...wrong.slice(0, 30).map((/** @type {any} */ w) => {
    const place = w.file ? w.file + (w.line ? ", line " + w.line : "") : w.line ? "line " + w.line : "";
    return el("li", {},
      el("button", { type: "button", class: "where", onclick: () => go(w.from, w.to) }, place || "design"), " ",
      el("span", {}, w.text),
      w.hint ? el("span", { class: "hint" }, ": " + w.hint) : null,
      w.cure ? el("button", { type: "button", class: "cure", title: "Alt+Enter", onclick: () => cure(w) }, w.cure.words.trim() ? "put ‘" + w.cure.words.trim() + "’" : "leave it out") : null);
  }));
}

/** @param {any} w */
function cure(w) {
  replace(w.cure.from, w.cure.to, w.cure.words, "cure");
  say(w.cure.words.trim() ? w.cure.words.trim() + " put in" : "left out");
}

/** Takes the cure of the mistake nearest to the caret. */
function cureHere() {
  const at = field.selectionStart;
  const cures = (store.answer?.wrong ?? []).filter((/** @type {any} */ w) => w.cure && !w.file);
  cures.sort((/** @type {any} */ a, /** @type {any} */ b) => Math.abs(a.from - at) - Math.abs(b.from - at));
  if (cures.length) cure(cures[0]);
}

/**
 * Puts words in the place of others.
 * @param {number} from
 * @param {number} to
 * @param {string} words
 * @param {string} kind
 */
export function replace(from, to, words, kind) {
  const text = store.text.slice(0, from) + words + store.text.slice(to);
  store.change(text, { kind, from: from + words.length, to: from + words.length });
  field.focus();
}

/**
 * Brings a stretch of the text into sight and marks it.
 * @param {number} from
 * @param {number} to
 */
export function go(from, to) {
  field.focus();
  field.setSelectionRange(from, to);
  reveal(from);
}

/**
 * Scrolls a place into sight, with some lines about it, and the start of its line.
 * @param {number} at
 */
function reveal(at) {
  const line = painted[store.text.slice(0, at).split("\n").length - 1]?.line;
  if (!line) return;
  const high = box.clientHeight, row = line.offsetHeight, top = line.offsetTop;
  if (top < box.scrollTop || top + 3 * row > box.scrollTop + high) box.scrollTop = Math.max(0, top - high / 4);
}

/** Finds the part in whose declaration the caret stands. */
function lightHere() {
  if (document.activeElement !== field) return;
  const at = field.selectionStart;
  const parts = store.answer?.parts ?? [];
  const p = parts.find((/** @type {any} */ q) => q.name === store.selected && q.from <= at && at <= q.to) ??
    parts.find((/** @type {any} */ q) => q.to > q.from && q.from <= at && at <= q.to);
  if (p) store.select(p.name, "text");
}

field.addEventListener("input", () => {
  store.change(field.value, { kind: "type" });
});
field.addEventListener("beforeinput", (e) => {
  if (e.inputType === "historyUndo" || e.inputType === "historyRedo") {
    e.preventDefault();
    store.step(e.inputType === "historyUndo");
  }
});
field.addEventListener("keydown", (e) => {
  if (offer.key(e)) return;
  const ctrl = e.ctrlKey || e.metaKey;
  if (e.altKey && e.key === "Enter") {
    e.preventDefault();
    cureHere();
  } else if (ctrl && e.key.toLowerCase() === "z") {
    e.preventDefault();
    store.step(!e.shiftKey);
  } else if (ctrl && e.key.toLowerCase() === "y") {
    e.preventDefault();
    store.step(false);
  }
});
// The letter of a key that took a word is no letter, also where it comes by itself.
field.addEventListener("keypress", (e) => {
  if (offer.took) e.preventDefault();
});
document.addEventListener("selectionchange", lightHere);

store.on("text", (how) => {
  if (field.value !== store.text) {
    const at = how.from ?? field.selectionStart;
    field.value = store.text;
    if (how.kind !== "show") field.setSelectionRange(at, how.to ?? at);
  }
  repaint();
  if (how.kind !== "type" && how.kind !== "show" && how.from !== undefined) reveal(how.from);
});
store.on("answer", () => {
  repaint();
  relist();
});
store.on("part", (by) => {
  repaint();
  const p = store.drawn?.parts.find((/** @type {any} */ q) => q.name === store.selected);
  if (p && by !== "text" && p.to > p.from) reveal(p.from);
});
