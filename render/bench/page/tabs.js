// The drawer of what the design comes to: parts, blanks, checks, shop.

import { byID, el, sign, svg } from "./dom.js";
import { store } from "./store.js";

/**
 * @typedef {{name: string, draw: (panel: HTMLElement) => void, live: boolean}} Tab
 */

/** @type {Tab[]} */
const tabs = [];
let open = "";
const bar = byID("tabs"), panel = byID("panel");

/**
 * Adds a tab. A live one is drawn again with each answer.
 * @param {string} name
 * @param {(panel: HTMLElement) => void} draw
 * @param {boolean} [live]
 */
export function tab(name, draw, live = true) {
  tabs.push({ name, draw, live });
  bar.append(el("button", {
    type: "button", role: "tab", id: "tab-" + name.toLowerCase(), "aria-selected": "false", "aria-controls": "panel", tabIndex: tabs.length === 1 ? 0 : -1,
    onclick: () => show(open === name && !panel.hidden ? "" : name),
  }, name));
  if (tabs.length === 1) show(name);
}

/**
 * Opens a tab; "" folds the drawer away.
 * @param {string} name
 */
export function show(name) {
  panel.hidden = !name;
  panel.dataset.of = name;
  if (name) open = name;
  for (const b of bar.children) {
    const on = b.textContent === name;
    b.setAttribute("aria-selected", String(on));
    if (on) {
      /** @type {HTMLElement} */ (b).tabIndex = 0;
      panel.setAttribute("aria-labelledby", b.id);
    } else if (name) /** @type {HTMLElement} */ (b).tabIndex = -1;
  }
  if (name) tabs.find((t) => t.name === name)?.draw(panel);
}

bar.addEventListener("keydown", (e) => {
  const list = /** @type {HTMLElement[]} */ ([...bar.children]);
  const i = list.indexOf(/** @type {HTMLElement} */ (document.activeElement));
  const to = { ArrowRight: i + 1, ArrowLeft: i - 1, Home: 0, End: list.length - 1 }[e.key];
  if (to === undefined || i < 0) return;
  e.preventDefault();
  const next = list[(to + list.length) % list.length];
  next.focus();
  show(next.textContent ?? "");
});

/**
 * A table.
 * @param {string} caption
 * @param {string[]} heads a head that starts with > is of numbers
 * @param {(Node | string)[][]} rows
 * @param {(i: number) => string} [mark] the class of a row
 */
export function table(caption, heads, rows, mark = () => "") {
  const right = heads.map((h) => h.startsWith(">"));
  return el("table", {}, el("caption", {}, caption),
    el("thead", {}, el("tr", {}, ...heads.map((h, i) => el("th", { scope: "col", class: right[i] ? "number" : "" }, h.replace(/^>/, ""))))),
    el("tbody", {}, ...rows.map((r, k) => el("tr", { class: mark(k) }, ...r.map((c, i) => el("td", { class: right[i] ? "number" : "" }, c))))));
}

/** The last answer with all checks, or null. */
function whole() {
  return store.answer?.whole && store.answer.checks ? store.answer : null;
}

function waiting(/** @type {HTMLElement} */ panel) {
  const a = store.answer;
  panel.replaceChildren(el("p", { class: "faint" }, a?.wrong.length ? "Mend the mistakes in the text first." : "Being worked out."));
}

let blanksOf = "";

function parts(/** @type {HTMLElement} */ panel) {
  const a = store.answer?.parts.length ? store.answer : store.drawn;
  if (!a) return waiting(panel);
  panel.replaceChildren(table("Parts", ["Part", "What", "Size", "Metal", ">Weight", "To cut"], a.parts.map((/** @type {any} */ p) => [
    el("button", { type: "button", class: "link", onclick: () => store.select(p.name, "list") }, p.name), p.kind, p.size, p.metal, p.weight,
    el("button", { type: "button", class: "link", onclick: () => {
      blanksOf = p.name;
      show("Blanks");
    }, "aria-label": "blanks of " + p.name }, "blanks"),
  ]), (i) => a.parts[i].name === store.selected ? "lit" : ""));
}

function blanks(/** @type {HTMLElement} */ panel) {
  const a = whole();
  if (!a) return waiting(panel);
  const all = a.blanks ?? [];
  const list = blanksOf ? all.filter((/** @type {any} */ b) => b.part === blanksOf || b.name.startsWith(blanksOf)) : all;
  panel.replaceChildren(
    el("h2", {}, blanksOf ? "Blanks of " + blanksOf : "Blanks", blanksOf ? el("button", { type: "button", onclick: () => {
      blanksOf = "";
      show("Blanks");
    } }, "Show all") : null),
    el("ul", { class: "blanks" }, ...list.map((/** @type {any} */ b) => {
      const m = Math.max(b.box[2], b.box[3]) * 0.03;
      return el("li", {},
        svg("svg", { viewBox: [b.box[0] - m, b.box[1] - m, b.box[2] + 2 * m, b.box[3] + 2 * m].join(" "), role: "img", "aria-label": "outline of " + b.name }, svg("path", { d: b.path })),
        el("b", {}, b.name), el("span", {}, b.quantity + (b.quantity === 1 ? " piece" : " pieces")), el("span", {}, b.size), el("span", {}, b.metal), el("span", {}, b.weight + " each"));
    })), list.length ? "" : el("p", { class: "faint" }, "Nothing is cut for it."));
}

let opened = -1;

/** @param {number} i */
export function openCheck(i) {
  opened = i;
  show("Checks");
  const row = panel.querySelector("[open]");
  row?.scrollIntoView({ block: "nearest" });
  /** @type {HTMLElement | null} */ (row?.querySelector("summary") ?? null)?.focus();
}

const order = ["fails", "undecided", "holds"];

function checks(/** @type {HTMLElement} */ panel) {
  const a = whole();
  if (!a) return waiting(panel);
  const list = a.checks.map((/** @type {any} */ c, /** @type {number} */ i) => ({ ...c, i }));
  list.sort((/** @type {any} */ x, /** @type {any} */ y) => order.indexOf(x.state) - order.indexOf(y.state) || x.i - y.i);
  panel.replaceChildren(el("h2", {}, "Checks"), el("div", { class: "checks" }, ...list.map((/** @type {any} */ c) => el("details", { open: c.i === opened, class: c.state },
    el("summary", {}, sign(c.state), el("b", {}, c.what), el("span", {}, [c.found, c.needed].filter(Boolean).join(", ") || (c.state === "undecided" ? "not decided" : ""))),
    el("div", { class: "inside" },
      c.case ? el("p", {}, "Under " + c.case + ".") : null, c.why ? el("p", {}, c.why + ".") : null,
      ...(c.cures ?? []).filter((/** @type {string} */ t) => t !== c.why).map((/** @type {string} */ t) => el("p", { class: "cure-text" }, t)),
      c.part ? el("button", { type: "button", class: "link", onclick: () => store.select(c.part, "list") }, "show " + c.part) : null,
      c.rule ? el("p", { class: "faint" }, c.rule) : null)))),
  el("h2", {}, "Cautions and notes"),
  el("ul", { class: "remarks" }, ...a.remarks.map((/** @type {any} */ r) => el("li", {}, el("b", {}, r.level), " ", (r.parts.length ? r.parts.join(", ") + ": " : "") + r.text))));
}

function shop(/** @type {HTMLElement} */ panel) {
  const s = whole()?.shop;
  if (!s) return waiting(panel);
  panel.replaceChildren(el("h2", {}, "Shop"),
    el("dl", {}, ...s.rows.flatMap((/** @type {any} */ r) => [el("dt", {}, r.name), el("dd", {}, r.text)])),
    el("div", { class: "bills" },
      s.work.length ? table("Hours", ["Work", ">How much", ">Rate", ">Hours"], s.work.map((/** @type {any} */ l) => [l.what, l.amount, l.rate, l.comes])) : "",
      s.money.length ? table("Money", ["What", ">How much", ">Comes to"], s.money.map((/** @type {any} */ l) => [l.what, l.amount, l.comes])) : ""),
    s.note ? el("p", { class: "faint" }, s.note) : "");
}

// On a low screen the drawer begins folded, for the sake of the drawing.
const LOW = 820;

tab("Parts", parts);
tab("Blanks", blanks);
tab("Checks", checks);
tab("Shop", shop);
if (innerHeight < LOW && innerWidth > 700) show("");

/** How long answers pause, in ms, before a tab is drawn again: what is dragged is not read there. */
const PAUSE = 90;

/** @type {ReturnType<typeof setTimeout> | undefined} */
let timer;

/** Draws the open tab again soon. */
function again() {
  clearTimeout(timer);
  timer = setTimeout(redraw, PAUSE);
}

/** Draws the open tab again, if it goes with the answer. */
function redraw() {
  const t = tabs.find((x) => x.name === open);
  if (!t?.live || panel.hidden) return;
  if (store.answer && !store.answer.whole && open !== "Parts" && !store.answer.wrong.length) return; // the last one stays until the next is whole
  const top = panel.scrollTop, focused = document.activeElement;
  if (focused && focused !== panel && panel.contains(focused)) return;
  t.draw(panel);
  panel.scrollTop = top;
}

store.on("answer", again);
store.on("part", () => {
  if (open === "Parts") redraw();
});
