import { bookPath, call, get, upload } from "../core/api.js";
import { ask, field } from "../core/dialog.js";
import { button, el } from "../core/dom.js";
import { complain, toast } from "../core/toast.js";
import { count } from "../core/words.js";

/** @typedef {import("../core/types.js").BookInfo} BookInfo */

/** A list of changes is small; what is larger is a book. */
const MOST_CHANGES = 4 << 20;

/**
 * Opens files of another barmap: by a button, or dropped anywhere on the shelf.
 *
 * @param {() => Promise<void>} done told when something new is on the shelf
 */
export function opener(done) {
  const input = el("input", { type: "file", id: "open-files", accept: ".zip,.json,application/zip,application/json", multiple: true, class: "visually-hidden", tabindex: -1, "aria-label": "Files to open" });
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
  return el("span", {}, button("Open a file", () => input.click(), { class: "btn", id: "open-file", title: "A packed book, a bar map or a list of changes; or drop it here" }), input);
}

/** @param {File} file */
async function openFile(file) {
  const changes = await changesIn(file);
  if (changes) return takeChanges(file.name, changes);
  /** @type {BookInfo} */
  const book = await upload("/api/books/open", [file], () => {});
  toast(`${book.title} is on the shelf.`, { kind: "good" });
}

/**
 * @param {File} file
 * @returns {Promise<{changes: unknown[]}|undefined>} what it says, where it is a list of changes
 */
async function changesIn(file) {
  if (file.size > MOST_CHANGES) return undefined;
  try {
    const said = JSON.parse(await file.text());
    return said?.format === "changes/1" && Array.isArray(said.changes) ? said : undefined;
  } catch {
    return undefined; // the service says what is wrong with it
  }
}

/**
 * @param {string} name
 * @param {{changes: unknown[]}} said
 */
async function takeChanges(name, said) {
  /** @type {{books: BookInfo[]}} */
  const { books } = await get("/api/books");
  if (books.length === 0) return void toast("These are changes of a show: open or make its book first.", { kind: "bad" });
  const book = el("select", { name: "book" }, books.map((b) => el("option", { value: b.id, text: `${b.title}, ${b.part}` })));
  const answer = await ask(`${count(said.changes.length, "change")} in ${name}`, [field("Which book are they for?", book, "They are added to those the book has, in one step that can be taken back.")], { yes: "Add them" });
  if (!answer) return;
  const id = String(answer.get("book") ?? "");
  const { revision } = await call("GET", bookPath(id, "/changes"));
  await call("POST", bookPath(id, "/changes/open"), { body: said, match: revision });
  toast(`${count(said.changes.length, "change")} added.`, { kind: "good" });
}
