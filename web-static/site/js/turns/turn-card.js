import { cropPath } from "../core/api.js";
import { el } from "../core/dom.js";
import { count } from "../core/words.js";
import { againText, gapText, tempoLink, turnKey, verdictChip } from "../shared/turn.js";
import { unsureText } from "./head.js";

/** @typedef {import("../core/types.js").Turn} Turn */
/** @typedef {import("./names.js").BarNames} BarNames */

/**
 * @param {Turn} turn
 * @param {Turn|undefined} printed the same turn as the book is printed
 * @param {boolean} changed whether any change counts
 * @param {BarNames} names
 */
function gaps(turn, printed, changed, names) {
  const same = printed && printed.verdict === turn.verdict && gapText(printed.gap) === gapText(turn.gap) && printed.leaves === turn.leaves && printed.arrives === turn.arrives;
  const free = turn.free ? el("span", { class: "soft block small", text: turn.free }) : null;
  if (!changed || same) {
    return el("p", { class: "gap" }, el("b", { text: gapText(turn.gap) }), free, changed ? el("span", { class: "soft block small", text: "the same as printed" }) : null);
  }
  return el(
    "dl",
    { class: "gaps" },
    el("div", {}, el("dt", { text: "As printed" }), el("dd", {}, printed ? `${gapText(printed.gap)}, after ${names.short(printed.leaves)}` : "this turn is not there", printed ? verdictChip(printed.verdict) : null)),
    el("div", {}, el("dt", { text: "With the changes" }), el("dd", {}, el("b", { text: gapText(turn.gap) }), `after ${names.short(turn.leaves)}`, free)),
  );
}

/**
 * One page turn: how much time there is, what to do, what comes first after it.
 *
 * @param {Turn} turn
 * @param {{book: string, names: BarNames, printed?: Turn, changed: boolean}} here
 */
export function turnCard(turn, { book, names, printed, changed }) {
  const back = turn.direction === "back";
  const said = againText(turn);
  const sheets = turn.sheets ?? 1;
  const [first, ...others] = turn.advice;
  const pageId = names.pageId(turn.toPage);
  const crop = pageId
    ? el("img", { class: "crop", src: cropPath(book, pageId, turn.arrives, 900, 3), alt: `Page ${turn.toPage} from ${names.short(turn.arrives)}`, loading: "lazy" })
    : null;
  crop?.addEventListener("error", () => crop.remove());
  return el(
    "li",
    { class: `card turn turn-${turn.verdict}`, "data-turn": turnKey(turn) },
    el(
      "div",
      { class: "row between" },
      el("h2", { text: `${back ? "Back from" : "From"} page ${turn.fromPage} to ${turn.toPage}${turn.pass > 1 ? `, pass ${turn.pass}` : ""}` }),
      verdictChip(turn.verdict),
    ),
    el("p", { class: "soft small", text: `After ${names.long(turn.leaves)}${sheets > 1 ? ` · ${sheets} leaves at once` : ""}${turn.mark ? ` · write “${turn.mark}”` : ""}` }),
    said ? el("p", { class: "turn-again", text: `${said.charAt(0).toUpperCase()}${said.slice(1)}.` }) : null,
    gaps(turn, printed, changed, names),
    tempoLink(turn, book, names.begins(turn.leaves)),
    turn.because ? el("p", { class: "soft small", text: `Not known: ${turn.because}.` }) : null,
    first ? el("p", { class: "advice" }, first.text) : null,
    unsureText(turn.unsure),
    others.length
      ? el("details", { class: "more" }, el("summary", { text: `${count(others.length, "other way", "other ways")}` }), el("ul", {}, others.map((a) => el("li", { text: a.text }))))
      : null,
    crop ? el("figure", {}, crop, el("figcaption", { class: "soft small", text: `First after the turn: ${names.long(turn.arrives)}` })) : null,
  );
}
