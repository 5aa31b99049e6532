import { el } from "../core/dom.js";

/** @param {string} book the way to another part of the show beside this one */
export function otherPart(book) {
  return el(
    "section",
    { class: "card save", id: "other-part", "aria-label": "Another part beside this one" },
    el("a", { class: "btn", href: `/align.html?b=${encodeURIComponent(book)}`, text: "Beside another part" }),
    el("span", { class: "soft small", text: "Which bar of this book is which in the director's part, or another chair's; and changes said in either's numbers." }),
  );
}
