/** The page that shows the formats as their schemas describe them. */

import { el, need, show } from "../core/dom.js";
import { at, entries, load, text } from "./json.js";
import { inline, paragraphs } from "./prose.js";
import { examples, keys, kind } from "./schema.js";

const FORMATS = ["barmap-1", "changes-1", "barplan-1", "barpack-1"];

/** @param {string} name */
async function format(name) {
  const schema = await load(`/schemas/${name}.json`);
  const parts = entries(at(schema, "$defs"));
  return el("section", { id: name },
    el("h2", { text: text(at(schema, "title")) }),
    paragraphs(text(at(schema, "description"))),
    el("p", {}, el("a", { href: `/schemas/${name}.json`, text: `/schemas/${name}.json` })),
    keys(schema, name),
    examples(schema),
    parts.map(([part, one]) => el("details", { class: "route", id: `${name}-${part}` },
      el("summary", {}, el("b", { class: "route-path", text: part }), el("span", { class: "route-says" }, inline(text(at(one, "description"))))),
      el("div", { class: "route-body" }, at(one, "properties") ? null : el("p", {}, kind(one, name)), keys(one, name), examples(one)))));
}

/** Opens what the address names. */
function unfold() {
  const named = document.getElementById(location.hash.slice(1));
  if (named instanceof HTMLDetailsElement) named.open = true;
  named?.scrollIntoView();
}

const room = need("#formats");
try {
  show(room, await Promise.all(FORMATS.map(format)));
  addEventListener("hashchange", unfold);
  if (location.hash) unfold();
} catch (error) {
  show(room, el("p", { text: `The formats could not be loaded: ${error instanceof Error ? error.message : String(error)}` }));
}
