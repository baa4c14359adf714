// The last word and the figures that are always in sight.

import { byID, el, sign } from "./dom.js";
import { store } from "./store.js";

/** @type {(check: number) => void} */
let onCheck = () => {};

/** @param {(check: number) => void} f */
export function whenChecked(f) {
  onCheck = f;
}

/** The last word, in a word. @type {Record<string, string>} */
const heads = { holds: "Stands", fails: "Fails", undecided: "Not decided", mistakes: "Mistakes", pending: "Checking", empty: "Begin" };

function draw() {
  const a = store.answer;
  if (!a) return;
  const v = byID("verdict");
  v.className = "verdict " + a.verdict.state;
  v.replaceChildren(sign(a.verdict.state), el("b", {}, heads[a.verdict.state] ?? ""),
    el("span", { class: "why" }, rest(a.verdict)));
  const figures = a.figures.length ? a.figures : (store.drawn?.figures ?? []);
  byID("figures").replaceChildren(...figures.map((/** @type {any} */ f) => {
    const inside = [el("span", { class: "what" }, f.name), el("span", { class: "value" }, f.text), f.state ? sign(f.state) : null];
    return el("li", { class: f.state }, f.check >= 0 ?
      el("button", { type: "button", title: "show the check", onclick: () => onCheck(f.check) }, ...inside) :
      el("span", { class: "plain" }, ...inside));
  }));
  byID("figures").classList.toggle("stale", !a.figures.length);
  byID("dangers").replaceChildren(...a.grave.map((/** @type {any} */ g) => el("li", { class: g.level },
    el("b", {}, g.level), el("span", {}, (g.parts.length ? g.parts.join(", ") + ": " : "") + g.text))));
}

/**
 * The last word without the word that stands before it.
 * @param {{state: string, text: string}} v
 */
function rest(v) {
  return v.text.replace(/^(Fails|Not decided): /, "").replace(/^Stands and holds/, "It stands and holds");
}

store.on("answer", draw);
