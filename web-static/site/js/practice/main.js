import { bookPath, get } from "../core/api.js";
import { el, need, show } from "../core/dom.js";
import { bookInAddress, deadEnd, shell } from "../core/shell.js";
import { complain } from "../core/toast.js";
import { ClickRoom } from "./click-room.js";
import { RecordingRoom } from "./recording-room.js";
import { barSteps } from "./steps.js";

/** @typedef {import("../core/types.js").Bar} Bar */

/** @param {any} beat "1/4" as quarters */
function quarters(beat) {
  const [above, below] = String(beat).split("/").map(Number);
  return above && below ? (above * 4) / below : 1;
}

/** Learns the show: a click along the order of play, and a recording. */
async function start() {
  const book = bookInAddress();
  shell({ room: "practice", book });
  if (!book) return deadEnd("Which book?", "The address names no book.");
  try {
    const [info, map, plan, changes] = await Promise.all([
      get(bookPath(book)), get(bookPath(book, "/map")), get(bookPath(book, "/plan")), get(bookPath(book, "/changes")),
    ]);
    shell({ room: "practice", book, title: `${info.title}, ${info.part}` });
    const bars = new Map(map.bars.map((/** @type {Bar} */ b) => [b.id, b]));
    const titles = new Map(map.numbers.map((/** @type {any} */ n) => [n.label, n.title]));
    const numbers = plan.numbers.filter((/** @type {any} */ n) => n.order?.length).map((/** @type {any} */ n) => ({ title: titles.get(n.label), ...n }));
    const counting = (changes.changes ?? []).filter((/** @type {any} */ c) => c.on !== false);
    const stepsOf = (/** @type {string} */ label) => {
      const beats = counting.filter((/** @type {any} */ c) => c.kind === "beats" && c.number === label);
      const shown = (/** @type {Bar} */ bar, /** @type {number} */ offset) =>
        beats.find((/** @type {any} */ c) => Number(c.first) <= bar.number + offset && bar.number + offset <= Number(c.last))?.beats;
      return barSteps(numbers.find((/** @type {any} */ n) => n.label === label) ?? {}, bars, shown);
    };
    const tempoOf = (/** @type {string} */ label, /** @type {number} */ share) => {
      const said = counting.find((/** @type {any} */ c) => c.kind === "tempo" && c.number === label);
      if (said) return { clicks: (Number(said.perMinute) * quarters(said.beat)) / share, from: "The tempo comes from the show's changes." };
      const played = numbers.find((/** @type {any} */ n) => n.label === label)?.played;
      if (!played?.seconds || !played.beats) return undefined;
      return { clicks: (played.beats * 60) / played.seconds, from: "The tempo is the middle of what is marked in this number; it may change on the way." };
    };
    const pages = new Map(info.pages.map((/** @type {any} */ p) => [p.index, p.id]));
    if (numbers.length === 0) return deadEnd("Nothing to practise yet", "Add pages first; the click follows the order of play as soon as there is one.");
    const clicks = new ClickRoom(numbers, stepsOf, tempoOf);
    clicks.beginAt(decodeURIComponent(location.hash.slice(1)));
    show(
      need("main"),
      el(
        "div",
        { class: "wide practice" },
        el("h1", { text: "Practice" }),
        clicks.node,
        new RecordingRoom(book, numbers, stepsOf, (index) => String(pages.get(index) ?? "")).node,
      ),
    );
  } catch (error) {
    if (/** @type {any} */ (error).status === 404) return deadEnd("No such book", "It may lie in the bin, or the address is wrong.");
    complain(error);
    deadEnd("Practice can't start right now", "Reload the page to try again.");
  }
}

void start();
