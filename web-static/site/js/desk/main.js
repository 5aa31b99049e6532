import { bookPath, isMissing } from "../core/api.js";
import { EventBus } from "../core/bus.js";
import { el, need, show } from "../core/dom.js";
import { LiveBook } from "../core/live.js";
import { bookInAddress, deadEnd, noBook, retitle, shell } from "../core/shell.js";
import { complain, toast } from "../core/toast.js";
import { chooseBoth } from "../shared/both.js";
import { Desk } from "./desk.js";
import { DeskModel } from "./model.js";

/** Opens the correction desk for the book and page in the address. */
async function start() {
  const book = bookInAddress();
  shell({ room: "desk", book });
  if (!book) return deadEnd("Which book?", "The address names no book.");
  /** @type {EventBus<import("../core/types.js").DeskEvents>} */
  const bus = new EventBus();
  const model = new DeskModel(book, bus);
  show(need("main"), el("p", { class: "waiting", text: "Opening the book …" }));
  const asked = new URLSearchParams(location.search);
  const wanted = Number(asked.get("p")) || 1;
  try {
    await model.load(wanted, asked.get("bar") ?? "");
  } catch (error) {
    if (isMissing(error)) return noBook();
    complain(error);
    return deadEnd("The book can't be opened right now", "Reload the page to try again.");
  }
  shell({ room: "desk", book, title: model.title });
  if (model.map.pages.length === 0) {
    return deadEnd("No pages to correct yet", "Add pages first; this desk opens as soon as one is read.", { href: `/book.html?b=${encodeURIComponent(book)}`, text: "Add pages" });
  }
  const desk = new Desk(book, bus, model);
  show(need("main"), desk.node);
  desk.open(model.map.pages.some((p) => p.index === wanted) ? wanted : model.map.pages[0].index);
  desk.show(asked.get("bar") ?? "", asked.get("field") ?? "");
  if (!asked.has("p") && !asked.has("bar")) desk.begin();
  new LiveBook(bookPath(book, "/events"), bus);
  bus.on("stale", (clash) => {
    // what was pressed may be drawn anew meanwhile
    if (clash) void chooseBoth(clash).catch(complain).then(() => document.activeElement === document.body && desk.focus());
    else toast("Someone else changed this book at the same time. It is fresh again; nothing was taken back or made again.", { key: "stale" });
  });
  bus.on("failed", complain);
  bus.on("map", () => retitle(model.title));
  bus.on("live:lost", () => toast("barmap is not answering: what others do is shown when it does.", { key: "live" }));
  bus.on("live:found", () => void model.load().catch(complain));
}

void start();
