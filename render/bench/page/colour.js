// The colours of a text: which stretch of a line is what sort of word.

/**
 * @typedef {{from: number, to: number, sort: string}} Stretch
 */

/** Words of the language by their sort. */
export class Vocabulary {
  /** @param {Record<string, string[]>} words */
  constructor(words) {
    /** @type {Map<string, string>} */
    this.sorts = new Map();
    for (const sort of ["result", "choice", "link", "property", "function", "keyword"])
      for (const w of words[sort] ?? []) this.sorts.set(w, sort);
    this.units = new Set(words.unit ?? []);
  }

  /**
   * Returns the sorts of the stretches of a line, in order. What is left out is
   * plain.
   * @param {string} line
   * @returns {Stretch[]}
   */
  stretches(line) {
    /** @type {Stretch[]} */
    const out = [];
    const word = /#.*|"[^"]*"?|\d[\d.]*(?:-\d+\/\d+|\/\d+)?|[\p{L}_][\p{L}\p{N}_]*(?:\/[a-z]\w*)?/gu;
    let after = "";
    for (const m of line.matchAll(word)) {
      const w = m[0], from = m.index, to = from + w.length;
      let sort = "";
      if (w[0] === "#") sort = "comment";
      else if (w[0] === "\"") sort = "words";
      else if (/^\d/.test(w)) sort = "number";
      else if (after === "number" && this.units.has(w)) sort = "number";
      else sort = this.sorts.get(w) ?? "";
      after = sort;
      if (sort === "keyword" && from > 0 && line.slice(0, from).trim() !== "" && this.isProperty(line, from)) sort = "property";
      if (sort) out.push({ from, to, sort });
    }
    return out;
  }

  /**
   * Reports whether a word stands where a property does: behind a brace or a comma.
   * @param {string} line
   * @param {number} at
   */
  isProperty(line, at) {
    return /[{,]\s*$/.test(line.slice(0, at));
  }
}
