// Words that may stand at the caret, each with what it says.

import { byID, el, say } from "./dom.js";
import { ask } from "./net.js";
import { store } from "./store.js";

/** @type {HTMLTextAreaElement} */
const field = byID("text");
const list = byID("offer");
const about = byID("about");

/** How long typing pauses, in ms, before words are offered. */
const PAUSE = 140;

class Offer {
  constructor() {
    /** @type {any} */
    this.found = null;
    this.at = -1;
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    this.timer = undefined;
    this.turn = 0;
    this.took = false; // by the key that is down
  }

  get open() {
    return !list.hidden;
  }

  /** @param {boolean} asked by a key, so that it is shown without a letter too */
  async ask(asked) {
    clearTimeout(this.timer);
    const turn = ++this.turn, at = field.selectionStart;
    if (at !== field.selectionEnd) return this.close();
    let found;
    try {
      found = await ask("/api/complete", { ...store.state, at });
    } catch {
      return this.close();
    }
    if (turn !== this.turn || at !== field.selectionStart) return;
    this.tell(found.here);
    const begun = store.text.slice(found.from, at);
    const one = found.words.length === 1 && found.words[0].text === begun;
    if (!found.words.length || one || !asked && begun.length === 0) return this.close();
    this.found = found;
    this.choose(asked ? 0 : -1);
    list.replaceChildren(...found.words.map((/** @type {any} */ w, /** @type {number} */ i) => el("li", {
      id: "offer-" + i, role: "option", "aria-selected": String(i === this.at),
      onpointerdown: (/** @type {Event} */ e) => {
        e.preventDefault();
        this.take(i);
      },
    }, el("b", { class: "w-" + w.sort }, w.text), el("span", {}, w.meaning || w.form || ""))));
    this.place(found.from);
    list.hidden = false;
    if (asked) say(found.words.length + " words");
  }

  /** @param {number} from */
  place(from) {
    const before = store.text.slice(0, from).split("\n");
    const style = getComputedStyle(field);
    list.style.top = parseFloat(style.paddingTop) + before.length * parseFloat(style.lineHeight) + 2 + "px";
    list.style.left = parseFloat(style.paddingLeft) + before[before.length - 1].length * letter() + "px";
  }

  /** @param {any} here the word at the caret */
  tell(here) {
    if (!here) {
      about.replaceChildren();
      return;
    }
    about.replaceChildren(el("b", {}, here.form || here.text), " ", here.meaning ?? "",
      here.default ? " · without it: " + here.default : "", here.example ? " · " + here.example : "");
  }

  /** @param {number} i */
  choose(i) {
    this.at = i;
    [...list.children].forEach((e, k) => e.setAttribute("aria-selected", String(k === i)));
    const chosen = list.children[i];
    chosen?.scrollIntoView({ block: "nearest" });
    if (i >= 0) field.setAttribute("aria-activedescendant", "offer-" + i);
    else field.removeAttribute("aria-activedescendant");
    const w = this.found?.words[i];
    if (w && this.open) say(w.text + ": " + (w.meaning ?? ""));
  }

  /** @param {number} i */
  take(i) {
    const { from, to, words } = this.found;
    const w = words[i].text;
    const text = store.text.slice(0, from) + w + store.text.slice(to);
    store.change(text, { kind: "complete", from: from + w.length, to: from + w.length });
    this.close();
  }

  close() {
    list.hidden = true;
    this.found = null;
    this.at = -1;
    field.removeAttribute("aria-activedescendant");
  }

  /**
   * Takes a key of the field, if it is for the words.
   * @param {KeyboardEvent} e
   * @returns {boolean}
   */
  key(e) {
    this.took = false;
    if (e.key === " " && (e.ctrlKey || e.metaKey)) {
      e.preventDefault();
      this.ask(true);
      return true;
    }
    if (!this.open) return false;
    const n = list.children.length;
    switch (e.key) {
      case "ArrowDown": this.choose((this.at + 1) % n); break;
      case "ArrowUp": this.choose((this.at + n - 1 + (this.at < 0 ? 1 : 0)) % n); break;
      case "Escape": this.close(); break;
      case "Tab":
      case "Enter":
        if (this.at < 0) {
          this.close();
          return false;
        }
        this.take(this.at);
        this.took = true;
        break;
      default: return false;
    }
    e.preventDefault();
    return true;
  }
}

let width = 0;

/** The width of a letter of the field. */
function letter() {
  if (!width) {
    const pen = document.createElement("canvas").getContext("2d");
    if (!pen) return 8;
    pen.font = getComputedStyle(field).font;
    width = pen.measureText("0123456789").width / 10;
  }
  return width;
}

export const offer = new Offer();

field.addEventListener("input", (e) => {
  offer.close();
  clearTimeout(offer.timer);
  const typed = /** @type {InputEvent} */ (e).data;
  if (typed && /[\p{L}_.]/u.test(typed)) offer.timer = setTimeout(() => offer.ask(false), PAUSE);
});
field.addEventListener("blur", () => offer.close());
field.addEventListener("keyup", (e) => {
  if (["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "Home", "End"].includes(e.key) && !offer.open) {
    clearTimeout(offer.timer);
    offer.timer = setTimeout(() => tellHere(), 250);
  }
});
field.addEventListener("click", () => {
  offer.close();
  tellHere();
});

/** Says what the word at the caret means. */
async function tellHere() {
  const at = field.selectionStart;
  const found = await ask("/api/complete", { ...store.state, at }).catch(() => null);
  if (found && at === field.selectionStart) offer.tell(found.here);
}
