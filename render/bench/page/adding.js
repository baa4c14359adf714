// Putting a part in: choose what, then touch where.

import { byID, el, say } from "./dom.js";
import { drawing } from "./drawing.js";
import { ask, Refusal } from "./net.js";
import { notice } from "./files.js";
import { store } from "./store.js";

const box = byID("adds");

/** What may be put in, and where it goes. */
const kinds = [
  ["plate", "on the ground"],
  ["post", "touch what it stands on"],
  ["ball", "touch what it rests on"],
  ["bowl", "touch what it stands on"],
  ["branch", "touch the side of a post"],
  ["bead", "touch the post that goes through this ball"],
  ["ring", "touch what this hoop stands on"],
  ["vent", "touch the ball that it opens"],
  ["hole", "touch where it goes in"],
];

/** @type {HTMLButtonElement[]} */
const buttons = kinds.map(([kind, where]) => el("button", {
  type: "button", "aria-pressed": "false", title: kind + ": " + where, onclick: (/** @type {MouseEvent} */ e) => press(kind, where, e.detail === 0),
}, kind));
box.append(el("span", { class: "lead", "aria-hidden": "true" }, "Add"), ...buttons);

/**
 * Takes a kind in hand; by key it goes where it most likely belongs.
 * @param {string} kind
 * @param {string} where
 * @param {boolean} key
 */
function press(kind, where, key) {
  if (drawing.adding === kind) return arm("");
  if (kind === "plate" || !store.drawn || key) {
    put(kind, store.selected, -1, [0, 0]);
    return;
  }
  arm(kind);
  say("Add " + kind + ": " + where);
}

/** @param {string} kind */
function arm(kind) {
  drawing.adding = kind;
  buttons.forEach((b, i) => b.setAttribute("aria-pressed", String(kinds[i][0] === kind)));
  byID("paper").classList.toggle("adding", !!kind);
  const where = kinds.find((k) => k[0] === kind)?.[1];
  byID("paper").setAttribute("data-adding", where ?? "");
}

/**
 * @param {string} kind
 * @param {string} host
 * @param {number} view
 * @param {[number, number]} at
 */
async function put(kind, host, view, at) {
  arm("");
  try {
    const e = await ask("/api/edit", { ...store.state, add: { kind, host, view, at } });
    store.change(e.text, { kind: "add", from: e.from, to: e.to });
    say("Added " + e.part);
    store.selected = "";
    if (e.part) store.select(e.part, "added");
  } catch (x) {
    if (x instanceof Refusal) notice("Not added: " + x.message);
  }
}

drawing.onAdd = (host, view, at) => put(drawing.adding, host, view, at);
document.addEventListener("keydown", (e) => {
  if (e.key === "Escape" && drawing.adding) arm("");
});
