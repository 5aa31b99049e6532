import { isMissing, read, readRaw } from "../core/api.js";
import { el, need, show } from "../core/dom.js";
import { bookInAddress, deadEnd, noBook, shell } from "../core/shell.js";
import { complain } from "../core/toast.js";
import { ClickRoom } from "./click-room.js";
import { Follower } from "./follow.js";
import { RecordingRoom } from "./recording-room.js";
import { barSteps } from "../shared/steps.js";
import { planWaitsLine } from "../shared/waits.js";

/** Learns the show: a click along the order of play, and a recording. */
async function start() {
  const book = bookInAddress();
  shell({ room: "practice", book });
  if (!book) return deadEnd("Which book?", "The address names no book.");
  try {
    const [info, map, plan] = await Promise.all([
      read(book, ""), readRaw(book, "/map"), read(book, "/plan"),
    ]);
    shell({ room: "practice", book, title: `${info.title}, ${info.part}` });
    const bars = new Map(map.bars.map((b) => [b.id, b]));
    const titles = new Map(map.numbers.map((n) => [n.label, n.title]));
    const numbers = plan.numbers.filter((n) => n.order.length).map((n) => ({ title: titles.get(n.label), ...n }));
    const stepsOf = (/** @type {string} */ label) => barSteps(numbers.find((n) => n.label === label), bars);
    const pages = new Map(info.pages.map((p) => [p.index, p]));
    if (numbers.length === 0) return deadEnd("Nothing to practise yet", "Add pages first; the click follows the order of play as soon as there is one.", { href: `/book.html?b=${encodeURIComponent(book)}`, text: "Add pages" });
    const clicks = new ClickRoom(numbers, stepsOf, new Follower(book, bars, pages));
    clicks.beginAt(decodeURIComponent(location.hash.slice(1)));
    show(
      need("main"),
      el(
        "div",
        { class: "wide practice" },
        el("h1", { text: "Practice" }),
        planWaitsLine(plan.waits),
        clicks.node,
        new RecordingRoom(book, numbers, stepsOf, new Follower(book, bars, pages)).node,
      ),
    );
  } catch (error) {
    if (isMissing(error)) return noBook();
    complain(error);
    deadEnd("Practice can't start right now", "Reload the page to try again.");
  }
}

void start();
