// Handles of the chosen part: dragged by pointer or touch, moved by key. The
// program finds the number of the text that each changes.

import { byID, el, say, svg } from "./dom.js";
import { drawing } from "./drawing.js";
import { ask, Refusal } from "./net.js";
import { drawSizes, hideSizes } from "./sizes.js";
import { store } from "./store.js";
import { hold, work } from "./work.js";

const card = byID("card");
const paper = byID("paper");

/** Handles nearer than this, in pixels, are one. */
const CLOSE = 13;

/** @type {any} */
let shown = null; // the card of the chosen part
let turn = 0;
let dragging = false;

/** Asks for the handles and the numbers of the chosen part. */
async function reach() {
  const mine = ++turn;
  if (!store.selected || !store.file) {
    shown = null;
    place();
    card.hidden = true;
    return;
  }
  let found;
  try {
    found = await ask("/api/part", { ...store.state, part: store.selected });
  } catch {
    found = null;
  }
  if (mine !== turn) return;
  shown = found;
  place();
  fill();
}

/** Puts the handles where they belong. */
function place() {
  const focused = document.activeElement?.getAttribute("data-hand");
  if (dragging) return move();
  for (const h of drawing.over.querySelectorAll(".hand")) h.remove();
  if (!shown || byID("paper").classList.contains("pictured")) return hideSizes();
  /** @type {[number, number, number][]} */
  const taken = [];
  const order = (/** @type {any} */ h) => ["foot", "centre", "size", "width", "depth"].indexOf(h.name);
  for (const h of [...shown.hands].sort((a, b) => order(b) - order(a))) h.at.forEach((/** @type {[number, number] | null} */ at, /** @type {number} */ view) => {
    if (!at || drawing.show !== "all" && drawing.show !== String(view)) return;
    const [x, y] = drawing.onPaper(view, at);
    // Where two lie on each other, as in the plan of an upright post, one is enough: the other has its place in another view.
    if (taken.some((t) => t[0] === view && Math.hypot(t[1] - x, t[2] - y) < CLOSE)) return;
    taken.push([view, x, y]);
    const g = svg("g", {
      class: "hand" + (h.grey ? " grey" : "") + " h-" + h.name.split(" ")[0], transform: `translate(${x} ${y})`, tabindex: 0, role: "button",
      "aria-label": h.says + ", " + ["front", "right", "plan"][view] + (h.grey ? ". Fixed: " + h.grey : ". Arrow keys move it"),
      "data-hand": h.name + "@" + view, "aria-disabled": String(!!h.grey),
    }, svg("circle", { class: "grip", r: 16 }), svg("path", { class: "knob", d: knob(h.name) }), svg("title", {}, h.says + (h.grey ? " – fixed: " + h.grey : "")));
    g.addEventListener("pointerdown", (e) => begin(/** @type {PointerEvent} */ (e), h, view));
    g.addEventListener("keydown", (e) => step(/** @type {KeyboardEvent} */ (e), h, view));
    drawing.over.append(g);
    if (focused === h.name + "@" + view) /** @type {any} */ (g).focus({ preventScroll: true });
  });
  drawSizes(shown, type);
}

/** Moves the handles along with the part while it is dragged. */
function move() {
  for (const e of drawing.over.querySelectorAll(".hand")) {
    const [name, view] = (e.getAttribute("data-hand") ?? "").split("@");
    const at = shown?.hands.find((/** @type {any} */ h) => h.name === name)?.at[Number(view)];
    if (at) {
      const [x, y] = drawing.onPaper(Number(view), at);
      e.setAttribute("transform", `translate(${x} ${y})`);
    }
  }
  hideSizes();
}

/**
 * The shape of a handle: a square turns, a ring moves, a wedge widens.
 * @param {string} name
 */
function knob(name) {
  switch (name) {
    case "head": return "M-6 -6H6V6H-6Z";
    case "foot": return "M0 -7L7 6H-7Z";
    case "centre": return "M-6 0A6 6 0 1 0 6 0A6 6 0 1 0 -6 0Z";
  }
  return "M-2 -7H3L8 0L3 7H-2L3 0Z";
}

/** @type {HTMLElement | null} */
let tip = null;

/**
 * Says something at a point of the paper.
 * @param {string} text
 * @param {number} x
 * @param {number} y
 * @param {boolean} wrong
 */
function point(text, x, y, wrong) {
  tip?.remove();
  tip = text ? el("p", { class: "tip" + (wrong ? " bad" : ""), role: "status" }, text) : null;
  if (!tip) return;
  tip.style.left = Math.min(x + 14, paper.clientWidth - 190) + "px";
  tip.style.top = Math.max(4, y - 34) + "px";
  paper.append(tip);
}

/**
 * Drags a handle.
 * @param {PointerEvent} e
 * @param {any} h
 * @param {number} view
 */
function begin(e, h, view) {
  e.stopPropagation();
  const rect = paper.getBoundingClientRect();
  if (h.grey) {
    point("Fixed: " + h.grey, e.clientX - rect.left, e.clientY - rect.top, true);
    setTimeout(() => point("", 0, 0, false), 2500);
    return;
  }
  const grip = /** @type {Element} */ (e.currentTarget);
  grip.setPointerCapture(e.pointerId);
  const base = { ...store.state }, from = [e.clientX, e.clientY];
  const origin = drawing.fitted;
  drawing.fitted = false;
  dragging = true;
  hold(true);
  let by = [0, 0], fine = e.shiftKey, asking = false, waiting = false, ended = false, moved = false;
  /** @type {any} */
  let last = null;
  const send = async () => {
    if (asking) {
      waiting = true;
      return;
    }
    asking = true;
    waiting = false;
    const now = by;
    try {
      const a = await ask("/api/work", { ...base, drag: { part: store.selected || shown.part, hand: h.name, view, by: now, fine } });
      last = a;
      store.change(a.changed.text, { kind: "show" });
      store.show(a);
      follow(a, now);
    } catch (x) {
      if (x instanceof Refusal) point(x.message, from[0] + by[0] * drawing.zoom - rect.left, from[1] - by[1] * drawing.zoom - rect.top, true);
    }
    asking = false;
    if (waiting) send();
    else if (ended) finish();
  };
  const follow = (/** @type {any} */ a, /** @type {number[]} */ now) => {
    const x = from[0] - rect.left + now[0] * drawing.zoom, y = from[1] - rect.top - now[1] * drawing.zoom;
    const w = a.wrong[0];
    const line = a.changed.text.slice(0, a.changed.to).split("\n").pop() ?? "";
    const number = a.changed.text.slice(a.changed.from, a.changed.to);
    point(w ? w.text : number.length && number.length < 60 ? number.replace(/\s+/g, " ") : line.trim(), x, y, !!w);
    const to = drawing.onPaper(view, [h.at[view][0] + now[0], h.at[view][1] - now[1]]);
    grip.setAttribute("transform", `translate(${to[0]} ${to[1]})`);
  };
  const finish = () => {
    dragging = false;
    point("", 0, 0, false);
    if (origin) drawing.fitted = true;
    if (last) {
      store.change(last.changed.text, { kind: "drag", from: last.changed.from, to: last.changed.to });
      say(store.text.slice(last.changed.from, last.changed.to));
    }
    hold(false);
    if (!last) work();
    reach();
  };
  const go = (/** @type {PointerEvent} */ m) => {
    by = [(m.clientX - from[0]) / drawing.zoom, -(m.clientY - from[1]) / drawing.zoom];
    fine = m.shiftKey;
    if (!moved && Math.hypot(m.clientX - from[0], m.clientY - from[1]) < 3) return;
    moved = true;
    send();
  };
  const end = (/** @type {Event} */ m) => {
    grip.removeEventListener("pointermove", /** @type {any} */ (go));
    grip.removeEventListener("pointerup", end);
    grip.removeEventListener("pointercancel", end);
    document.removeEventListener("keydown", cancel, true);
    if (m.type === "pointercancel") drop();
    ended = true;
    if (!asking) finish();
  };
  const drop = () => {
    last = null;
    store.change(base.text, { kind: "show" });
  };
  const cancel = (/** @type {KeyboardEvent} */ k) => {
    if (k.key !== "Escape") return;
    k.preventDefault();
    waiting = false;
    drop();
    end(new Event("cancelled"));
  };
  grip.addEventListener("pointermove", /** @type {any} */ (go));
  grip.addEventListener("pointerup", end);
  grip.addEventListener("pointercancel", end);
  document.addEventListener("keydown", cancel, true);
}

let stepping = false;
/** @type {{by: number[], fine: boolean} | null} */
let steps = null; // that wait

/**
 * Moves a handle by a step of the shop.
 * @param {KeyboardEvent} e
 * @param {any} h
 * @param {number} view
 */
async function step(e, h, view) {
  const ways = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
  const way = /** @type {Record<string, number[]>} */ (ways)[e.key];
  if (!way) return;
  e.preventDefault();
  e.stopPropagation();
  if (h.grey) return say("Fixed: " + h.grey);
  const far = e.altKey ? 8 : 1;
  const by = steps ? steps.by : [0, 0];
  steps = { by: [by[0] + way[0] * far, by[1] + way[1] * far], fine: e.shiftKey };
  if (stepping) return;
  stepping = true;
  while (steps) {
    /** @type {{by: number[], fine: boolean}} */
    const now = steps;
    steps = null;
    try {
      const a = await ask("/api/work", { ...store.state, drag: { part: shown.part, hand: h.name, view, by: now.by, fine: now.fine, keys: true } });
      store.change(a.changed.text, { kind: "drag", from: a.changed.from, to: a.changed.to });
      store.show(a);
      say(a.changed.text.slice(a.changed.from, a.changed.to));
      await reach();
    } catch (x) {
      if (x instanceof Refusal) say(x.message);
    }
  }
  stepping = false;
}

/** Fills the card: the numbers of the part, to be typed over. */
function fill() {
  card.hidden = !shown;
  if (!shown) return;
  const part = store.drawn?.parts.find((/** @type {any} */ p) => p.name === shown.part);
  const focused = document.activeElement?.id;
  const rows = shown.numbers.map((/** @type {any} */ n, /** @type {number} */ i) => {
    const id = "number-" + i;
    const input = el("input", {
      id, value: n.text, readOnly: store.sealed, "aria-describedby": "number-note",
      onchange: () => type(n, input),
      onkeydown: (/** @type {KeyboardEvent} */ e) => {
        if (e.key === "Escape") input.value = n.text;
      },
    });
    return el("div", { class: "number" }, el("label", { for: id }, n.label), input);
  });
  const falls = shown.above.length ? el("p", { class: "falls" }, "With it goes: " + shown.above.join(", ")) : null;
  card.replaceChildren(
    el("h2", {}, shown.part, el("small", {}, " " + shown.kind + (part?.weight ? ", " + part.weight : ""))),
    el("div", { class: "numbers" }, ...rows),
    el("p", { id: "number-note", class: "note", role: "status" }),
    el("div", { class: "group" },
      el("button", { type: "button", class: "danger", disabled: store.sealed, onclick: remove }, "Remove " + shown.part), falls));
  if (focused?.startsWith("number-")) byID(focused)?.focus();
}

/**
 * Types over a number. It returns what is wrong with it, or nothing.
 * @param {any} n
 * @param {HTMLInputElement} input
 */
async function type(n, input) {
  if (input.value.trim() === n.text) return "";
  const note = byID("number-note");
  try {
    const e = await ask("/api/edit", { ...store.state, number: { part: shown.part, property: n.property, argument: n.argument, coordinate: n.coordinate, value: input.value } });
    store.change(e.text, { kind: "number", from: e.from, to: e.to });
    note.textContent = "";
    await reach();
  } catch (x) {
    if (!(x instanceof Refusal)) return "";
    note.textContent = x.message;
    input.setAttribute("aria-invalid", "true");
    return x.message;
  }
  return "";
}

async function remove() {
  try {
    const e = await ask("/api/edit", { ...store.state, remove: shown.part });
    store.select("");
    store.change(e.text, { kind: "remove", from: e.from, to: e.to });
    say("Removed " + (e.fallen ?? []).join(", ") + ". Undo brings it back.");
  } catch (x) {
    if (x instanceof Refusal) byID("number-note").textContent = x.message;
  }
}

drawing.moved.push(place);
store.on("part", reach);
store.on("answer", () => {
  if (!dragging && store.selected && store.answer.drawing) reach();
  if (!store.selected) reach();
});

export { place as placeHands };
