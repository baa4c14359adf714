// What a client is shown: the picture, sizes and weight, and nothing else.

import { el } from "./dom.js";
import { Picture } from "./picture.js";
import { store } from "./store.js";

export function clientView() {
  const a = store.drawn;
  if (!a?.figures.length) return;
  const box = el("div", { class: "client-picture" });
  const figure = (/** @type {string} */ name) => a.figures.find((/** @type {any} */ f) => f.name === name)?.text ?? "";
  /** @type {HTMLDialogElement} */
  const d = el("dialog", { class: "client", "aria-label": "Client view", onclose: () => {
    if (document.fullscreenElement) document.exitFullscreen();
    d.remove();
  } },
  box, el("div", { class: "client-foot" },
    el("h2", {}, a.title), el("p", {}, figure("height") + " high, " + figure("weight")),
    el("button", { type: "button", class: "close", "aria-label": "Close the client view", onclick: () => d.close() }, "×")));
  document.body.append(d);
  d.showModal();
  d.requestFullscreen?.().catch(() => {}); // where it may not, it fills the window
  const p = new Picture(box);
  requestAnimationFrame(() => p.show(a.id));
  new ResizeObserver(() => p.quick()).observe(box);
}
