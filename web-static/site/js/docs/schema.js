/** A JSON Schema to be read: what each key is, what may stand there. */

import { el } from "../core/dom.js";
import { at, entries, list, text } from "./json.js";
import { inline } from "./prose.js";

/** @typedef {import("./json.js").Json} Json */

const LIMITS = [
  ["minimum", "at least", ""],
  ["exclusiveMinimum", "more than", ""],
  ["maximum", "at most", ""],
  ["minLength", "at least", " letters"],
  ["maxLength", "at most", " letters"],
  ["minItems", "at least", " of them"],
  ["maxItems", "at most", " of them"],
  ["pattern", "as", ""],
];

/**
 * Where a reference leads: in this page, or in the page of the formats.
 *
 * @param {string} ref
 * @param {string} format the format whose schema it stands in, if any
 */
function link(ref, format) {
  const [file = "", inside = ""] = ref.split("#");
  const steps = inside.split("/").filter((step) => step && step !== "$defs" && step !== "components" && step !== "schemas");
  const of = /([\w-]+)\.json$/.exec(file)?.[1] ?? format;
  if (of) return { to: `/docs/formats.html#${[of, ...steps.slice(0, 1)].join("-")}`, says: steps.filter((step) => step !== "properties").join(" ") || of.replace(/-(\d+)$/, "/$1") };
  return { to: `#body-${steps[0] ?? ""}`, says: steps[0] ?? ref };
}

/**
 * @param {Json|undefined} schema
 * @param {string} format
 * @returns {(Node|string)[]} what may stand there, in a few words
 */
export function kind(schema, format) {
  const ref = text(at(schema, "$ref"));
  if (ref) {
    const { to, says } = link(ref, format);
    return [el("a", { href: to, text: says })];
  }
  for (const branch of ["oneOf", "anyOf", "allOf"]) {
    const all = list(at(schema, branch)).filter((one) => text(at(one, "$ref")) || at(one, "type"));
    if (all.length > 0) return all.flatMap((one, i) => [i === 0 ? "" : branch === "allOf" ? " and " : " or ", ...kind(one, format)]);
  }
  const constant = at(schema, "const");
  if (constant !== undefined) return [el("code", { text: JSON.stringify(constant) })];
  const words = list(at(schema, "enum"));
  if (words.length > 0) return words.flatMap((word, i) => [i === 0 ? "" : i === words.length - 1 ? " or " : ", ", el("code", { text: JSON.stringify(word) })]);
  const type = at(schema, "type");
  const names = Array.isArray(type) ? type.map(text).join(" or ") : text(type);
  if (names === "array") return ["list of ", ...kind(at(schema, "items"), format)];
  if (names === "object" && typeof at(schema, "additionalProperties") === "object") return ["object, each key: ", ...kind(at(schema, "additionalProperties"), format)];
  return [names || "anything"];
}

/** @param {Json|undefined} schema */
function limits(schema) {
  const said = LIMITS.flatMap(([key = "", words = "", of = ""]) => (at(schema, key) === undefined ? [] : [`${words} ${String(at(schema, key))}${of}`]));
  const format = text(at(schema, "format"));
  return [...said, ...(format ? [format] : [])].join("; ");
}

/** @param {Json|undefined} schema */
export function examples(schema) {
  const given = list(at(schema, "examples"));
  if (given.length === 0) return null;
  const small = given.every((one) => JSON.stringify(one).length < 60);
  if (small) return el("span", { class: "soft" }, " For instance ", given.flatMap((one, i) => [i === 0 ? "" : ", ", el("code", { text: JSON.stringify(one) })]), ".");
  return el("details", { class: "fold" }, el("summary", { text: "Example" }), given.map((one) => el("pre", {}, el("code", { text: JSON.stringify(one, null, 2) }))));
}

/**
 * The schema with keys of its own: itself, or what a list or map holds.
 *
 * @param {Json|undefined} schema
 * @returns {Json|undefined}
 */
function holder(schema) {
  if (at(schema, "properties")) return schema;
  const items = at(schema, "items") ?? at(schema, "additionalProperties");
  return typeof items === "object" ? holder(items) : list(at(schema, "allOf")).find((one) => at(one, "properties"));
}

/**
 * @param {Json|undefined} schema
 * @param {string} [format] the format it is of; none in the description of the service
 * @returns {HTMLElement|null} its keys, one below the other
 */
export function keys(schema, format = "") {
  const inner = holder(schema);
  if (!inner) return null;
  const needed = list(at(inner, "required"));
  return el(
    "ul",
    { class: "keys" },
    entries(at(inner, "properties")).map(([name, one]) => {
      const described = text(at(one, "description"));
      const limit = limits(one);
      return el(
        "li",
        {},
        el("code", { class: "key", text: name }),
        needed.includes(name) ? el("span", { class: "chip", text: "always" }) : null,
        el("span", { class: "soft" }, " ", kind(one, format), limit ? `; ${limit}` : ""),
        described ? el("span", { class: "block" }, inline(described)) : null,
        examples(one),
        keys(one, format),
      );
    }),
  );
}
