import { el } from "../core/dom.js";
import { count, duration, knownText, numberName, plain } from "../core/words.js";

/**
 * The night in order: what comes, what is in the hands, when the first note is.
 *
 * @param {import("../core/types.js").RunSheetLine[]} sheet
 */
export function nightList(sheet) {
  if (sheet.length === 0) return el("p", { class: "soft", text: "No musical numbers yet." });
  return el(
    "ol",
    { class: "plain night" },
    sheet.map((line) => {
      const played = line.state === "played";
      const facts = [
        line.page ? `page ${line.page}` : "",
        line.instruments.join(", "),
        line.key ? `starts in ${line.key}` : "",
        duration(line.seconds),
        knownText(line.known),
      ].filter(Boolean);
      const entrance = line.entrance
        ? `First note: ${line.entrance}${line.entranceAfter ? `, after ${count(line.entranceAfter, "bar")} of rest` : ""}.`
        : "";
      return el(
        "li",
        { class: played ? "item" : "item silent" },
        el("b", { text: numberName({ label: line.number, title: line.title }) }),
        played ? null : el("span", { class: "chip", text: plain(line.state) }),
        facts.length ? el("span", { class: "soft", text: facts.join(" · ") }) : null,
        entrance ? el("span", { text: entrance }) : null,
        linkText(line.link) ? el("span", { class: "soft small", text: linkText(line.link) }) : null,
      );
    }),
  );
}

/** @param {string} link how the next number follows; where nothing is known there is nothing to say */
function linkText(link) {
  if (link === "unknown") return "";
  return link === "break" ? "Then: no segue" : `Then: ${link.replace(/-/g, " ")}`;
}

/**
 * What to know before it comes.
 *
 * @param {import("../core/types.js").LookAhead[]} list
 * @param {import("./names.js").BarNames} names
 */
export function aheadList(list, names) {
  if (list.length === 0) return el("p", { class: "soft", text: "Nothing lies in wait." });
  const numbers = [...new Set(list.map((trap) => trap.number))];
  return el(
    "div",
    { class: "ahead" },
    numbers.map((label) =>
      el(
        "section",
        {},
        el("h2", { text: names.number(label) }),
        el(
          "ul",
          { class: "ahead-list" },
          list
            .filter((trap) => trap.number === label)
            .sort((a, b) => names.place(a.bar) - names.place(b.bar))
            .map((trap) => el("li", {}, el("span", { class: "soft small", text: `p. ${trap.page}` }), el("span", { text: trap.text }))),
        ),
      ),
    ),
  );
}
