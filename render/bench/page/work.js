// Keeps what is shown up with the text: one question at a time, the newest text
// first, the rest of the checks once the hands rest.

import { ask, Gone, Refusal } from "./net.js";
import { store } from "./store.js";

/** How long the hands rest, in ms, before all checks are made. */
const REST = 120;

let asking = false;
let again = false;
let held = false;
/** @type {AbortController | null} */
let rest = null;
/** @type {ReturnType<typeof setTimeout> | undefined} */
let timer;
/** @type {(e: unknown) => void} */
let onWrong = () => {};

/** @param {(e: unknown) => void} f */
export function whenWrong(f) {
  onWrong = f;
}

/** Asks what the text comes to; at once, or as soon as the last answer is there. */
export async function work() {
  if (!store.file || held) return;
  clearTimeout(timer);
  rest?.abort();
  if (asking) {
    again = true;
    return;
  }
  asking = true;
  const text = store.text;
  try {
    const answer = await ask("/api/work", store.state);
    if (!held && (text === store.text || !again)) store.show(answer);
    if (!answer.whole && text === store.text) timer = setTimeout(whole, REST);
  } catch (e) {
    onWrong(e);
  } finally {
    asking = false;
    if (again) {
      again = false;
      work();
    }
  }
}

/** Makes all checks of the text as it is. */
async function whole() {
  if (held) return;
  rest = new AbortController();
  const text = store.text;
  try {
    const answer = await ask("/api/work", { ...store.state, whole: true, have: store.drawn?.id }, rest.signal);
    if (text === store.text && !held) store.show(answer);
  } catch (e) {
    if (e instanceof Refusal || e instanceof Gone) onWrong(e);
  }
}

/**
 * Holds the work back while a drag asks by itself.
 * @param {boolean} on
 */
export function hold(on) {
  held = on;
  if (on) {
    clearTimeout(timer);
    rest?.abort();
  } else {
    work();
  }
}

store.on("text", (how) => {
  if (how.kind !== "show") work();
});
