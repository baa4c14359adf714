// Undo and redo of the text, whoever changed it: typing, a drag, a slider.

/**
 * @typedef {{at: number, old: string, new: string, kind: string, time: number}} Change
 */

/** Typing goes on as one change until it pauses for this long, in ms. */
const PAUSE = 900;

/** Changes that are kept. */
const MOST = 2000;

/**
 * Returns the one stretch in which two texts differ.
 * @param {string} before
 * @param {string} after
 * @returns {{at: number, old: string, new: string}}
 */
export function difference(before, after) {
  const most = Math.min(before.length, after.length);
  let at = 0;
  while (at < most && before[at] === after[at]) at++;
  let tail = 0;
  while (tail < most - at && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail++;
  // No half of a character that takes two units.
  if (at > 0 && isLow(after.charCodeAt(at)) || isLow(before.charCodeAt(at))) at = Math.max(0, at - 1);
  return { at, old: before.slice(at, before.length - tail), new: after.slice(at, after.length - tail) };
}

/** @param {number} unit */
function isLow(unit) {
  return unit >= 0xdc00 && unit <= 0xdfff;
}

export class History {
  /** @param {string} text */
  constructor(text) {
    this.text = text;
    /** @type {Change[]} */
    this.done = [];
    /** @type {Change[]} */
    this.undone = [];
  }

  /**
   * Notes that the text was changed. Typing that goes on at the same place is one
   * change with what was typed before.
   * @param {string} text
   * @param {string} kind
   * @param {number} time in ms
   */
  record(text, kind, time) {
    if (text === this.text) return;
    const d = difference(this.text, text);
    const last = this.done[this.done.length - 1];
    this.text = text;
    this.undone = [];
    if (last && kind === "type" && last.kind === "type" && time - last.time < PAUSE && !/\n/.test(d.new)) {
      if (d.old === "" && d.at === last.at + last.new.length) {
        last.new += d.new;
        last.time = time;
        return;
      }
      if (d.new === "" && d.at + d.old.length === last.at + last.new.length && d.old.length <= last.new.length) {
        last.new = last.new.slice(0, last.new.length - d.old.length);
        last.time = time;
        return;
      }
    }
    this.done.push({ ...d, kind, time });
    if (this.done.length > MOST) this.done.shift();
  }

  /**
   * Takes the last change back. Returns where the caret goes, or -1.
   * @returns {number}
   */
  undo() {
    const c = this.done.pop();
    if (!c) return -1;
    this.text = this.text.slice(0, c.at) + c.old + this.text.slice(c.at + c.new.length);
    this.undone.push(c);
    return c.at + c.old.length;
  }

  /**
   * Makes the last change that was taken back again.
   * @returns {number}
   */
  redo() {
    const c = this.undone.pop();
    if (!c) return -1;
    this.text = this.text.slice(0, c.at) + c.new + this.text.slice(c.at + c.old.length);
    this.done.push({ ...c, time: 0 });
    return c.at + c.new.length;
  }
}
