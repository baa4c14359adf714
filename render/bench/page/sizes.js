// The sizes of the chosen part, on the drawing: each is typed over where it stands.

import { el, svg } from "./dom.js";
import { drawing } from "./drawing.js";
import { store } from "./store.js";

const OFF = 22; // pixels from the part to a line that is set off from it
const BEYOND = 6; // pixels, from a line to its text

/** What a size does that is opened. @type {WeakMap<Element, () => void>} */
const opens = new WeakMap();

/**
 * @typedef {{number: number, view: number, from: [number, number], to: [number, number], away: [number, number], text: string}} Size
 */

/** Takes the sizes away, as while the part is dragged. */
export function hideSizes() {
  for (const old of drawing.over.querySelectorAll(".size")) old.remove();
}

/**
 * Draws the sizes of a card.
 * @param {any} card
 * @param {(n: any, input: HTMLInputElement) => Promise<string>} type says what is wrong, or nothing
 */
export function drawSizes(card, type) {
  const old = [...drawing.over.querySelectorAll(".size")];
  const left = new Set(old);
  for (const s of /** @type {Size[]} */ (card.sizes)) {
    if (!drawing.sizes || drawing.show !== "all" && drawing.show !== String(s.view)) continue;
    const shift = (/** @type {[number, number]} */ at, /** @type {number} */ by) => {
      const [x, y] = drawing.onPaper(s.view, at);
      return [x + s.away[0] * by, y + s.away[1] * by];
    };
    const [x0, y0] = shift(s.from, OFF), [x1, y1] = shift(s.to, OFF);
    const set = s.away[0] !== 0 || s.away[1] !== 0;
    const [a0, b0] = shift(s.from, 4), [a1, b1] = shift(s.to, 4);
    const ends = set ? `M${a0} ${b0}L${x0} ${y0}M${a1} ${b1}L${x1} ${y1}` : "";
    const [tx, ty, anchor] = !set ? [Math.max(x0, x1) + BEYOND, (x1 > x0 ? y1 : y0) + 4, "start"] :
      Math.abs(s.away[0]) > Math.abs(s.away[1]) ? [(x0 + x1) / 2 + Math.sign(s.away[0]) * BEYOND, (y0 + y1) / 2 + 4, s.away[0] > 0 ? "start" : "end"] :
      [(x0 + x1) / 2, (y0 + y1) / 2 + 15, "middle"];
    const n = card.numbers[s.number];
    const label = n.label + " of " + card.part + ", " + s.text + ". Enter types over it";
    // One that is there is moved, so that a click that has begun on it ends on it.
    const there = old.find((g) => g.getAttribute("data-size") === n.property + n.argument && g.getAttribute("data-of") === card.part);
    const g = there ?? svg("g", { class: "size", tabindex: store.sealed ? -1 : 0, role: "button", "data-size": n.property + n.argument, "data-of": card.part }, svg("path"), svg("text"));
    left.delete(g);
    const [line, text] = g.children;
    g.setAttribute("aria-label", label);
    line.setAttribute("d", ends + `M${x0} ${y0}L${x1} ${y1}`);
    text.setAttribute("x", String(tx));
    text.setAttribute("y", String(ty));
    text.setAttribute("text-anchor", String(anchor));
    text.textContent = s.text;
    opens.set(g, () => over(n, Number(tx), Number(ty), String(anchor), type));
    if (there) continue;
    const open = () => {
      if (!store.sealed) opens.get(g)?.();
    };
    g.addEventListener("pointerdown", (e) => e.stopPropagation());
    g.addEventListener("click", open);
    g.addEventListener("keydown", (/** @type {any} */ e) => {
      if (e.key !== "Enter" && e.key !== " ") return;
      e.preventDefault();
      open();
    });
    drawing.over.append(g);
  }
  for (const g of left) g.remove();
}

/**
 * Puts a field over a size.
 * @param {any} n
 * @param {number} x
 * @param {number} y
 * @param {string} anchor
 * @param {(n: any, input: HTMLInputElement) => Promise<string>} type says what is wrong, or nothing
 */
function over(n, x, y, anchor, type) {
  const paper = /** @type {HTMLElement} */ (drawing.root.parentElement);
  paper.querySelector(".typed")?.remove();
  /** @type {HTMLInputElement} */
  const input = el("input", { class: "typed", value: n.text, "aria-label": n.label });
  const wrong = el("p", { class: "tip bad", role: "alert", hidden: true });
  const end = () => {
    input.removeEventListener("blur", end); // which taking it away would bring
    input.remove();
    wrong.remove();
  };
  input.addEventListener("keydown", async (e) => {
    e.stopPropagation();
    if (e.key === "Escape") end();
    if (e.key !== "Enter") return;
    wrong.textContent = await type(n, input);
    wrong.hidden = !wrong.textContent;
    if (wrong.hidden) end();
  });
  input.addEventListener("blur", end);
  input.style.left = Math.max(2, Math.min(x - (anchor === "start" ? 4 : anchor === "end" ? 86 : 45), paper.clientWidth - 96)) + "px";
  input.style.top = Math.max(2, y - 18) + "px";
  wrong.style.left = input.style.left;
  wrong.style.top = parseFloat(input.style.top) + 32 + "px";
  paper.append(input, wrong);
  input.focus();
  input.select();
}
