/** Every rule of ours fires: each text below breaks one, as if it stood in the file named. */

import assert from "node:assert/strict";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { ESLint } from "eslint";

const eslint = new ESLint({ cwd: fileURLToPath(new URL(".", import.meta.url)) });

/** @type {[string, string, string, string][]} what is wrong, file, text, rule */
const BROKEN = [
  // icons.js imports dom.js
  ["a circle of imports", "core/dom.js", 'import { icon } from "./icons.js";\nexport const x = icon;', "import-x/no-cycle"],
  ["a module that isn't there", "core/dom.js", 'import { x } from "./nowhere.js";\nexport const y = x;', "import-x/no-unresolved"],
  ["a room that imports another", "road/words.js", 'import { turnCard } from "../turns/turn-card.js";\nexport const x = turnCard;', "import-x/no-restricted-paths"],
  ["core that knows a room", "core/live.js", 'import { KINDS } from "../road/kinds.js";\nexport const x = KINDS;', "import-x/no-restricted-paths"],
  ["a wait by time", "road/words.js", "setTimeout(() => {}, 10);", "no-restricted-globals"],
  ["a wait by time, through window", "road/words.js", "window.setTimeout(() => {}, 10);", "no-restricted-properties"],
  ["a wait by time, through the clock", "road/words.js", 'import { later } from "../core/clock.js";\nexport const pause = () => new Promise((done) => later(10, () => done(1)));', "no-restricted-syntax"],
  ["markup out of text", "road/words.js", 'document.body.innerHTML = "x";', "no-restricted-properties"],
  ["markup inserted", "road/words.js", 'document.body.insertAdjacentHTML("beforeend", "x");', "no-restricted-properties"],
  ["markup written", "road/words.js", 'document.write("x");', "no-restricted-properties"],
  ["something unused", "road/words.js", "const x = 1;", "no-unused-vars"],
  ["something undefined", "road/words.js", "nothing();", "no-undef"],
  ["a type that says nothing", "road/words.js", "/** @param {any} x */\nexport const y = (x) => x;", "types/no-any"],
  ["an error made silent", "road/words.js", "// @ts-ignore\nexport const y = 1;", "types/no-any"],
];

for (const [what, file, text, rule] of BROKEN) {
  test(what, async () => {
    const [{ messages }] = await eslint.lintText(text, { filePath: `site/js/${file}` });
    assert.deepEqual(messages.map((m) => m.ruleId), [rule]);
  });
}
