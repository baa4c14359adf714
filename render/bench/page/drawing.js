// The three views at one scale, on one sheet: zoomed, shifted, lit, measured.

import { byID, el, svg } from "./dom.js";
import { store } from "./store.js";

const paper = byID("paper");

/** Space between the views, as a share of the larger side. */
const GAP = 0.14;
const MARGIN = 34; // pixels about the drawing

/**
 * A view on the page: what it is made of, and how it follows a drawing that has the
 * same lines in other places.
 * @typedef {{made: string, g: SVGElement, follow: (v: any, a: any) => void}} Shown
 */

class Drawing {
  constructor() {
    /** @type {SVGSVGElement} */
    this.root = /** @type {any} */ (svg("svg", { class: "views", role: "group", "aria-label": "Front, right and plan", tabindex: 0 }));
    this.all = svg("g");
    this.over = svg("g", { class: "hands" });
    this.root.append(this.all, this.over);
    paper.append(this.root);
    this.show = "all"; // or a view's number
    this.sizes = false;
    /** Where each view's origin lies on the sheet, in mm. @type {[number, number][]} */
    this.origin = [[0, 0], [0, 0], [0, 0]];
    this.box = [0, 0, 1, 1]; // of what is shown, in mm of the sheet
    this.zoom = 1; // pixels for each mm
    this.shift = [0, 0]; // pixels
    this.paper = [paper.clientWidth, paper.clientHeight]; // asking for it would lay the page out each time
    this.fitted = true;
    /** @type {any} */
    this.last = null; // that was drawn, and how
    this.key = "";
    /** @type {(Shown | undefined)[]} */
    this.shown = []; // the views as they are there
    /** @type {string | null} */
    this.lit = null; // the part that is lit in them
    /** @type {string} */
    this.adding = ""; // what a touch puts in
    /** @type {(host: string, view: number, at: [number, number]) => void} */
    this.onAdd = () => {};
    /** @type {(() => void)[]} */
    this.moved = [];
    this.pan();
    new ResizeObserver(() => this.resize()).observe(paper);
  }

  /** Draws the last answer that had a drawing. */
  draw() {
    const a = store.drawn;
    const views = a?.drawing?.views;
    if (!views) {
      this.last = null;
      this.shown = [];
      this.all.replaceChildren();
      return;
    }
    this.root.classList.toggle("stale", store.answer !== a);
    if (this.last === a.drawing && this.key === this.show + this.sizes) {
      this.light();
      return; // the same lines are there
    }
    this.last = a.drawing;
    this.key = this.show + this.sizes;
    this.arrange(views);
    const was = this.shown.map((s) => s?.g);
    views.forEach((/** @type {any} */ v, /** @type {number} */ i) => this.follow(v, i, a));
    const now = this.shown.map((s) => /** @type {Shown} */ (s).g);
    if (now.some((g, i) => g !== was[i])) {
      this.all.replaceChildren(...now);
      this.lit = null;
    }
    if (this.fitted) this.fit();
    else this.place();
    this.light();
  }

  /**
   * Lays the views out side by side, or the plan over the front where that is larger.
   * @param {any[]} views
   */
  arrange(views) {
    const [f, r, p] = views.map((v) => v.box);
    const gap = GAP * Math.max(f[2], f[3], r[2]);
    const { width, height } = this.size();
    const row = Math.min(width / (f[2] + r[2] + p[2] + 2 * gap), height / Math.max(f[3], p[3]));
    const stack = Math.min(width / (f[2] + r[2] + gap), height / (f[3] + p[3] + gap));
    this.origin[0] = [-f[0], 0];
    this.origin[1] = [f[2] + gap - r[0], 0];
    this.origin[2] = row >= stack ?
      [f[2] + r[2] + 2 * gap - p[0], f[1] + f[3] - (p[1] + p[3])] :
      [-p[0] - (p[0] - f[0]) * 0, f[1] - gap - (p[1] + p[3])];
    if (row < stack) this.origin[2][0] = this.origin[0][0];
    const boxes = views.map((v, i) => [v.box[0] + this.origin[i][0], v.box[1] + this.origin[i][1], v.box[2], v.box[3]]);
    const shown = this.show === "all" ? boxes : [boxes[Number(this.show)]];
    const left = Math.min(...shown.map((b) => b[0])), top = Math.min(...shown.map((b) => b[1]));
    this.box = [left, top, Math.max(...shown.map((b) => b[0] + b[2])) - left, Math.max(...shown.map((b) => b[1] + b[3])) - top];
  }

  /**
   * Shows a view: by the lines that are there where they are the same, else by new ones.
   * @param {any} v
   * @param {number} i
   * @param {any} a
   */
  follow(v, i, a) {
    const seen = this.show === "all" || this.show === String(i);
    const made = JSON.stringify(!seen ? "" : [this.sizes ? v.dims : "", v.ground, !v.wall, v.name,
      v.bodies.map((/** @type {any} */ b) => a.parts[b.part].name), v.lines.map((/** @type {any} */ l) => [a.parts[l.part]?.name ?? "", l.seam])]);
    const there = this.shown[i];
    const shown = there?.made === made ? there : { made, ...(seen ? this.view(v, a) : { g: svg("g", { class: "view" }), follow: () => {} }) };
    shown.g.setAttribute("transform", `translate(${this.origin[i][0]} ${this.origin[i][1]})`);
    shown.follow(v, a);
    this.shown[i] = shown;
  }

  /**
   * Makes the lines of a view, which follow puts in their places.
   * @param {any} v
   * @param {any} a
   * @returns {{g: SVGElement, follow: (v: any, a: any) => void}}
   */
  view(v, a) {
    const g = svg("g", { class: "view" });
    const ground = v.ground ? svg("path", { class: "ground" }) : null;
    if (ground) g.append(ground);
    const wall = v.wall ? svg("path", { class: "ground" }) : null;
    if (wall) g.append(wall);
    const bodies = v.bodies.map((/** @type {any} */ b) => {
      const title = svg("title"), path = svg("path", { class: "body" }, title);
      g.append(svg("g", { class: "part", "data-part": a.parts[b.part].name }, path));
      return { path, title, d: "", text: "" };
    });
    const edges = v.lines.map((/** @type {any} */ l) => ({
      path: svg("path", { class: l.seam ? "seam" : "edge", "data-of": a.parts[l.part]?.name ?? "" }), d: "",
    }));
    const gravity = svg("g", { class: "gravity" },
      svg("g", { class: "fixed" }, svg("circle", { r: 5 }), svg("path", { d: "M0 0V-5A5 5 0 0 1 5 0ZM0 0V5A5 5 0 0 1 -5 0Z" }), svg("title", {}, "centre of gravity")));
    const name = svg("g", { class: "title" },
      svg("g", { class: "fixed" }, svg("text", { y: this.sizes ? 48 : 22, "text-anchor": "middle" }, v.name)));
    g.append(svg("g", { class: "lines" }, ...edges.map((/** @type {any} */ e) => e.path)), gravity, name);
    if (this.sizes) g.append(this.dimensions(v));
    const put = (/** @type {any} */ e, /** @type {string} */ d) => {
      if (e.d !== d) e.path.setAttribute("d", e.d = d);
    };
    return { g, follow: (v, a) => {
      const reach = 0.04 * Math.max(v.box[2], v.box[3]);
      if (v.wall) wall?.setAttribute("d", `M${v.wall[0]} ${v.wall[1]}L${v.wall[2]} ${v.wall[3]}`);
      ground?.setAttribute("d", `M${v.box[0] - reach} 0H${v.box[0] + v.box[2] + reach}`);
      bodies.forEach((/** @type {any} */ e, /** @type {number} */ k) => {
        const b = v.bodies[k], text = a.parts[b.part].name + ", " + a.parts[b.part].size;
        put(e, b.path);
        if (e.text !== text) e.title.textContent = e.text = text;
      });
      edges.forEach((/** @type {any} */ e, /** @type {number} */ k) => put(e, v.lines[k].path));
      gravity.setAttribute("transform", `translate(${v.gravity[0]} ${v.gravity[1]})`);
      name.setAttribute("transform", `translate(${v.box[0] + v.box[2] / 2} ${v.box[1] + v.box[3]})`);
    } };
  }

  /** @param {any} v */
  dimensions(v) {
    const g = svg("g", { class: "dims" });
    let up = 0;
    for (const d of v.dims) {
      const [x0, y0] = d.from, [x1, y1] = d.to;
      const at = svg("g", { class: "dim", "data-level": String(d.level), "data-line": String(d.level ? 0 : up++), "data-points": [x0, y0, x1, y1].join(" ") });
      at.append(svg("path", {}), svg("text", { "text-anchor": "middle" }, d.text));
      g.append(at);
    }
    return g;
  }

  /** Puts dimension lines a fixed way off, at any zoom. */
  measure() {
    for (const d of this.all.querySelectorAll(".dim")) {
      const [x0, y0, x1, y1] = (d.getAttribute("data-points") ?? "").split(" ").map(Number);
      const px = 1 / this.zoom, line = Number(d.getAttribute("data-line"));
      const path = /** @type {Element} */ (d.querySelector("path")), text = /** @type {Element} */ (d.querySelector("text"));
      if (d.getAttribute("data-level") === "true") {
        const y = Math.max(y0, y1) + 20 * px;
        path.setAttribute("d", `M${x0} ${y0 + 4 * px}V${y + 4 * px}M${x1} ${y1 + 4 * px}V${y + 4 * px}M${x0} ${y}H${x1}`);
        text.setAttribute("transform", `translate(${(x0 + x1) / 2} ${y + 13 * px}) scale(${px})`);
      } else {
        const x = Math.min(x0, x1) - (18 + 20 * line) * px;
        path.setAttribute("d", `M${x0 - 4 * px} ${y0}H${x - 4 * px}M${x1 - 4 * px} ${y1}H${x - 4 * px}M${x} ${y0}V${y1}`);
        text.setAttribute("transform", `translate(${x - 4 * px} ${(y0 + y1) / 2}) rotate(-90) scale(${px})`);
      }
    }
  }

  /** Lights the part that is chosen. */
  light() {
    if (this.lit === store.selected) return;
    this.lit = store.selected;
    for (const e of this.all.querySelectorAll("[data-part],[data-of]")) {
      const name = e.getAttribute("data-part") ?? e.getAttribute("data-of");
      e.classList.toggle("lit", !!store.selected && name === store.selected);
    }
  }

  size() {
    return { width: Math.max(40, this.paper[0] - 2 * MARGIN), height: Math.max(40, this.paper[1] - 2 * MARGIN) };
  }

  resize() {
    this.paper = [paper.clientWidth, paper.clientHeight];
    this.last = null; // it may be arranged in another way
    if (this.fitted) this.draw();
  }

  fit() {
    const { width, height } = this.size();
    const more = this.sizes ? 70 : 12;
    this.zoom = Math.min((width - more) / this.box[2], (height - more) / this.box[3]);
    const w = this.box[2] * this.zoom, h = this.box[3] * this.zoom;
    this.shift = [
      MARGIN + (this.sizes ? 44 : 0) + (width - w - (this.sizes ? 44 : 0)) / 2 - this.box[0] * this.zoom,
      MARGIN + (height - h - more / 2) / 2 - this.box[1] * this.zoom,
    ];
    this.fitted = true;
    this.place();
  }

  place() {
    this.all.setAttribute("transform", `translate(${this.shift[0]} ${this.shift[1]}) scale(${this.zoom})`);
    for (const e of this.all.querySelectorAll(".fixed")) e.setAttribute("transform", `scale(${1 / this.zoom})`);
    if (this.sizes) this.measure();
    for (const f of this.moved) f();
  }

  /**
   * Zooms about a point of the paper.
   * @param {number} by
   * @param {number} [x]
   * @param {number} [y]
   */
  near(by, x = paper.clientWidth / 2, y = paper.clientHeight / 2) {
    const zoom = Math.max(0.005, Math.min(40, this.zoom * by));
    const k = zoom / this.zoom;
    this.shift = [x - (x - this.shift[0]) * k, y - (y - this.shift[1]) * k];
    this.zoom = zoom;
    this.fitted = false;
    this.place();
  }

  /**
   * Where a point of a view lies on the paper, in pixels.
   * @param {number} view
   * @param {[number, number]} at
   * @returns {[number, number]}
   */
  onPaper(view, at) {
    return [
      (at[0] + this.origin[view][0]) * this.zoom + this.shift[0],
      (at[1] + this.origin[view][1]) * this.zoom + this.shift[1],
    ];
  }

  /**
   * Which view a point of the paper lies in, and where there, in mm right and up.
   * @param {number} x
   * @param {number} y
   * @returns {{view: number, at: [number, number]}}
   */
  inView(x, y) {
    const views = store.drawn?.drawing?.views ?? [];
    let best = -1, far = Infinity;
    /** @type {[number, number]} */
    let found = [0, 0];
    views.forEach((/** @type {any} */ v, /** @type {number} */ i) => {
      if (this.show !== "all" && this.show !== String(i)) return;
      const mx = (x - this.shift[0]) / this.zoom - this.origin[i][0], my = (y - this.shift[1]) / this.zoom - this.origin[i][1];
      const dx = Math.max(v.box[0] - mx, 0, mx - v.box[0] - v.box[2]), dy = Math.max(v.box[1] - my, 0, my - v.box[1] - v.box[3]);
      const d = Math.hypot(dx, dy);
      if (d < far) {
        far = d;
        best = i;
        found = [mx, -my];
      }
    });
    return { view: best, at: found };
  }

  /** Shifts and zooms by pointer, wheel, touch and key. */
  pan() {
    /** @type {Map<number, [number, number]>} */
    const down = new Map();
    let moved = false;
    const at = (/** @type {PointerEvent | WheelEvent} */ e) => {
      const r = paper.getBoundingClientRect();
      return /** @type {[number, number]} */ ([e.clientX - r.left, e.clientY - r.top]);
    };
    this.root.addEventListener("pointerdown", (e) => {
      if (/** @type {Element} */ (e.target).closest(".hands")) return;
      down.set(e.pointerId, at(e));
      moved = false;
      this.root.setPointerCapture(e.pointerId);
    });
    this.root.addEventListener("pointermove", (e) => {
      const was = down.get(e.pointerId);
      if (!was) return;
      const now = at(e);
      if (Math.hypot(now[0] - was[0], now[1] - was[1]) < 3 && !moved) return;
      moved = true;
      const other = [...down.entries()].find(([id]) => id !== e.pointerId);
      if (other) {
        const [ox, oy] = other[1];
        this.near(Math.hypot(now[0] - ox, now[1] - oy) / Math.max(1, Math.hypot(was[0] - ox, was[1] - oy)), ox, oy);
      } else {
        this.shift = [this.shift[0] + now[0] - was[0], this.shift[1] + now[1] - was[1]];
        this.fitted = false;
        this.place();
      }
      down.set(e.pointerId, now);
    });
    const up = (/** @type {PointerEvent} */ e) => {
      if (!down.delete(e.pointerId) || moved || e.type === "pointercancel") return;
      const under = document.elementsFromPoint(e.clientX, e.clientY).map((t) => t.closest("[data-part]")).find((t) => t);
      const name = under?.getAttribute("data-part") ?? "";
      if (this.adding) {
        const [x, y] = at(e), { view, at: place } = this.inView(x, y);
        this.onAdd(name, view, place);
        return;
      }
      store.select(name, "drawing");
    };
    this.root.addEventListener("pointerup", up);
    this.root.addEventListener("pointercancel", up);
    this.root.addEventListener("wheel", (e) => {
      e.preventDefault();
      const [x, y] = at(e);
      this.near(Math.exp(-e.deltaY * (e.deltaMode ? 0.05 : 0.0015)), x, y);
    }, { passive: false });
    this.root.addEventListener("keydown", (e) => {
      if (e.target !== this.root || e.ctrlKey || e.metaKey || e.altKey) return;
      const step = 40;
      const move = { ArrowLeft: [step, 0], ArrowRight: [-step, 0], ArrowUp: [0, step], ArrowDown: [0, -step] }[e.key];
      if (move) {
        this.shift = [this.shift[0] + move[0], this.shift[1] + move[1]];
        this.fitted = false;
        this.place();
      } else if (e.key === "+" || e.key === "=") this.near(1.25);
      else if (e.key === "-") this.near(0.8);
      else if (e.key === "0") this.fit();
      else return;
      e.preventDefault();
    });
  }
}

export const drawing = new Drawing();

store.on("answer", () => drawing.draw());
store.on("part", () => drawing.light());

/** @type {HTMLSelectElement} */
const pick = byID("part");
pick.addEventListener("change", () => store.select(pick.value, "list"));
store.on("answer", () => {
  const names = (store.drawn?.parts ?? []).map((/** @type {any} */ p) => p.name);
  if (names.join() !== [...pick.options].slice(1).map((o) => o.value).join())
    pick.replaceChildren(el("option", { value: "" }, "none"), ...names.map((/** @type {string} */ n) => el("option", { value: n }, n)));
  pick.value = store.selected;
});
store.on("part", () => {
  pick.value = store.selected;
});
