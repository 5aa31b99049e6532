/** The page that shows every route as `openapi.json` describes it. */

import { el, need, show } from "../core/dom.js";
import { at, entries, list, load, text } from "./json.js";
import { inline, paragraphs } from "./prose.js";
import { examples, keys, kind } from "./schema.js";

/** @typedef {import("./json.js").Json} Json */
/** @typedef {{method: string, path: string, node: Json, shared: Json[]}} Route */

const METHODS = ["get", "post", "put", "patch", "delete"];

/**
 * @param {Json} all
 * @param {Json|undefined} node
 * @returns {Json|undefined} what stands there, or where it refers to
 */
function resolved(all, node) {
  const ref = text(at(node, "$ref"));
  return ref.startsWith("#/") ? at(all, ...ref.slice(2).split("/")) : node;
}

/**
 * @param {Json} all
 * @param {string} where
 * @returns {Route[]}
 */
function routes(all, where) {
  return entries(at(all, where)).flatMap(([path, item]) =>
    METHODS.flatMap((method) => {
      const node = at(item, method);
      return node === undefined ? [] : [{ method: method.toUpperCase(), path, node, shared: list(at(item, "parameters")) }];
    }),
  );
}

/**
 * @param {Json} all
 * @param {Route} route
 */
function parameters(all, { node, shared }) {
  const said = [...shared, ...list(at(node, "parameters"))].map((one) => resolved(all, one));
  if (said.length === 0) return null;
  const places = new Map([["path", "in the address"], ["query", "behind ?"], ["header", "header"]]);
  const rows = said.map((one) =>
    el("tr", {},
      el("td", {}, el("code", { text: text(at(one, "name")) }), at(one, "required") === true ? el("span", { class: "chip", text: "always" }) : null),
      el("td", { class: "soft", text: places.get(text(at(one, "in"))) ?? "" }),
      el("td", {}, inline(text(at(one, "description"))), el("span", { class: "soft" }, " ", kind(at(one, "schema"), "")), at(one, "example") === undefined ? null : [" ", el("code", { text: String(at(one, "example")) })])));
  return el("div", { class: "docs-table" }, el("table", {}, el("tbody", {}, rows)));
}

/** @param {Json|undefined} owner what has contents: a body, an answer */
function contents(owner) {
  return entries(at(owner, "content")).map(([type, media]) => {
    const schema = at(media, "schema");
    const example = at(media, "example");
    return el("div", {},
      el("p", {}, el("code", { text: type }), schema ? el("span", { class: "soft" }, " ", kind(schema, "")) : null),
      keys(schema),
      examples(schema),
      example === undefined ? null : el("pre", {}, el("code", { text: JSON.stringify(example, null, 2) })));
  });
}

/**
 * @param {Json} all
 * @param {[string, Json]} answer
 */
function answered(all, [status, said]) {
  const one = resolved(all, said);
  const problem = at(one, "content", "application/problem+json", "schema", "allOf");
  const codes = list(at(list(problem)[1], "properties", "code", "enum"));
  const heads = entries(at(one, "headers")).map(([name]) => name);
  return el("tr", {},
    el("td", {}, el("b", { text: status })),
    el("td", {},
      inline(text(at(one, "description"))),
      codes.map((code) => [" ", el("code", { text: String(code) })]).flat(),
      heads.length > 0 ? el("span", { class: "soft block small", text: `with ${heads.join(", ")}` }) : null,
      codes.length > 0 ? null : contents(one)));
}

/**
 * @param {Json} all
 * @param {Route} route
 */
function section(all, route) {
  const { method, path, node } = route;
  const body = at(node, "requestBody");
  return el("details", { class: "route", id: text(at(node, "operationId")) },
    el("summary", {},
      el("span", { class: "method", text: method }),
      el("code", { class: "route-path", text: path }),
      el("span", { class: "route-says", text: text(at(node, "summary")) })),
    el("div", { class: "route-body" },
      paragraphs(text(at(node, "description"))),
      parameters(all, route),
      body ? [el("h4", { text: "What is sent" }), el("p", {}, inline(text(at(body, "description")))), ...contents(body)] : null,
      el("h4", { text: "What is answered" }),
      el("div", { class: "docs-table" }, el("table", {}, el("tbody", {}, entries(at(node, "responses")).map((one) => answered(all, one)))))));
}

/** @param {Json} all */
function page(all) {
  const every = [...routes(all, "paths"), ...routes(all, "webhooks")];
  const tags = list(at(all, "tags"));
  const id = (/** @type {string} */ name) => `part-${name.toLowerCase().replaceAll(" ", "-")}`;
  const bodies = entries(at(all, "components", "schemas"));
  return [
    ...paragraphs(text(at(all, "info", "description"))),
    el("label", { class: "field docs-find" }, el("span", { class: "field-label", text: "Find" }), el("input", { type: "search", placeholder: "plan, editions, If-Match" })),
    el("nav", { class: "row docs-parts", "aria-label": "Parts" }, tags.map((tag) => el("a", { class: "chip", href: `#${id(text(at(tag, "name")))}`, text: text(at(tag, "name")) })), el("a", { class: "chip", href: "#bodies", text: "Bodies" })),
    ...tags.map((tag) => {
      const name = text(at(tag, "name"));
      return el("section", { id: id(name) },
        el("h2", { text: name }),
        el("p", { class: "soft" }, inline(text(at(tag, "description")))),
        every.filter(({ node }) => list(at(node, "tags")).includes(name)).map((route) => section(all, route)));
    }),
    el("section", { id: "bodies" },
      el("h2", { text: "Bodies" }),
      bodies.map(([name, schema]) => el("details", { class: "route", id: `body-${name}` },
        el("summary", {}, el("b", { class: "route-path", text: name }), el("span", { class: "route-says" }, inline(text(at(schema, "description"))))),
        el("div", { class: "route-body" }, at(schema, "properties") ? null : el("p", {}, kind(schema, "")), keys(schema), examples(schema))))),
  ];
}

/**
 * Shows what has all the words somewhere in it.
 *
 * @param {string} said
 */
function find(said) {
  const words = said.toLowerCase().split(/\s+/);
  for (const route of document.querySelectorAll(".route")) {
    const has = (route.textContent ?? "").toLowerCase();
    route.toggleAttribute("hidden", !words.every((word) => has.includes(word)));
  }
  for (const part of document.querySelectorAll("main section")) part.toggleAttribute("hidden", !part.querySelector(".route:not([hidden])"));
}

/** Opens what the address names. */
function unfold() {
  const named = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (named instanceof HTMLDetailsElement) named.open = true;
  named?.scrollIntoView();
}

const room = need("#routes");
try {
  show(room, page(await load("/openapi.json")));
  const said = need(".docs-find input");
  if (said instanceof HTMLInputElement) said.addEventListener("input", () => find(said.value));
  addEventListener("hashchange", unfold);
  if (location.hash) unfold();
} catch (error) {
  show(room, el("p", { text: `The description could not be loaded: ${error instanceof Error ? error.message : String(error)}` }));
}
