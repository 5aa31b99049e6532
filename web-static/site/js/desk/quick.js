import { CONTENT } from "../core/words.js";

/** @typedef {import("../core/types.js").Bar} Bar */
/** @typedef {import("../core/types.js").Correction} Correction */

const CONTENTS = Object.keys(CONTENT);

/** A barline with a repeat at the end of the bar before it, or without; what it says of the bar after stays. @type {Record<string, string>} */
const AT_END = { "repeat-end": "single", "repeat-start": "repeat-both", "repeat-both": "repeat-start" };

/** The same for a repeat of the bar after it. @type {Record<string, string>} */
const AT_START = { "repeat-end": "repeat-both", "repeat-both": "repeat-end" };

/**
 * What one key says of a bar.
 *
 * @param {string} run
 * @param {Bar} bar
 * @param {boolean} first whether it is the first of its line
 * @returns {Correction|undefined} nothing where the key says nothing of a bar
 */
export function quickly(run, bar, first) {
  const at = { bar: bar.id };
  switch (run) {
    case "content": {
      const content = CONTENTS[(CONTENTS.indexOf(bar.content) + 1) % CONTENTS.length];
      return { ...at, kind: "set-content", content, count: content === "multi-rest" ? Math.max(2, bar.count) : 1 };
    }
    case "music": return { ...at, kind: "set-content", content: "music", count: 1 };
    case "remove": return { ...at, kind: "remove-barline", side: "end" };
    case "repeat-end": return { ...at, kind: "set-barline", side: "end", type: AT_END[bar.endBarline] ?? "repeat-end" };
    case "repeat-start": {
      const none = first ? "none" : "single";
      return { ...at, kind: "set-barline", side: "start", type: AT_START[bar.startBarline] ?? (bar.startBarline === "repeat-start" ? none : "repeat-start") };
    }
    default: return undefined;
  }
}
