// What the page knows: the design, its text, and what it came to. Whoever shows a
// part of it is told when that changes.

import { History } from "./history.js";

/**
 * @typedef {"text" | "answer" | "part" | "file" | "saved"} Event
 */

class Store {
  constructor() {
    this.file = "";
    this.text = "";
    this.savedText = "";
    this.mark = ""; // of the file as it was read
    this.variation = "";
    this.selected = ""; // the part that is lit
    this.sealed = false;
    /** @type {any} */
    this.answer = null;
    /** @type {any} */
    this.drawn = null; // the last answer that had a drawing
    this.history = new History("");
    /** @type {Map<string, ((detail?: any) => void)[]>} */
    this.listeners = new Map();
  }

  /**
   * @param {Event} event
   * @param {(detail?: any) => void} f
   */
  on(event, f) {
    this.listeners.set(event, [...(this.listeners.get(event) ?? []), f]);
  }

  /**
   * @param {Event} event
   * @param {any} [detail]
   */
  tell(event, detail) {
    for (const f of this.listeners.get(event) ?? []) f(detail);
  }

  /** What is asked with every question about the design. */
  get state() {
    return { file: this.file, text: this.text, variation: this.variation };
  }

  get changed() {
    return this.text !== this.savedText;
  }

  /**
   * Gives the design another text.
   * @param {string} text
   * @param {{kind: string, from?: number, to?: number}} how "type", "drag", …; "show" leaves undo alone
   */
  change(text, how) {
    this.text = text;
    if (how.kind !== "show") this.history.record(text, how.kind, performance.now());
    this.tell("text", how);
  }

  /** @param {boolean} back */
  step(back) {
    const caret = back ? this.history.undo() : this.history.redo();
    if (caret < 0) return;
    this.text = this.history.text;
    this.tell("text", { kind: "undo", from: caret, to: caret });
  }

  /** @param {any} answer */
  show(answer) {
    if (answer.same) answer.drawing = this.drawn?.drawing;
    this.answer = answer;
    if (answer.drawing) this.drawn = answer;
    if (this.selected && answer.drawing && !answer.parts.some((/** @type {any} */ p) => p.name === this.selected)) this.selected = "";
    this.tell("answer");
  }

  /**
   * Lights a part in the text and in all views.
   * @param {string} name
   * @param {string} [by] where it was touched
   */
  select(name, by = "") {
    if (name === this.selected) return;
    this.selected = name;
    this.tell("part", by);
  }
}

export const store = new Store();
