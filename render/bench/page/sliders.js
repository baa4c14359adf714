// A slider for every value that the design lets one adjust, and its variations.

import { byID, el } from "./dom.js";
import { ask, Refusal } from "./net.js";
import { store } from "./store.js";
import { work } from "./work.js";

const box = byID("sliders");

/** @type {Map<string, {input: HTMLInputElement, value: HTMLElement}>} */
let rows = new Map();
let layout = "";
let asking = false;
/** @type {{name: string, at: number} | null} */
let next = null;
let shownValues = "";

/** The share of the range that a slider counts as one. */
const FREE = 0.005;

function draw() {
  const a = store.drawn;
  if (!a) return;
  const names = a.variations.join("\n") + "\n\n" + a.adjust.map((/** @type {any} */ s) => [s.name, s.low, s.high, s.step].join()).join("\n");
  if (names !== layout) build(a);
  layout = names;
  for (const s of a.adjust) {
    const row = rows.get(s.name);
    if (!row) continue;
    if (document.activeElement !== row.input || !asking) row.input.value = String(s.at);
    row.value.textContent = s.text;
    row.input.setAttribute("aria-valuetext", s.text);
  }
  for (const b of box.querySelectorAll("[data-variation]")) b.setAttribute("aria-pressed", String(b.getAttribute("data-variation") === store.variation));
  const values = a.adjust.map((/** @type {any} */ s) => s.text).join();
  if (values !== shownValues) shownValues = values;
}

/** @param {any} a */
function build(a) {
  rows = new Map();
  if (!a.adjust.length) {
    box.replaceChildren(el("p", { class: "faint" }, "Write ", el("code", {}, "adjust rise = 30 in from 20 in to 40 in"), " and a slider for it lies here."));
    return;
  }
  box.replaceChildren(...a.adjust.map((/** @type {any} */ s) => {
    const id = "slide-" + s.name;
    const value = el("output", { for: id });
    const input = el("input", {
      id, type: "range", min: "0", max: "1", step: String(s.step > 0 ? s.step : FREE), value: String(s.at), disabled: store.sealed && false,
      oninput: () => slide(s.name, Number(input.value)), onchange: () => settle(),
    });
    rows.set(s.name, { input, value });
    return el("div", { class: "slider" }, el("label", { for: id }, s.name), value,
      el("span", { class: "ends" }, el("span", {}, s.low), input, el("span", {}, s.high)));
  }));
  const back = el("button", { type: "button", onclick: setBack }, "Set back");
  const named = a.variations.map((/** @type {string} */ v) => el("button", {
    type: "button", "data-variation": v, onclick: () => vary(v === store.variation ? "" : v),
  }, v));
  box.append(el("div", { class: "group variations", role: "group", "aria-label": "Variations" },
    named.length ? el("button", { type: "button", "data-variation": "", onclick: () => vary("") }, "as written") : null, ...named, back));
}

/**
 * Slides a value, the newest first.
 * @param {string} name
 * @param {number} at
 */
async function slide(name, at) {
  next = { name, at };
  if (asking) return;
  asking = true;
  while (next) {
    const now = next;
    next = null;
    try {
      const e = await ask("/api/edit", { ...store.state, slide: now });
      if (e.text !== store.text) {
        store.text = e.text;
        store.tell("text", { kind: "show" });
        await work();
      }
    } catch (x) {
      if (x instanceof Refusal) byID("spoken").textContent = x.message;
    }
  }
  asking = false;
  if (settled) settle();
}

let settled = false;

/** Ends a slide: it is one change. */
function settle() {
  settled = asking || !!next;
  if (settled) return;
  store.history.record(store.text, "slide", performance.now());
  store.tell("text", { kind: "slide" });
}

/** @param {string} name */
function vary(name) {
  store.variation = name;
  work();
}

/** Gives all adjustable values those of the saved file. */
async function setBack() {
  store.variation = "";
  try {
    const then = await ask("/api/work", { file: store.file, text: store.savedText });
    const settings = then.adjust.map((/** @type {any} */ s) => s.name + "=" + s.text);
    const e = await ask("/api/edit", { ...store.state, settings });
    store.change(e.text, { kind: "slide", from: e.from, to: e.to });
  } catch (x) {
    if (x instanceof Refusal) byID("spoken").textContent = x.message;
  }
  work();
}

store.on("answer", draw);
store.on("file", () => {
  layout = "";
});
