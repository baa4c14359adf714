// Puts the bench together.

import { byID, dialog, el } from "./dom.js";
import { speak } from "./field.js";
import { drawing } from "./drawing.js";
import "./hands.js";
import { placeHands } from "./hands.js";
import "./sliders.js";
import "./adding.js";
import { whenChecked } from "./verdict.js";
import { openCheck } from "./tabs.js";
import "./variations.js";
import "./papers.js";
import { BoardPicture } from "./picture.js";
import { clientView } from "./client.js";
import { begin, choose, notice, save, tidy } from "./files.js";
import { ask, Gone, Refusal, whenGone } from "./net.js";
import { store } from "./store.js";
import { whenWrong } from "./work.js";

const picture = new BoardPicture();
whenChecked(openCheck);

let gone = false;
whenGone((now) => {
  if (now === gone) return;
  gone = now;
  document.body.classList.toggle("gone", now);
  if (now) notice("The program has ended. Your text is kept on this page: copy it, or start the program again and open its new address.", [["Copy the text", () => navigator.clipboard?.writeText(store.text)]]);
  else notice("");
});
whenWrong((e) => {
  if (e instanceof Refusal) notice(e.message);
  else if (!(e instanceof Gone)) throw e;
});

// What is shown on the board.
const views = byID("views");
for (const [show, name] of [["all", "All"], ["0", "Front"], ["1", "Right"], ["2", "Plan"], ["picture", "Picture"]])
  views.append(el("button", { type: "button", "aria-pressed": String(show === "all"), "data-show": show, onclick: () => look(show) }, name));

/** @param {string} show */
function look(show) {
  for (const b of views.children) b.setAttribute("aria-pressed", String(b.getAttribute("data-show") === show));
  picture.show(show === "picture");
  if (show !== "picture") {
    drawing.show = show;
    drawing.fitted = true;
    drawing.last = null;
    drawing.draw();
  }
  placeHands();
}

const dims = byID("dims");
dims.addEventListener("click", () => {
  drawing.sizes = !drawing.sizes;
  dims.setAttribute("aria-pressed", String(drawing.sizes));
  drawing.draw();
});
byID("nearer").addEventListener("click", () => drawing.near(1.3));
byID("farther").addEventListener("click", () => drawing.near(1 / 1.3));
byID("fit").addEventListener("click", () => drawing.fit());

byID("files").addEventListener("click", choose);
byID("save").addEventListener("click", save);
byID("client").addEventListener("click", clientView);
byID("tidy").addEventListener("click", async () => {
  try {
    await tidy();
  } catch (e) {
    if (e instanceof Refusal) notice(e.message);
  }
});

const undo = byID("undo"), redo = byID("redo");
undo.addEventListener("click", () => store.step(true));
redo.addEventListener("click", () => store.step(false));
const able = () => {
  /** @type {HTMLButtonElement} */ (undo).disabled = !store.history.done.length;
  /** @type {HTMLButtonElement} */ (redo).disabled = !store.history.undone.length;
};
store.on("text", able);
able();

document.addEventListener("keydown", (e) => {
  const ctrl = e.ctrlKey || e.metaKey, key = e.key.toLowerCase();
  if (ctrl && key === "s") {
    e.preventDefault();
    save();
  } else if (ctrl && (key === "z" || key === "y") && !/^(INPUT|TEXTAREA)$/.test(document.activeElement?.tagName ?? "")) {
    e.preventDefault();
    store.step(key === "z" && !e.shiftKey);
  } else if (e.key === "F2") {
    e.preventDefault();
    /** @type {HTMLElement | null} */ (document.querySelector(".hand") ?? byID("part"))?.focus();
  }
});

// Dark or light: as the system has it, until it is chosen.
const shade = byID("shade");
const dark = matchMedia("(prefers-color-scheme: dark)");
const tone = (/** @type {boolean} */ on) => {
  document.documentElement.dataset.tone = on ? "dark" : "light";
  shade.setAttribute("aria-pressed", String(on));
};
tone(dark.matches);
dark.addEventListener("change", () => tone(dark.matches));
shade.addEventListener("click", () => tone(shade.getAttribute("aria-pressed") !== "true"));

byID("help").addEventListener("click", () => dialog("Keys", el("dl", { class: "keys" }, ...[
  ["Ctrl+S", "save"], ["Ctrl+Z, Ctrl+Shift+Z", "undo, redo: typing, drags, sliders alike"],
  ["Ctrl+Space", "words that may stand at the caret"], ["Alt+Enter", "take the cure of the nearest mistake"],
  ["F2", "to the handles of the chosen part"], ["Arrow keys on a handle", "move it by a step; Shift finer, Alt farther"],
  ["Arrow keys, +, −, 0 on the drawing", "shift, nearer, farther, fit"], ["Escape", "take a drag back, put down what is to be added"],
].flatMap(([k, v]) => [el("dt", {}, el("kbd", {}, k)), el("dd", {}, v)])),
el("p", { class: "faint" }, "What comes of it is an aid to judgement. A licensed engineer and the local code decide for anything that the public can reach.")));

try {
  const start = await ask("/api/start");
  speak(start.words);
  await begin(start);
} catch (e) {
  notice("The bench could not be opened: " + /** @type {Error} */ (e).message);
}
