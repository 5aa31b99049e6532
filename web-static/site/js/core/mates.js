import { el, show } from "./dom.js";
import { initials, others, whenElsewhere, whereIs } from "./here.js";

const line = el("ul", { class: "mates", id: "mates", "aria-label": "Also at this book", hidden: true });
let listening = false;

/**
 * Who else is at the book, in the header; where somebody corrects, the way to their bar.
 *
 * @param {string} book
 */
export function matesLine(book) {
  if (!listening) {
    listening = true;
    whenElsewhere(() => draw(book));
  }
  return line;
}

/** @param {string} book */
function draw(book) {
  const mates = others();
  line.hidden = mates.length === 0;
  show(
    line,
    mates.map((desk) => {
      const says = { "title": whereIs(desk), "aria-label": whereIs(desk) };
      const letters = initials(desk.who);
      if (!desk.page) return el("li", {}, el("span", { ...says, class: "mate", role: "img" }, letters));
      const href = `/desk.html?b=${encodeURIComponent(book)}&p=${desk.page}${desk.bar ? `&bar=${encodeURIComponent(desk.bar)}` : ""}`;
      return el("li", {}, el("a", { ...says, href }, el("span", { class: "mate" }, letters)));
    }),
  );
}

/**
 * Puts the letters of those who are at a page on its card.
 *
 * @param {Element} list whose cards have `data-page`
 */
export function markCards(list) {
  for (const old of list.querySelectorAll(".mates-here")) old.remove();
  for (const card of list.querySelectorAll("[data-page]")) {
    const here = others().filter((desk) => desk.page > 0 && String(desk.page) === card.getAttribute("data-page"));
    if (here.length) card.querySelector(".thumb-head")?.append(el("span", { class: "mates-here" }, here.map((desk) => el("span", { "class": "mate", "role": "img", "title": whereIs(desk), "aria-label": whereIs(desk) }, initials(desk.who)))));
  }
}
