import { button, el } from "../core/dom.js";

const STEPS = [
  ["Add the pages", "Photograph or scan the book, in order. barmap finds the lines, bars, long rests and marks."],
  ["Put it right", "Look over what was read and correct it: a rest's number here, a barline there. Doubts are listed for you."],
  ["Know the night", "See every turn and how much time there is, type in the cuts, and see at once what they change."],
];

/**
 * What stands on a shelf without books: the way, in three steps.
 *
 * @param {() => void} create
 */
export function emptyShelf(create) {
  return el(
    "section",
    { "aria-label": "How it goes" },
    el("p", { text: "No books yet. From a pile of pages to a part you know goes in three steps:" }),
    el(
      "ol",
      { class: "steps" },
      STEPS.map(([name, text]) => el("li", { class: "card" }, el("h3", { text: name }), el("p", { text }))),
    ),
    el("p", {}, button("Start the first book", create, { class: "btn btn-main" })),
  );
}
