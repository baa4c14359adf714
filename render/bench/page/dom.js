// Elements are made one by one, and what is written into them is text: nothing of
// a design can become markup.

const SVG = "http://www.w3.org/2000/svg";

/**
 * Returns the element of the page with an id.
 * @template {Element} [T=HTMLElement]
 * @param {string} id
 * @returns {T}
 */
export function byID(id) {
  return /** @type {T} */ (/** @type {unknown} */ (document.getElementById(id)));
}

/**
 * Makes an element. Properties that start with "on" are listeners, "class" and
 * names with a hyphen are attributes, others are properties.
 * @param {string} tag
 * @param {Record<string, any>} [props]
 * @param {...(Node | string | null | undefined)} children
 * @returns {any}
 */
export function el(tag, props = {}, ...children) {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(props)) {
    if (value === undefined || value === null) continue;
    if (name.startsWith("on")) e.addEventListener(name.slice(2), value);
    else if (name === "class") e.className = value;
    else if (name.includes("-") || name === "role" || name === "for") e.setAttribute(name, value);
    else /** @type {any} */ (e)[name] = value;
  }
  for (const c of children) if (c !== null && c !== undefined) e.append(c);
  return e;
}

/**
 * Makes an element of a drawing.
 * @param {string} tag
 * @param {Record<string, string | number>} [attributes]
 * @param {...(Node | string)} children
 * @returns {SVGElement}
 */
export function svg(tag, attributes = {}, ...children) {
  const e = /** @type {SVGElement} */ (document.createElementNS(SVG, tag));
  for (const [name, value] of Object.entries(attributes)) e.setAttribute(name, String(value));
  e.append(...children);
  return e;
}

/**
 * Says something to readers of the screen.
 * @param {string} text
 */
export function say(text) {
  byID("spoken").textContent = text;
}

/** @type {Record<string, string>} */
export const signs = { holds: "✓", fails: "✕", undecided: "?", mistakes: "!", pending: "…", empty: "·" };

/** @type {Record<string, string>} */
export const states = { holds: "holds", fails: "fails", undecided: "not decided", mistakes: "mistakes", pending: "checking", empty: "empty" };

/**
 * The sign of a verdict, with its word for those who do not see it.
 * @param {string} state
 * @returns {HTMLElement}
 */
export function sign(state) {
  return el("span", { class: "sign " + state }, el("span", { "aria-hidden": "true" }, signs[state] ?? ""), el("span", { class: "unseen" }, states[state] ?? state));
}

/**
 * Opens a sheet over the page, and gives it back.
 * @param {string} title
 * @param {...(Node | string)} children
 * @returns {HTMLDialogElement}
 */
export function dialog(title, ...children) {
  const close = el("button", { type: "button", class: "close", "aria-label": "Close", onclick: () => d.close() }, "×");
  /** @type {HTMLDialogElement} */
  const d = el("dialog", { class: "over sheet", "aria-label": title, onclose: () => d.remove() },
    el("div", { class: "over-head" }, el("h2", {}, title), close), ...children);
  document.body.append(d);
  d.showModal();
  return d;
}
