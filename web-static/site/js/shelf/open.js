import { get } from "../core/api.js";
import { ask, field } from "../core/dialog.js";
import { button, el } from "../core/dom.js";
import { complain, toast } from "../core/toast.js";
import { count } from "../core/words.js";
import { openBook } from "../shared/open-book.js";
import { changesIn, takeChanges } from "../shared/taking.js";

/** @typedef {import("../core/types.js").BookInfo} BookInfo */

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
  const book = await openBook(file, `Whose part of ${file.name} is yours?`);
  if (book) toast(`${book.title} is on the shelf.`, { kind: "good" });
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
