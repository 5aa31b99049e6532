import { bookPath, isHere, whenShut } from "./api.js";
import { ask, field } from "./dialog.js";
import { button, el, need, show } from "./dom.js";
import { brandSign, icon } from "./icons.js";
import { holdFocus } from "./held.js";
import { enter } from "./here.js";
import { startKeeping } from "./keep.js";
import { roleText } from "./may.js";
import { matesLine } from "./mates.js";
import { recall, remember, who } from "./store.js";
import { toast } from "./toast.js";
import { netLine } from "./waiting.js";

const ROOMS = [
  ["book", "Pages", "/book.html"],
  ["desk", "Correct", "/desk.html"],
  ["road", "Road map", "/road.html"],
  ["turns", "Turns", "/turns.html"],
  ["practice", "Practice", "/practice.html"],
  ["stand", "Stand", "/stand.html"],
];

/** @returns {string} the book named in the address, or nothing */
export function bookInAddress() {
  return new URLSearchParams(location.search).get("b") ?? "";
}

/**
 * Fills the header: the way to the shelf, the rooms of the open book, the lamp switch.
 *
 * @param {{room?: string, book?: string, title?: string}} [here]
 */
export function shell({ room, book, title } = {}) {
  const header = need("header");
  const links = book
    ? ROOMS.map(([id, name, href]) =>
        el("a", {
          href: `${href}?b=${encodeURIComponent(book)}`,
          "aria-current": id === room ? "page" : undefined,
          text: name,
        }),
      )
    : [];
  show(
    header,
    el("a", { class: "brand", href: "/", "aria-label": "barmap, to the shelf" }, brandSign(), el("span", { text: "barmap" })),
    el("p", { class: "header-title", text: title ?? "" }),
    book ? el("nav", { class: "rooms", "aria-label": "This book" }, links) : null,
    el(
      "div",
      { class: "header-tools" },
      book ? matesLine(book) : null,
      netLine(),
      button("", nameYourself, { class: "btn btn-icon", "aria-label": "Your name in the history", title: "Your name in the history" }, icon("pencil"), el("span", { class: "header-word", text: "Name" })),
      button("", switchTheme, { class: "btn btn-icon", "aria-label": "Light or dark", title: "Light or dark" }, icon("lamp"), el("span", { class: "header-word", text: "Light" })),
    ),
  );
  header.querySelector("[aria-current]")?.scrollIntoView({ block: "nearest", inline: "nearest" });
  if (book && room && !title) enter(bookPath(book), room);
  holdFocus();
  guest(header, room ?? "");
  if (title) retitle(title);
  addEventListener("offline", sayOffline);
  startKeeping(book ?? "");
}

/** @param {string} title of the book, which may be renamed in another window */
export function retitle(title) {
  need(".header-title").textContent = title;
  document.title = `${title} · barmap`;
}

/**
 * Says what a guest may do here, under the header.
 *
 * @param {HTMLElement} header
 * @param {string} room
 */
function guest(header, room) {
  document.getElementById("guest")?.remove();
  const text = roleText(room);
  if (text) header.append(el("p", { id: "guest", class: "guest", text }));
}

/** One function, so that a header drawn again doesn't listen twice. */
function sayOffline() {
  toast(
    isHere() ? "This machine is offline. barmap runs on this machine, so you can go on." : "This machine is offline. What this browser has kept goes on working, and what you change is sent later.",
    { key: "net" },
  );
}

function switchTheme() {
  const root = document.documentElement;
  const dark = root.dataset.theme
    ? root.dataset.theme === "dark"
    : !matchMedia("(prefers-color-scheme: light)").matches;
  root.dataset.theme = dark ? "light" : "dark";
  try {
    localStorage.setItem("barmap.theme", root.dataset.theme);
  } catch {
    // The choice then lasts as long as the page.
  }
}

async function nameYourself() {
  const input = el("input", { name: "who", value: who(), maxlength: 60, autocomplete: "name" });
  const answer = await ask("Who is correcting?", [
    field("Your name or initials", input, "It stands beside your corrections, so that the next player knows whom to ask."),
  ], { yes: "Keep" });
  if (answer) {
    remember("who", String(answer.get("who") ?? "").trim());
    toast(who() ? `Corrections are now signed ${who()}.` : "Corrections are no longer signed.");
  }
}

/**
 * Fills the page with one clear sentence when the thing asked for isn't there.
 *
 * @param {string} heading
 * @param {string} text
 * @param {{href: string, text: string}} [way] on from here; to the shelf unless said
 */
export function deadEnd(heading, text, way = { href: "/", text: "To the shelf" }) {
  show(
    need("main"),
    el(
      "section",
      { class: "dead-end" },
      el("h1", { text: heading }),
      el("p", { text }),
      el("p", {}, el("a", { class: "btn btn-main", href: way.href, text: way.text })),
    ),
  );
}

/** The book in the address isn't there, nor are its rooms. */
export function noBook() {
  shell();
  deadEnd("No such book", "It may lie in the bin, or the address is wrong.");
}

whenShut(({ title, detail, begin }) => {
  if (!begin) deadEnd(title, `${detail}.`, { href: location.href, text: "Try again" });
  else if (location.pathname === "/") location.replace(begin);
});

export { recall, remember, who };
