import { button, el } from "../core/dom.js";
import { leave } from "../core/held.js";
import { icon, signButton } from "../core/icons.js";
import { CONTENT, ENCLOSURE, ORIGIN, METERS, METER_HINT, MOST_FIFTHS, barName, count, keyText, meterSaid, numberName } from "../core/words.js";
import { choice, group, refuse, stepper, textLine } from "./fields.js";
import { barlineGroup, signGroup } from "./sign-form.js";
import { BEATS, tempoAt, withTempo, wordsOf } from "./tempo.js";

/** @typedef {import("../core/types.js").Bar} Bar */
/** @typedef {(correction: import("../core/types.js").Correction) => void} Correct */

/** Beats a minute nobody goes under or over. */
const SLOWEST = 20;
const FASTEST = 400;


/** @param {Bar} bar */
function sure(bar) {
  const how = ORIGIN[bar.origin] ?? bar.origin;
  return bar.origin === "read" || bar.origin === "inferred" ? `${how}, ${Math.round(bar.confidence * 100)} % sure` : how;
}

/**
 * @param {Bar} bar
 * @param {Correct} correct
 */
function contentGroup(bar, correct) {
  const rest = bar.content === "multi-rest" || bar.content === "rest";
  return group(
    "In this bar",
    choice(Object.entries(CONTENT), bar.content, (content) => {
      const many = content === "multi-rest" ? Math.max(2, bar.count) : 1;
      correct({ kind: "set-content", bar: bar.id, content, count: many });
    }),
    rest
      ? el(
          "div",
          { class: "count-row" },
          el("span", { class: "count-label", text: "Bars of rest" }),
          stepper({
            id: "rest-count", label: "Bars of rest", value: bar.count, min: 1, max: 999,
            set: (n) => correct(restCount(bar, n)),
          }),
        )
      : null,
  );
}

/**
 * Setting a number on a rest makes it the right kind of rest.
 *
 * @param {Bar} bar
 * @param {number} n
 * @returns {import("../core/types.js").Correction}
 */
export function restCount(bar, n) {
  if (bar.content === "multi-rest" && n > 1) return { kind: "set-count", bar: bar.id, count: n };
  return { kind: "set-content", bar: bar.id, content: n > 1 ? "multi-rest" : "rest", count: n };
}

/**
 * @param {Bar} bar
 * @param {Correct} correct
 * @param {(run: string) => void} act
 */
function markGroup(bar, correct, act) {
  const mark = bar.rehearsal;
  const set = (/** @type {string} */ text, /** @type {string} */ enclosure) =>
    correct({ kind: "set-rehearsal", bar: bar.id, text, enclosure });
  return group(
    "Rehearsal mark",
    textLine({
      id: "mark", label: "Rehearsal mark", hint: "A, B, 17 …", value: mark?.text ?? "",
      set: (text) => set(text, mark?.enclosure ?? "box"),
      clear: () => correct({ kind: "remove-rehearsal", bar: bar.id }),
    }),
    mark ? choice(Object.entries(ENCLOSURE), mark.enclosure, (enclosure) => set(mark.text, enclosure)) : null,
    mark
      ? el(
          "div",
          { class: "choice" },
          button("A bar back", () => act("mark-back"), { class: "btn", id: "mark-back" }, icon("left")),
          button("A bar on", () => act("mark-on"), { class: "btn", id: "mark-on" }, icon("right")),
        )
      : null,
  );
}

/**
 * @param {Bar} bar
 * @param {Correct} correct
 */
function meterGroup(bar, correct) {
  const now = bar.meter ? `${bar.meter.beats}/${bar.meter.unit}` : undefined;
  const input = el("input", { id: "meter", value: bar.meter?.printed ? now ?? "" : "", placeholder: now ? `goes on in ${now}` : "4/4", "aria-label": "Time signature drawn at this bar", list: "meters", autocomplete: "off" });
  const take = () => {
    const found = meterSaid(input.value);
    refuse(input, found || !input.value.trim() ? "" : METER_HINT);
    if (found) correct({ kind: "set-meter", bar: bar.id, ...found });
  };
  input.addEventListener("change", take);
  input.addEventListener("keydown", (event) => {
    if (event.key === "Enter") leave();
  });
  return group(
    "Time signature drawn here",
    el(
      "div",
      { class: "text-line" },
      input,
      el("datalist", { id: "meters" }, METERS.map((m) => el("option", { value: m }))),
      bar.meter?.printed ? signButton("bin", "Take away", () => correct({ kind: "remove-meter", bar: bar.id }), { "aria-label": "Time signature: take away" }) : null,
    ),
  );
}

/**
 * @param {Bar} bar
 * @param {Correct} correct
 */
function keyGroup(bar, correct) {
  const drawn = bar.key?.printed ? bar.key.fifths : undefined;
  const goesOn = !bar.key ? "Not known" : drawn === undefined ? `None drawn: still ${keyText(bar.key.fifths)}` : "None drawn";
  const keys = Array.from({ length: 2 * MOST_FIFTHS + 1 }, (_, i) => i - MOST_FIFTHS);
  const select = el(
    "select",
    { id: "key", "aria-label": "Key signature drawn at this bar" },
    el("option", { value: "", text: goesOn }),
    keys.map((fifths) => el("option", { value: String(fifths), text: keyText(fifths) })),
  );
  select.value = drawn === undefined ? "" : String(drawn);
  select.addEventListener("change", () =>
    correct(select.value === "" ? { kind: "remove-key", bar: bar.id } : { kind: "set-key", bar: bar.id, fifths: Number(select.value) }),
  );
  return group("Key signature drawn here", select);
}

/**
 * How fast it goes from this bar on: a metronome mark among its words.
 *
 * @param {Bar} bar
 * @param {Correct} correct
 */
function tempoGroup(bar, correct) {
  const now = tempoAt(bar);
  const beat = el("select", { id: "tempo-beat", "aria-label": "Which note the tempo counts" }, BEATS.map(([value, text]) => el("option", { value, text })));
  const figure = el("input", { id: "tempo", inputmode: "decimal", value: now ? String(now.figure) : "", placeholder: "a minute", "aria-label": "Tempo from this bar on, a minute", autocomplete: "off", maxlength: 6 });
  beat.value = now?.beat ?? (bar.meter?.unit === 8 && bar.meter.beats % 3 === 0 ? "♩." : bar.meter?.unit === 2 ? "half" : "♩");
  const take = () => {
    const text = figure.value.trim().replace(",", ".");
    const wanted = Number(text);
    const right = text === "" || (wanted >= SLOWEST && wanted <= FASTEST);
    refuse(figure, right ? "" : `A figure from ${SLOWEST} to ${FASTEST}.`);
    if (text === "") {
      if (now) correct({ kind: "set-words", bar: bar.id, words: withTempo(bar, beat.value, undefined) });
    } else if (right) correct({ kind: "set-words", bar: bar.id, words: withTempo(bar, beat.value, wanted) });
  };
  figure.addEventListener("change", take);
  figure.addEventListener("keydown", (event) => {
    if (event.key === "Enter") leave();
  });
  beat.addEventListener("change", () => {
    if (figure.value.trim()) take();
  });
  return group("Tempo from here", el("div", { class: "tempo-line" }, beat, el("span", { "aria-hidden": "true", text: "=" }), figure));
}

/**
 * @param {Bar} bar
 * @param {Correct} correct
 */
function numberGroup(bar, correct) {
  return group(
    "Bar number",
    stepper({ id: "bar-number", label: "Bar number", value: bar.number, min: 0, max: 9999, set: (number) => correct({ kind: "set-number", bar: bar.id, number }) }),
    textLine({
      id: "bar-label", label: "What it is called, if not by its number", hint: "24A, if it is called so", value: bar.label ?? "",
      set: (label) => correct({ kind: "set-label", bar: bar.id, label }),
      clear: () => correct({ kind: "set-label", bar: bar.id, label: "" }),
    }),
  );
}

/**
 * Beats without notes at the sides of a bar of music; a turn can be made in them.
 *
 * @param {Bar} bar
 * @param {Correct} correct
 */
function freeGroup(bar, correct) {
  const side = (/** @type {"start"|"end"} */ name, /** @type {string} */ label, /** @type {number|undefined} */ value) =>
    el(
      "div",
      { class: "count-row" },
      el("span", { class: "count-label", text: label }),
      stepper({
        id: `free-${name}`, label: `Beats free ${label.toLowerCase()}`, value, min: 0, max: 99, by: 0.5,
        set: (beats) => correct({ kind: "set-silence", bar: bar.id, side: name, beats }),
        clear: () => correct({ kind: "set-silence", bar: bar.id, side: name }),
      }),
    );
  const note = bar.meter ? `Counted as the ${bar.meter.beats}/${bar.meter.unit} counts. ` : "";
  return group(
    "Beats free in this bar",
    side("start", "Before its first note", bar.silentStart),
    side("end", "After its last note", bar.silentEnd),
    el("p", { class: "field-hint", text: `${note}Turns use them. Leave it empty when you don't know.` }),
  );
}

/** @param {Bar} bar @returns {string} what a folded part says of its free beats */
function freeSaid(bar) {
  const said = (/** @type {number|undefined} */ n) => (n === undefined ? "?" : String(n));
  return bar.silentStart === undefined && bar.silentEnd === undefined ? "" : `${said(bar.silentStart)} before, ${said(bar.silentEnd)} after`;
}

/**
 * @param {Bar} bar
 * @param {Correct} correct
 */
function wordGroup(bar, correct) {
  const words = (bar.words ?? []).map((word) => word.text);
  const area = el("textarea", { id: "words", rows: 2, "aria-label": "Words at this bar, one a line", value: words.join("\n") });
  area.addEventListener("change", () =>
    correct({ kind: "set-words", bar: bar.id, words: wordsOf(bar, area.value.split("\n")) }),
  );
  return group("Words at this bar", area);
}

/**
 * @param {Bar} bar
 * @param {import("../core/types.js").MusicalNumber|undefined} number that starts here
 * @param {Correct} correct
 */
function startGroup(bar, number, correct) {
  const label = el("input", { id: "number-label", value: number?.label ?? "", maxlength: 20, "aria-label": "Number", placeholder: "7" });
  const title = el("input", { id: "number-title", value: number?.title ?? "", maxlength: 120, "aria-label": "Title", placeholder: "Title" });
  const take = () => {
    if (label.value.trim()) correct({ kind: "start-number", bar: bar.id, label: label.value.trim(), title: title.value.trim() });
    else label.focus();
  };
  for (const field of [label, title]) {
    field.addEventListener("keydown", (event) => {
      if (event.key !== "Enter") return;
      leave();
      take();
    });
  }
  return group(
    number ? `${numberName(number)} starts here` : "A musical number starts here",
    el("div", { class: "start-number" }, label, title),
    el(
      "div",
      { class: "choice" },
      button(number ? "Keep the change" : "It starts here", take, { class: "btn" }),
      button("A tacet number comes before it", () => {
        if (label.value.trim() && label.value.trim() !== number?.label) correct({ kind: "add-tacet-number", before: bar.id, label: label.value.trim(), title: title.value.trim() });
        else label.focus();
      }, { class: "btn" }),
      number ? button("It doesn't start here", () => correct({ kind: "remove-number", bar: bar.id }), { class: "btn" }) : null,
    ),
  );
}

/**
 * Everything that can be said about one bar.
 *
 * @param {Bar} bar
 * @param {{number?: import("../core/types.js").MusicalNumber, starts?: import("../core/types.js").MusicalNumber}} where
 * @param {Correct} correct
 * @param {{add: () => void, removeLine: () => void, act: (run: string) => void}} tools
 * @param {Set<string>} open names of the folded parts that are open
 */
export function barForm(bar, where, correct, tools, open) {
  const fold = (/** @type {string} */ name, /** @type {Node[]} */ content, said = "") => {
    const summary = el("summary", {}, name, said ? el("span", { class: "soft small fold-said", text: said }) : null);
    const details = el("details", { class: "fold", "data-fold": name, open: open.has(name) }, summary, content);
    details.addEventListener("toggle", () => (details.open ? open.add(name) : open.delete(name)));
    return details;
  };
  return el(
    "div",
    { class: "bar-form", "data-bar": bar.id },
    el("h2", { class: "bar-title", text: bar.count > 1 ? `Bars ${barName(bar)}` : `Bar ${barName(bar)}` }),
    el("p", { class: "soft small", text: [where.number ? numberName(where.number) : "", bar.count > 1 ? count(bar.count, "bar") : "", sure(bar)].filter(Boolean).join(" · ") }),
    contentGroup(bar, correct),
    markGroup(bar, correct, tools.act),
    meterGroup(bar, correct),
    keyGroup(bar, correct),
    tempoGroup(bar, correct),
    bar.content === "music" ? fold("Free beats", [freeGroup(bar, correct)], freeSaid(bar)) : null,
    fold("Barlines", [barlineGroup(bar, correct, tools)]),
    fold("Bar number", [numberGroup(bar, correct)]),
    fold("Signs, endings, repeats", [signGroup(bar, correct)]),
    fold("Words and musical numbers", [wordGroup(bar, correct), startGroup(bar, where.starts, correct)]),
  );
}
