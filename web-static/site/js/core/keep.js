import { bookPath, call, cropPath, imagePath, read } from "./api.js";
import { later } from "./clock.js";
import { recall, remember } from "./store.js";

/** Everything the rooms of a book ask for, below its address. */
const ROUTES = /** @type {const} */ (["/map", "/doubts", "/history", "/settings", "/second", "/changes", "/changes/history", "/plan", "/plan?without=changes", "/roadmap", "/marks", "/align", "/align?only=changes", "/editions"]);
/** Pictures are kept in the sizes of the list and of the stand; the desk then shows the larger one. */
const WIDTHS = [320, 1400];
/** A player who only passes through a room need not fetch a whole book. */
const AFTER_MS = 3000;
/** What a person waits for goes first: after a key or a touch nothing more is fetched for so long. */
const PAUSE_MS = 1500;

/** @typedef {{stamp: string, at: string, pages: number}} Kept what this browser has of a book; at in ISO 8601 */

/** @returns {boolean} whether this browser keeps anything: it does at addresses that are secure, and this machine's own is */
export function canKeep() {
  return isSecureContext && "serviceWorker" in navigator;
}

/** @param {string} book @returns {Kept|undefined} */
export function keptOf(book) {
  return recall(`kept.${book}`, /** @type {Kept|undefined} */ (undefined));
}

/** After somebody changed the book, what is kept is fetched again: a while after the last step. */
const AGAIN_MS = 4000;

let begun = false;
/** Whose room is open. */
let open = "";
let keeping = false;
let callOffAgain = () => {};

/** The book was changed, here or elsewhere: what is kept of it is old. */
export function keepAgain() {
  callOffAgain();
  callOffAgain = later(AGAIN_MS, () => {
    if (!open || !navigator.serviceWorker?.controller) return;
    if (keeping) return keepAgain();
    void keepOpen();
  });
}

async function keepOpen() {
  keeping = true;
  try {
    await keep(open);
  } catch {
    // the service is away: what is kept stays as it is
  } finally {
    keeping = false;
  }
}

/**
 * Lets the browser keep the pages, and the book whose room is open.
 *
 * @param {string} book may be empty
 */
export function startKeeping(book) {
  if (begun || !canKeep()) return;
  begun = true;
  for (const sign of ["keydown", "pointerdown", "input"]) addEventListener(sign, touched, { capture: true, passive: true });
  later(AFTER_MS, () => {
    open = book;
    void register().then(() => (book ? keepOpen() : undefined)).catch(() => undefined); // without it everything works but offline
  });
}

async function register() {
  const workers = navigator.serviceWorker;
  // a newer version waits until the last page of the older one is closed
  await workers.register("/sw.js");
  if (workers.controller) return;
  await new Promise((resolve) => workers.addEventListener("controllerchange", resolve, { once: true }));
}

/** Pictures this window has fetched to be kept: they don't change. @type {Set<string>} */
const fetched = new Set();

let busy = false;
let callOff = () => {};
/** @type {(() => void)[]} */
const resting = [];

function touched() {
  busy = true;
  callOff();
  callOff = later(PAUSE_MS, () => {
    busy = false;
    for (const goOn of resting.splice(0)) goOn();
  });
}

/** @returns {Promise<void>} when nobody does anything at this page */
function pause() {
  return busy ? new Promise((resolve) => void resting.push(resolve)) : Promise.resolve();
}

/** @param {string} book fetches what isn't kept as it is now; asking is what keeps it */
async function keep(book) {
  await pause();
  const [{ data: info, revision }, changes, settings] = await Promise.all([bookNow(book), call("GET", bookPath(book, "/changes")), call("GET", bookPath(book, "/settings"))]);
  const stamp = [revision, changes.revision, settings.revision, info.pages.map((p) => `${p.id}${p.state}`).join()].join("/");
  if (keptOf(book)?.stamp === stamp) return;
  await Promise.all(["/api/books", "/api/bin", "/api/about", "/api/kept"].map((path) => fetch(path)));
  for (const route of ROUTES) {
    await pause();
    await read(book, route);
  }
  await pause();
  const { turns } = await read(book, "/plan");
  const ids = new Map(info.pages.map((p) => [p.index, p.id]));
  const drawn = new Set(info.pages.filter((p) => p.score).map((p) => p.index));
  // the plan may be of a page that came meanwhile: then all is kept again anyway
  const crops = turns.flatMap((t) => {
    const page = drawn.has(t.toPage) ? undefined : ids.get(t.toPage);
    return page ? [cropPath(book, page, t.arrives, 900, 3)] : [];
  });
  const pictures = info.pages.filter((p) => p.width > 0 && !p.score).flatMap((p) => WIDTHS.map((width) => imagePath(book, p.id, width)));
  for (const path of [...pictures.filter((p) => !fetched.has(p)), ...crops]) {
    await pause();
    await fetch(path);
    fetched.add(path);
  }
  remember(`kept.${book}`, { stamp, at: new Date().toISOString(), pages: info.pages.length });
}

/** @param {string} book @returns {Promise<import("./api.js").Answered<import("./types.js").Book>>} */
function bookNow(book) {
  return call("GET", bookPath(book));
}
