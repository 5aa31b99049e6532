import { button, el, need, show } from "../core/dom.js";
import { recall, remember } from "../core/store.js";
import { chooseDim, DIM } from "./dim.js";
import { placeForm } from "./places.js";
import { Playing } from "./playing.js";
import { stopsOf } from "./stops.js";
import { keep, keptIn, START } from "./walk.js";

/** The stand in a page that is a file by itself: what it plays from lies in the page. */
function start() {
  const { map, plan } = JSON.parse(need("#book").textContent ?? "");
  const page = [...need("main").children];
  const place = need("#alone-stand");
  const stops = stopsOf(plan, map);
  const key = `stand.alone.${map.book.title}`;
  /** @type {Playing} */
  const playing = new Playing([], (at) => remember(key, keep(playing.board.stops, at)), () => {
    show(need("main"), page);
    need("#stand-begin").focus();
  });
  const kept = recall(key, /** @type {import("./walk.js").Kept|undefined} */ (undefined));
  document.documentElement.dataset.dim = String(recall(DIM, 3));
  playing.board.set(stops, kept ? keptIn(kept, stops) : START);
  show(
    place,
    el("h2", { text: "The stand" }),
    el("p", { class: "soft", text: "Each tap goes on: in a rest bar by bar, in music to the next thing that happens; a vamp is held until you tap. Page down, right, down, space or Enter of a keyboard or a foot pedal go on; page up, left, up go back." }),
    placeForm(playing.board, "front"),
    chooseDim(),
    button("Set it up", () => playing.begin(), { class: "btn btn-main btn-large", id: "stand-begin" }),
  );
}

start();
