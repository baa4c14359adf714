// What the page asks of the program. Every answer is JSON.

/** An answer that says why something is not done. */
export class Refusal extends Error {
  /**
   * @param {number} status
   * @param {any} body
   */
  constructor(status, body) {
    super(body?.wrong ?? "It could not be done.");
    this.status = status;
    this.body = body;
  }
}

/** The program does not answer any more. */
export class Gone extends Error {}

/** @type {(gone: boolean) => void} */
let onGone = () => {};

/** @param {(gone: boolean) => void} f */
export function whenGone(f) {
  onGone = f;
}

/**
 * @param {string} path
 * @param {any} [body] of a POST; a GET without it
 * @param {AbortSignal} [signal]
 * @returns {Promise<Response>}
 */
async function send(path, body, signal) {
  try {
    const answer = await fetch(path, body === undefined ? { signal } : {
      method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body), signal,
    });
    onGone(false);
    return answer;
  } catch (e) {
    if (/** @type {Error} */ (e).name === "AbortError") throw e;
    onGone(true);
    throw new Gone("The program has ended.");
  }
}

/**
 * Asks, and returns the answer.
 * @param {string} path
 * @param {any} [body]
 * @param {AbortSignal} [signal]
 * @returns {Promise<any>}
 */
export async function ask(path, body, signal) {
  const answer = await send(path, body, signal);
  const kind = answer.headers.get("Content-Type") ?? "";
  const found = kind.startsWith("application/json") ? await answer.json() : { wrong: await answer.text() };
  if (!answer.ok) {
    if (answer.status === 403 && !found.text) onGone(true);
    throw new Refusal(answer.status, found);
  }
  return found;
}

/**
 * Asks for long work, which tells how far it is, line by line; returns the last.
 * @param {string} path
 * @param {any} body
 * @param {(progress: {done: number, of: number, says?: string}) => void} progress
 * @param {AbortSignal} signal
 * @returns {Promise<any>}
 */
export async function follow(path, body, progress, signal) {
  const answer = await send(path, body, signal);
  if (!answer.ok || !answer.body) throw new Refusal(answer.status, await answer.json().catch(() => null));
  const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
  let rest = "", last = null;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    const lines = (rest + value).split("\n");
    rest = lines.pop() ?? "";
    for (const line of lines) {
      last = JSON.parse(line);
      if (last.of !== undefined) progress(last);
    }
  }
  if (!last || last.wrong) throw new Refusal(422, last ?? { wrong: "It was stopped." });
  return last;
}

/**
 * Listens for what happens beside the page.
 * @param {string} file
 * @param {(message: {changed?: string, pages?: number}) => void} tell
 * @returns {() => void} ends the listening
 */
export function listen(file, tell) {
  const source = new EventSource("/api/news?file=" + encodeURIComponent(file));
  source.onmessage = (e) => tell(JSON.parse(e.data));
  source.onopen = () => onGone(false);
  source.onerror = () => onGone(true);
  return () => source.close();
}
