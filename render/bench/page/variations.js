// Variations: a map of two values, a scatter of random ones, those that the text
// names. A point shows its picture; taking it sets the sliders.

import { byID, el, sign, svg } from "./dom.js";
import { ask, follow, Refusal } from "./net.js";
import { store } from "./store.js";
import { tab, table } from "./tabs.js";

/** @type {any} */
let found = null;
let foundKind = "map";
/** @type {AbortController | null} */
let running = null;
/** @type {any[]} */
let pins = [];
/** @type {any} */
let chosen = null;
let figure = "weight";

/** @type {HTMLElement} */
let progress;
/** @type {HTMLElement} */
let result;
/** @type {HTMLElement} */
let beside;

function draw(/** @type {HTMLElement} */ panel) {
  const names = (store.drawn?.adjust ?? []).map((/** @type {any} */ s) => s.name);
  const choose = (/** @type {string} */ id, /** @type {string} */ label, /** @type {string[]} */ list, /** @type {number} */ at) =>
    el("label", {}, label + " ", el("select", { id }, ...list.map((n, i) => el("option", { value: n, selected: i === at }, n))));
  const start = (/** @type {string} */ kind) => () => run(kind);
  progress = el("div", { class: "progress", role: "status" });
  result = el("div", { class: "spread" });
  beside = el("div", { class: "beside" });
  panel.replaceChildren(el("h2", {}, "Variations"),
    names.length ? el("div", { class: "group asks" },
      choose("map-x", "across", names, 0), names.length > 1 ? choose("map-y", "up", names, 1) : null,
      el("button", { type: "button", onclick: start("map") }, "Spread as a map"),
      el("button", { type: "button", onclick: start("random") }, "Throw 100 at random"),
      store.drawn?.variations.length ? el("button", { type: "button", onclick: start("named") }, "Compare the named ones") : null,
      el("label", {}, el("input", { type: "checkbox", id: "with-money" }), " with money (slower)"),
      choose("by-figure", "show", ["weight", "factor", "money"], ["weight", "factor", "money"].indexOf(figure))) :
      el("p", { class: "faint" }, "Nothing may be varied yet. Where a size may change, write a name for it: ", el("code", {}, "adjust rise = 30 in from 20 in to 40 in")),
    progress, el("div", { class: "study" }, result, beside));
  byID("by-figure")?.addEventListener("change", (e) => {
    figure = /** @type {HTMLSelectElement} */ (e.target).value;
    plot();
  });
  plot();
  pinned();
}

/** @param {string} kind */
async function run(kind) {
  running?.abort();
  running = new AbortController();
  const mine = running;
  const value = (/** @type {string} */ id) => /** @type {HTMLSelectElement | null} */ (document.getElementById(id))?.value;
  const names = [...new Set([value("map-x"), value("map-y")].filter(Boolean))];
  const bar = el("progress", { max: 1, value: 0, "aria-label": "variations tried" });
  const says = el("span", {}, "beginning");
  progress.replaceChildren(bar, says, el("button", { type: "button", onclick: () => mine.abort() }, "Stop"));
  try {
    found = await follow("/api/vary", {
      ...store.state, kind, names, count: kind === "random" ? 100 : 9, seed: 1, money: /** @type {HTMLInputElement} */ (byID("with-money")).checked,
    }, (p) => {
      bar.max = Math.max(1, p.of);
      bar.value = p.done;
      says.textContent = p.done + " of " + p.of;
    }, mine.signal);
    foundKind = kind;
    chosen = null;
    progress.replaceChildren(found.results.length + " tried");
    plot();
  } catch (e) {
    if (running === mine) progress.replaceChildren(e instanceof Refusal ? e.message : "Stopped; nothing was changed.");
  }
}

const WIDE = 460, HIGH = 250, LEFT = 64, BELOW = 34;

/** Draws what was found. */
function plot() {
  if (!found || !result) return;
  const list = found.results;
  if (foundKind === "named" || list.some((/** @type {any} */ r) => !r.shares.length)) {
    result.replaceChildren(table("Named variations", ["Stands", "Variation", ">Weight", ">Factor", ">Height", "Last word"], list.map((/** @type {any} */ r) => [
      sign(r.state), el("button", { type: "button", class: "link", onclick: () => choose(r) }, r.named || r.label), r.weight?.text ?? "", r.factor?.text ?? "", r.height ?? "", r.text])));
    return;
  }
  const map = foundKind === "map" && found.names.length === 2;
  const number = (/** @type {any} */ r) => r[figure]?.number;
  const numbers = list.map(number).filter((/** @type {any} */ x) => x !== undefined);
  const low = Math.min(...numbers), high = Math.max(...numbers);
  const share = (/** @type {any} */ r) => high > low && number(r) !== undefined ? (number(r) - low) / (high - low) : 0.5;
  const x = (/** @type {any} */ r) => LEFT + 18 + (WIDE - LEFT - 36) * r.shares[0];
  const y = (/** @type {any} */ r) => 14 + (HIGH - BELOW - 28) * (1 - (map ? r.shares[1] : share(r)));
  const g = svg("svg", { viewBox: `0 0 ${WIDE} ${HIGH}`, class: "map", role: "group", "aria-label": "Variations" });
  g.append(svg("path", { class: "axes", d: `M${LEFT} 4V${HIGH - BELOW}H${WIDE - 4}` }),
    svg("text", { x: (WIDE + LEFT) / 2, y: HIGH - 6, "text-anchor": "middle" }, found.names[0] ?? ""),
    svg("text", { transform: `translate(14 ${(HIGH - BELOW) / 2}) rotate(-90)`, "text-anchor": "middle" }, map ? found.names[1] : figure));
  const ends = (/** @type {string} */ name) => store.drawn?.adjust.find((/** @type {any} */ s) => s.name === name);
  const ax = ends(found.names[0]);
  if (ax) g.append(svg("text", { class: "small", x: LEFT + 4, y: HIGH - 20 }, ax.low), svg("text", { class: "small", x: WIDE - 4, y: HIGH - 20, "text-anchor": "end" }, ax.high));
  const text = (/** @type {any} */ r) => r[figure]?.text ?? "";
  const at = (/** @type {number} */ n) => list.find((/** @type {any} */ r) => number(r) === n);
  if (!map && numbers.length) g.append(svg("text", { class: "small", x: LEFT - 4, y: 18, "text-anchor": "end" }, text(at(high))), svg("text", { class: "small", x: LEFT - 4, y: HIGH - BELOW - 10, "text-anchor": "end" }, text(at(low))));
  for (const r of list) {
    if (!map && number(r) === undefined) continue;
    const dot = svg("g", {
      class: "dot " + r.state + (r === chosen ? " chosen" : ""), transform: `translate(${x(r)} ${y(r)})`, tabindex: 0, role: "button",
      "aria-label": r.label + ": " + (text(r) ? text(r) + ", " : "") + r.text,
    }, map ? svg("circle", { r: 4 + 8 * share(r) }) : svg("circle", { r: 5 }), r.state === "holds" ? "" : svg("path", { d: "M-3 -3L3 3M3 -3L-3 3" }), svg("title", {}, r.label + "\n" + text(r) + "\n" + r.text));
    dot.addEventListener("click", () => choose(r));
    dot.addEventListener("keydown", (e) => {
      const k = /** @type {KeyboardEvent} */ (e);
      if (k.key === "Enter" || k.key === " ") {
        k.preventDefault();
        choose(r);
      }
    });
    g.append(dot);
  }
  result.replaceChildren(g, el("p", { class: "faint" }, (map ? "The larger the dot, the greater the " + figure + ". " : "") + "A crossed dot fails, or is not decided."));
}

/** @param {any} r */
function choose(r) {
  chosen = r;
  plot();
  pinned();
}

/** Shows the chosen variation and the pinned ones side by side. */
function pinned() {
  if (!beside) return;
  const list = chosen && !pins.includes(chosen) ? [chosen, ...pins] : pins;
  beside.replaceChildren(...list.map((r) => {
    const picture = el("div", { class: "pin-picture" });
    if (r.state !== "mistakes") look(r, picture);
    return el("figure", { class: "pin" }, picture,
      el("figcaption", {}, el("b", {}, r.label), el("span", {}, [r.weight?.text, r.height, r.factor ? "factor " + r.factor.text : "", r.money?.text].filter(Boolean).join(", ")),
        el("span", {}, sign(r.state), " ", r.text),
        el("span", { class: "group" },
          el("button", { type: "button", disabled: r.state === "mistakes" || !r.set.length && !r.variation, onclick: () => take(r) }, "Take it"),
          el("button", { type: "button", onclick: () => {
            pins = pins.includes(r) ? pins.filter((p) => p !== r) : [r, ...pins].slice(0, 4);
            pinned();
          } }, pins.includes(r) ? "Unpin" : "Pin"))));
  }));
}

/**
 * @param {any} r
 * @param {HTMLElement} box
 */
async function look(r, box) {
  try {
    r.id ??= (await ask("/api/work", { ...store.state, variation: r.variation ?? "", set: r.set })).id;
    box.replaceChildren(el("img", { alt: "the piece with " + r.label, src: `/picture/${r.id}.png?w=220&h=220` }));
    const image = /** @type {HTMLImageElement} */ (box.firstChild);
    image.onerror = () => {
      r.id = undefined;
    };
  } catch {
    box.replaceChildren();
  }
}

/** @param {any} r */
async function take(r) {
  if (r.variation) {
    store.variation = r.variation;
    store.tell("text", { kind: "variation" });
    return;
  }
  try {
    store.variation = "";
    const e = await ask("/api/edit", { ...store.state, settings: r.set });
    store.change(e.text, { kind: "slide", from: e.from, to: e.to });
  } catch (x) {
    if (x instanceof Refusal) progress.replaceChildren(x.message);
  }
}

tab("Variations", draw, false);
store.on("file", () => {
  found = null;
  chosen = null;
  pins = [];
});
