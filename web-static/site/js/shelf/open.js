import { ApiError, get, upload } from "../core/api.js";
import { ask, field } from "../core/dialog.js";
import { button, el } from "../core/dom.js";
import { complain, toast } from "../core/toast.js";
import { count } from "../core/words.js";
import { changesIn, takeChanges } from "../shared/taking.js";

/** @typedef {import("../core/types.js").BookInfo} BookInfo */
/** @typedef {{place: number, name: string, measures: number}} ScoreChoice one part of a score */

/**
 * Opens files of another barmap: by a button, or dropped anywhere on the shelf.
 *
 * @param {() => Promise<void>} done told when something new is on the shelf
 */
export function opener(done) {
  const input = el("input", { type: "file", id: "open-files", accept: ".zip,.json,.musicxml,.mxl,.xml,application/zip,application/json", multiple: true, class: "visually-hidden", tabindex: -1, "aria-label": "Files to open" });
  const take = async (/** @type {File[]} */ files) => {
    for (const file of files) await openFile(file).catch(complain);
    await done();
  };
  input.addEventListener("change", () => void take([...(input.files ?? [])]).then(() => (input.value = "")));
  addEventListener("dragover", (event) => event.preventDefault());
  addEventListener("drop", (event) => {
    event.preventDefault();
    const files = [...(event.dataTransfer?.files ?? [])];
    if (files.length) void take(files);
  });
  return el("span", {}, button("Open a file", () => input.click(), { class: "btn", id: "open-file", title: "A packed book, a bar map, a MusicXML score or a list of changes; or drop it here" }), input);
}

/** @param {File} file */
async function openFile(file) {
  const changes = await changesIn(file);
  if (changes) return void (await forWhich(file.name, changes));
  const book = await opened(file);
  if (book) toast(`${book.title} is on the shelf.`, { kind: "good" });
}

/**
 * @param {File} file
 * @param {string} [part] of a score
 * @returns {Promise<BookInfo|undefined>} nothing where a part was asked for and none was said
 */
async function opened(file, part = "") {
  try {
    return await upload(`/api/books/open${part ? `?part=${encodeURIComponent(part)}` : ""}`, [file], () => {});
  } catch (error) {
    const parts = part ? [] : partsAsked(error);
    if (parts.length === 0) throw error;
    const wanted = await whichPart(file.name, parts);
    return wanted ? opened(file, wanted) : undefined;
  }
}

/** @param {unknown} error @returns {ScoreChoice[]} the parts of a score, where the answer asks which one */
function partsAsked(error) {
  const body = /** @type {{code?: string, parts?: ScoreChoice[]}} */ (error instanceof ApiError ? error.body ?? {} : {});
  return body.code === "WHICH_PART" ? body.parts ?? [] : [];
}

/**
 * @param {string} name of the file
 * @param {ScoreChoice[]} parts
 * @returns {Promise<string>} the place of the part, empty for none
 */
async function whichPart(name, parts) {
  const part = el("select", { name: "part" }, parts.map((p) => el("option", { value: String(p.place), text: `${p.name} (${count(p.measures, "bar")})` })));
  const answer = await ask(`Whose part of ${name} is yours?`, [field("The part", part, "It becomes a book without pictures: bars, repeats, marks, rests and words as the file has them.")], { yes: "Put it on the shelf" });
  return String(answer?.get("part") ?? "");
}

/**
 * @param {string} name
 * @param {{changes: unknown[]}} said
 */
async function forWhich(name, said) {
  /** @type {{books: BookInfo[]}} */
  const { books } = await get("/api/books");
  if (books.length === 0) return void toast("These are changes of a show: open or make its book first.", { kind: "bad" });
  const book = el("select", { name: "book" }, books.map((b) => el("option", { value: b.id, text: `${b.title}, ${b.part}` })));
  const answer = books.length === 1 ? undefined : await ask(`${count(said.changes.length, "change")} in ${name}`, [field("Which book are they for?", book, "You see them one by one before they are taken.")], { yes: "Show them" });
  const id = books.length === 1 ? books[0].id : String(answer?.get("book") ?? "");
  if (id) await takeChanges(id, name, said);
}
