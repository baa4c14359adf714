// Papers for the bench and for the client: made with their progress shown, looked
// at, and fetched whole.

import { el } from "./dom.js";
import { follow, Refusal } from "./net.js";
import { store } from "./store.js";
import { tab } from "./tabs.js";

const kinds = [
  ["bench", "For the bench", "elevations, every blank, layouts, rolling, welding"],
  ["engineer", "For the engineer", "loads, checks and how each figure came about"],
  ["office", "For the office", "what to buy, hours and money"],
  ["full-size", "Full-size patterns", "to trace around, tiled on your printer's paper"],
  ["offer", "Offer", "one page for the client, with its picture"],
  ["cut-list", "Cut list", "for a spreadsheet"],
];

/** @type {AbortController | null} */
let running = null;

function draw(/** @type {HTMLElement} */ panel) {
  const status = el("div", { class: "progress", role: "status" });
  const preview = el("div", { class: "preview" });
  const price = el("input", { type: "checkbox", id: "with-price" });
  panel.replaceChildren(el("h2", {}, "Papers"), el("div", { class: "papers-all" },
    el("ul", { class: "papers" }, ...kinds.map(([kind, name, says]) => el("li", {},
      el("button", { type: "button", onclick: () => make(kind, name, price.checked, status, preview) }, name), el("span", {}, says),
      kind === "offer" ? el("label", {}, price, " with the price") : null))),
    el("div", {}, status, preview)));
}

/**
 * @param {string} kind
 * @param {string} name
 * @param {boolean} price
 * @param {HTMLElement} status
 * @param {HTMLElement} preview
 */
async function make(kind, name, price, status, preview) {
  running?.abort();
  const mine = running = new AbortController();
  const bar = el("progress", { max: 4, value: 0, "aria-label": name });
  const says = el("span", {}, "beginning");
  status.replaceChildren(bar, says, el("button", { type: "button", onclick: () => mine.abort() }, "Stop"));
  preview.replaceChildren();
  try {
    const made = await follow("/api/papers", { ...store.state, kind, price }, (p) => {
      bar.max = p.of;
      bar.value = p.done;
      says.textContent = p.says ?? "";
    }, mine.signal);
    const link = el("a", { href: `/paper/${made.id}/${encodeURIComponent(made.name)}`, download: made.name, class: "button" }, "Save " + made.name);
    status.replaceChildren(el("span", {}, name + (made.pages ? ": " + made.pages + (made.pages === 1 ? " page" : " pages") : "") + ", " + Math.ceil(made.bytes / 1024) + " kB"), link);
    if (made.pages) leaf(made, preview);
    link.focus();
  } catch (e) {
    if (running === mine) status.replaceChildren(e instanceof Refusal ? e.message : "Stopped; nothing was written.");
  }
}

/**
 * Leafs through the pages.
 * @param {any} made
 * @param {HTMLElement} preview
 */
function leaf(made, preview) {
  let page = 1;
  const image = el("img", { class: "page" });
  const number = el("span", { role: "status" });
  const go = (/** @type {number} */ to) => {
    page = Math.max(1, Math.min(made.pages, to));
    image.src = `/paper/${made.id}/${page}.svg`;
    image.alt = "page " + page + " of " + made.name;
    number.textContent = page + " of " + made.pages;
    before.disabled = page === 1;
    after.disabled = page === made.pages;
  };
  const before = el("button", { type: "button", onclick: () => go(page - 1) }, "Before");
  const after = el("button", { type: "button", onclick: () => go(page + 1) }, "Next");
  preview.replaceChildren(el("div", { class: "group" }, before, number, after), image);
  go(1);
}

tab("Papers", draw, false);
