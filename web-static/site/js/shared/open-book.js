import { ApiError, upload } from "../core/api.js";
import { ask, field } from "../core/dialog.js";
import { el } from "../core/dom.js";
import { count } from "../core/words.js";

/** @typedef {import("../core/types.js").BookInfo} BookInfo */
/** @typedef {{place: number, name: string, measures: number}} ScoreChoice one part of a score */

/**
 * Opens a packed book, a bar map or a score as a book of the shelf.
 *
 * @param {File} file
 * @param {string} which what is asked where a score has several parts
 * @param {string} [part] of a score
 * @returns {Promise<BookInfo|undefined>} nothing where a part was asked for and none was said
 */
export async function openBook(file, which, part = "") {
  try {
    return await upload(`/api/books/open${part ? `?part=${encodeURIComponent(part)}` : ""}`, [file], () => {});
  } catch (error) {
    const parts = part ? [] : partsAsked(error);
    if (parts.length === 0) throw error;
    const wanted = await whichPart(which, parts);
    return wanted ? openBook(file, which, wanted) : undefined;
  }
}

/** @param {unknown} error @returns {ScoreChoice[]} the parts of a score, where the answer asks which one */
function partsAsked(error) {
  const body = /** @type {{code?: string, parts?: ScoreChoice[]}} */ (error instanceof ApiError ? error.body ?? {} : {});
  return body.code === "WHICH_PART" ? body.parts ?? [] : [];
}

/**
 * @param {string} which what is asked
 * @param {ScoreChoice[]} parts
 * @returns {Promise<string>} the place of the part, empty for none
 */
async function whichPart(which, parts) {
  const part = el("select", { name: "part" }, parts.map((p) => el("option", { value: String(p.place), text: `${p.name} (${count(p.measures, "bar")})` })));
  const answer = await ask(which, [field("The part", part, "It becomes a book without pictures: bars, repeats, marks, rests and words as the file has them.")], { yes: "Put it on the shelf" });
  return String(answer?.get("part") ?? "");
}
