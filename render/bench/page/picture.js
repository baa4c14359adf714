// The picture: small and quick while it turns, sharp when it rests.

import { byID, el } from "./dom.js";
import { store } from "./store.js";

const DEGREES = 0.5; // for each pixel
const REST = 220; // ms

export class Picture {
  /**
   * @param {HTMLElement} box that it fills
   * @param {boolean} [measured] with what shows its size
   */
  constructor(box, measured = true) {
    this.box = box;
    this.measured = measured;
    this.from = 300;
    this.id = "";
    this.loading = false;
    this.pending = false;
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    this.timer = undefined;
    this.image = el("img", { class: "picture", alt: "The finished piece", draggable: false });
    this.frame = el("div", {
      class: "turn", role: "slider", tabIndex: 0, "aria-label": "Turn the piece", "aria-valuemin": "0", "aria-valuemax": "360", "aria-valuenow": "300",
      onkeydown: (/** @type {KeyboardEvent} */ e) => {
        const by = { ArrowLeft: -10, ArrowRight: 10, PageUp: 45, PageDown: -45 }[e.key];
        if (!by) return;
        e.preventDefault();
        this.turn(by);
      },
    }, this.image, el("p", { class: "faint turn-note" }, "Drag or use the arrow keys to turn it."));
    box.append(this.frame);
    let was = 0, down = false;
    this.frame.addEventListener("pointerdown", (/** @type {PointerEvent} */ e) => {
      down = true;
      was = e.clientX;
      this.frame.setPointerCapture(e.pointerId);
    });
    this.frame.addEventListener("pointermove", (/** @type {PointerEvent} */ e) => {
      if (!down) return;
      this.turn(-(e.clientX - was) * DEGREES);
      was = e.clientX;
    });
    for (const end of ["pointerup", "pointercancel"]) this.frame.addEventListener(end, () => {
      down = false;
    });
  }

  /** @param {string} id of the design as it was worked out */
  show(id) {
    this.id = id;
    this.quick();
  }

  /** @param {number} by degrees */
  turn(by) {
    this.from = (this.from + by + 720) % 360;
    this.frame.setAttribute("aria-valuenow", String(Math.round(this.from)));
    this.quick();
  }

  quick() {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.load(false), REST);
    if (this.loading) this.pending = true;
    else this.load(true);
  }

  /** @param {boolean} fast */
  load(fast) {
    if (!this.id) return;
    const wide = this.box.clientWidth, high = this.box.clientHeight;
    if (wide < 20 || high < 20) return;
    const scale = fast ? Math.min(1, 260 / Math.max(wide, high)) : Math.min(window.devicePixelRatio || 1, 1700 / Math.max(wide, high));
    const next = new Image();
    this.loading = fast;
    next.onload = () => {
      this.image.src = next.src;
      this.done();
    };
    next.onerror = () => this.done();
    next.src = `/picture/${this.id}.png?from=${this.from.toFixed(1)}&w=${Math.round(wide * scale)}&h=${Math.round(high * scale)}` +
      (fast ? "&fast=1" : "") + (this.measured ? "" : "&beside=none");
  }

  done() {
    this.loading = false;
    if (!this.pending) return;
    this.pending = false;
    this.load(true);
  }
}

/** The picture on the board. */
export class BoardPicture {
  constructor() {
    this.paper = byID("paper");
    this.box = el("div", { class: "picture-box", hidden: true });
    this.paper.append(this.box);
    this.picture = new Picture(this.box);
    store.on("answer", () => this.follow());
  }

  /** @param {boolean} on */
  show(on) {
    this.box.hidden = !on;
    this.paper.classList.toggle("pictured", on);
    this.follow();
  }

  follow() {
    const id = store.drawn?.id;
    if (!this.box.hidden && id && id !== this.picture.id) this.picture.show(id);
  }
}
