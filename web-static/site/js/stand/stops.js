import { count, duration, inHand, meterText, numberName } from "../core/words.js";
import { barSteps } from "../shared/steps.js";

/**
 * The night as places where a player waits for the next thing: bars to play up to the next event, a
 * rest that is counted, a vamp that is held. Pure: the plan and the map in, the stops out.
 *
 * @typedef {import("../core/types.js").Plan} Plan
 * @typedef {import("../core/types.js").Turn} Turn
 * @typedef {import("../core/types.js").InstrumentChange} InstrumentChange
 * @typedef {import("../core/types.js").OpenStretch} OpenStretch
 * @typedef {import("../core/types.js").RunSheetLine} RunSheetLine
 * @typedef {import("../core/types.js").PlannedNumber} PlannedNumber
 * @typedef {import("../core/types.js").Bar} Bar
 * @typedef {import("../shared/steps.js").BarStep} BarStep
 *
 * @typedef {object} Stop
 * @property {"ready"|"music"|"rest"|"vamp"|"safety"|"tacet"|"end"} kind
 * @property {number} night which number of the night, 0 for the first
 * @property {string} label of the number
 * @property {string} name "No. 4 A Boat for the Widow"
 * @property {string} how how it follows the one before it: "attacca", "applause, then"
 * @property {string[]} bars each single bar as a player calls it
 * @property {string[]} entries id of the entry each single bar is of
 * @property {boolean} silent no bar of it has notes for this player
 * @property {number} pass which time its first bar is played
 * @property {string} mark rehearsal mark it begins at
 * @property {number} page 0 where there is none
 * @property {string} jump where it comes from another place than the bar before: "back to 9"
 * @property {string[]} notes what to know in it
 * @property {{after: number, what: string, named: boolean}[]} marks inside a rest: bars of rest before each, and whether it is a rehearsal mark
 * @property {OpenStretch} [open] how it is left
 * @property {{after: number, turn: Turn}[]} turns how many of its bars come before each
 * @property {{after: number, change: InstrumentChange}[]} changes what is taken up in it, and how many of its bars come before
 * @property {number} [seconds] how long it lasts, where every bar of it has a tempo
 */

/** @type {Record<string, string>} how the next number follows, by the plan's word */
const LINK = {
  attacca: "attacca",
  "segue-as-one": "segue as one",
  segue: "segue, on the cue",
  "applause-segue": "after the applause",
  break: "after a break",
};

/** A number that comes so follows without time for a tap. */
const AT_ONCE = ["attacca", "segue-as-one"];

/** What a stop says anyway need not be said again. */
const SAID = ["entrance", "turn", "hands", "page-start"];

/**
 * @param {Plan} plan
 * @param {import("../core/types.js").BarMap} map
 * @returns {Stop[]}
 */
export function stopsOf(plan, map) {
  const night = new Night(plan, map);
  for (const line of lines(plan)) night.add(line);
  return night.end();
}

/** @param {Plan} plan @returns {{label: string, title: string, state: string, line?: RunSheetLine}[]} the numbers as they come tonight */
function lines(plan) {
  if (plan.runSheet?.length) return plan.runSheet.map((line) => ({ label: line.number, title: line.title, state: line.state, line }));
  return plan.numbers.map((n) => ({ label: n.label, title: n.title ?? "", state: n.state ?? "played" }));
}

class Night {
  /** @type {Stop[]} */
  #stops = [];
  #plan;
  #bars;
  /** @type {Map<string, number>} */
  #places;
  /** @type {Map<string, PlannedNumber[]>} */
  #numbers = new Map();
  /** @type {Map<string, string[]>} by id of the bar entry */
  #notes = new Map();
  /** @type {string[]} numbers that are out, before the next one */
  #out = [];
  /** @type {PlannedNumber["following"]} how the next number follows the last one */
  #link;
  #count = 0;

  /**
   * @param {Plan} plan
   * @param {import("../core/types.js").BarMap} map
   */
  constructor(plan, map) {
    this.#plan = plan;
    this.#bars = new Map(map.bars.map((b) => [b.id, b]));
    this.#places = new Map(map.bars.map((b, i) => [b.id, i]));
    for (const n of plan.numbers) this.#numbers.set(n.label, [...(this.#numbers.get(n.label) ?? []), n]);
    const said = [...(plan.traps ?? []), ...(plan.lookAhead ?? [])].filter((t) => !SAID.includes(t.kind));
    for (const { bar, text } of said) this.#note(bar, text);
    for (const { at, text } of plan.notes ?? []) if (at) this.#note(at, text);
  }

  /**
   * @param {string} bar
   * @param {string} text
   */
  #note(bar, text) {
    this.#notes.set(bar, [...(this.#notes.get(bar) ?? []), text]);
  }

  /** @param {ReturnType<typeof lines>[number]} number */
  add({ label, title, state, line }) {
    const name = numberName({ label, title });
    if (state === "cut") {
      this.#out.push(name);
      return;
    }
    const sameLabel = this.#numbers.get(label) ?? [];
    const planned = sameLabel.length > 1 ? sameLabel.shift() : sameLabel[0];
    const steps = barSteps(planned, this.#bars);
    const how = this.#how();
    const whole = { night: this.#count++, label, name, how };
    const atOnce = AT_ONCE.includes(this.#link?.link ?? "") && this.#out.length === 0;
    if (state === "tacet" || steps.length === 0) {
      this.#stops.push({ ...EMPTY, ...whole, kind: "tacet", notes: this.#before() });
    } else {
      if (!atOnce) this.#stops.push({ ...EMPTY, ...whole, kind: "ready", page: steps[0].page, notes: [...this.#before(), ...openingText(line)] });
      const cut = new Cutting(steps, this.#plan, label, planned?.open ?? [], this.#places);
      for (const stop of cut.stops()) this.#stops.push({ ...stop, ...whole, notes: [...(atOnce && stop.from === 0 ? openingText(line) : []), ...this.#notesIn(stop)] });
    }
    this.#link = planned?.following ?? (line ? { link: line.link } : undefined);
    this.#out = [];
  }

  /** @returns {Stop[]} */
  end() {
    const last = this.#stops[this.#stops.length - 1];
    this.#stops.push({ ...EMPTY, kind: "end", night: Math.max(0, this.#count - 1), label: last?.label ?? "", name: "The end", notes: this.#before() });
    return this.#stops;
  }

  #how() {
    const said = LINK[this.#link?.link ?? ""] ?? "";
    return [said, this.#link?.cue ? `cue: ${this.#link.cue}` : "", this.#link?.seconds ? duration(this.#link.seconds) : ""].filter(Boolean).join(", ");
  }

  #before() {
    return this.#out.length ? [`Out tonight: ${this.#out.join(", ")}`] : [];
  }

  /** @param {Stop} stop */
  #notesIn(stop) {
    const ids = [...new Set(stop.entries)];
    return [...new Set(ids.flatMap((id) => this.#notes.get(id) ?? []))];
  }
}

/** @type {Stop} */
const EMPTY = { kind: "end", night: 0, label: "", name: "", how: "", bars: [], entries: [], silent: true, pass: 1, mark: "", page: 0, jump: "", notes: [], marks: [], turns: [], changes: [] };

/** @param {RunSheetLine|undefined} line what is needed to begin a number */
function openingText(line) {
  const opening = line?.opening;
  if (!opening) return [];
  const [beats, unit] = (opening.meter ?? "").split("/").map(Number);
  const shown = opening.beats && opening.beats !== beats ? `in ${opening.beats}` : "";
  const key = line?.key ? `key: ${line.key}` : "";
  const quarters = opening.perMinute ? `a quarter = ${Math.round(opening.perMinute)}` : "";
  const pace = [unit ? meterText({ beats, unit }) : "", shown, quarters, key].filter(Boolean).join(", ");
  const hands = [opening.instrument, inHand(opening.bow ?? ""), opening.mute].filter(Boolean).join(", ");
  return [pace, hands].filter(Boolean);
}

/** Cuts the bars of one number into stops. */
class Cutting {
  #steps;
  #open;
  #places;
  #turns;
  #changes;
  #rests;

  /**
   * @param {BarStep[]} steps
   * @param {Plan} plan
   * @param {string} label
   * @param {OpenStretch[]} open
   * @param {Map<string, number>} places of the bar entries in the book
   */
  constructor(steps, plan, label, open, places) {
    this.#steps = steps;
    this.#places = places;
    /** @type {Map<number, OpenStretch>} by how many bars come before */
    this.#open = new Map(open.flatMap((o) => (o.places ?? []).flatMap(({ from, bars }) => range(from, from + bars).map((i) => /** @type {[number, OpenStretch]} */ ([i, o])))));
    this.#turns = turnPlaces(plan.turns.filter((t) => (t.number ?? label) === label), steps);
    this.#changes = changePlaces(plan.instruments.filter((c) => (c.number ?? label) === label), steps);
    this.#rests = plan.rests.filter((r) => (r.number ?? label) === label);
  }

  /** @returns {(Stop & {from: number})[]} */
  stops() {
    const starts = this.#steps.flatMap((_, i) => (this.#begins(i) ? [i] : []));
    return starts.map((from, k) => this.#stop(from, starts[k + 1] ?? this.#steps.length));
  }

  /** @param {number} i whether something new begins at a bar */
  #begins(i) {
    const [before, now] = [this.#steps[i - 1], this.#steps[i]];
    if (!before || this.#open.get(i) !== this.#open.get(i - 1)) return true;
    if (this.#open.has(i)) return this.#steps[i].entry !== before.entry && this.#isAgain(i);
    if (now.rest !== before.rest) return true;
    if (now.rest) return false;
    return Boolean(now.mark) || now.page !== before.page || this.#changes.has(i) || this.#jump(i) !== "";
  }

  /** @param {number} i whether an open stretch begins another time at a bar */
  #isAgain(i) {
    return (this.#open.get(i)?.places ?? []).some((p) => p.from === i);
  }

  /** @param {number} i how a bar is come to from another place than the one before it; else nothing */
  #jump(i) {
    const [before, now] = [this.#steps[i - 1], this.#steps[i]];
    if (!before || before.entry === now.entry) return "";
    const [from, to] = [this.#places.get(before.bar) ?? 0, this.#places.get(now.bar) ?? 0];
    const again = now.pass > 1 ? `, ${nth(now.pass)} time` : "";
    if (to > from + 1) return `on to ${now.name}${again}`;
    if (to < from || (to === from && now.pass !== before.pass)) return `back to ${now.name}${again}`;
    return "";
  }

  /**
   * @param {number} from
   * @param {number} to
   * @returns {Stop & {from: number}}
   */
  #stop(from, to) {
    const steps = this.#steps.slice(from, to);
    const [first] = steps;
    const open = this.#open.get(from);
    const rest = steps.every((s) => s.rest);
    return {
      ...EMPTY,
      from,
      kind: open ? open.kind : rest ? "rest" : "music",
      bars: steps.map((s) => s.name),
      entries: steps.map((s) => s.bar),
      silent: rest,
      pass: first.pass,
      mark: first.mark,
      page: first.page,
      jump: this.#jump(from),
      marks: rest && !open ? this.#marks(from, steps) : [],
      open,
      turns: this.#turns.filter((t) => t.at >= from && t.at < to).map(({ at, turn }) => ({ after: at - from + 1, turn })),
      changes: [...this.#changes].filter(([at]) => at >= from && at < to).flatMap(([at, all]) => all.map((change) => ({ after: at - from, change }))),
      seconds: secondsOf(steps),
    };
  }

  /**
   * What passes by while a rest is counted: as the plan tells it where it counts the same bars, else the marks.
   *
   * @param {number} from
   * @param {BarStep[]} steps
   */
  #marks(from, steps) {
    const told = this.#rests.find((r) => r.first === steps[0].bar && r.bars === steps.length && this.#steps[from - 1]?.bar !== r.first);
    if (told) return told.landmarks.filter((l) => l.after < steps.length).map(({ after, what, kind }) => ({ after, what, named: kind === "mark" }));
    return steps.flatMap((s, i) => (i > 0 && s.mark ? [{ after: i, what: s.mark, named: true }] : []));
  }
}

/**
 * How long bars last as marked; nothing where one of them has no tempo.
 *
 * @param {BarStep[]} steps
 */
export function secondsOf(steps) {
  let sum = 0;
  for (const step of steps) {
    if (!step.perMinute || !step.toPerMinute) return undefined;
    sum += (60 * step.beats * step.share * 2) / (step.perMinute + step.toPerMinute);
  }
  return sum;
}

/**
 * Where each turn comes in the order of play: after which single bar.
 *
 * @param {Turn[]} turns
 * @param {BarStep[]} steps
 * @returns {{at: number, turn: Turn}[]}
 */
function turnPlaces(turns, steps) {
  /** @type {Set<number>} */
  const taken = new Set();
  return turns.flatMap((turn) => {
    const left = steps.flatMap((s, i) => (s.bar === turn.leaves && steps[i + 1]?.entry !== s.entry && !taken.has(i) ? [i] : []));
    const come = left.filter((i) => (steps[i + 1] ? steps[i + 1].bar === turn.arrives : true));
    // the order of play goes round a vamp once, so that the way back in it is nowhere
    const fits = come.length === 0 && turn.again ? left : come;
    const at = fits.find((i) => steps[i].pass === turn.pass) ?? fits[0];
    if (at === undefined) return [];
    taken.add(at);
    return [{ at, turn }];
  });
}

/**
 * @param {InstrumentChange[]} changes
 * @param {BarStep[]} steps
 * @returns {Map<number, InstrumentChange[]>} by how many bars come before
 */
function changePlaces(changes, steps) {
  /** @type {Map<number, InstrumentChange[]>} */
  const found = new Map();
  for (const change of changes) {
    const fits = steps.flatMap((s, i) => (s.bar === change.at && steps[i - 1]?.entry !== s.entry ? [i] : []));
    const at = fits.find((i) => steps[i].pass === (change.pass ?? 1)) ?? fits[0];
    if (at !== undefined) found.set(at, [...(found.get(at) ?? []), change]);
  }
  return found;
}

/**
 * @param {number} from
 * @param {number} to
 */
function range(from, to) {
  return Array.from({ length: to - from }, (_, i) => from + i);
}

/** @param {number} n "2nd" */
export function nth(n) {
  return `${n}${n % 100 > 10 && n % 100 < 14 ? "th" : (["th", "st", "nd", "rd"][n % 10] ?? "th")}`;
}

/** @param {Stop} stop a stop as what comes next, in a few words */
export function sayStop(stop) {
  const { bars, kind } = stop;
  const span = bars.length > 1 ? `${bars[0]}–${bars[bars.length - 1]}` : (bars[0] ?? "");
  const way = stop.jump ? `${stop.jump}: ` : "";
  const change = stop.changes.map((c) => `, ${inHand(c.change.to)}`).join("");
  switch (kind) {
    case "ready": return [stop.how, stop.name].filter(Boolean).join(": ");
    case "tacet": return [stop.how, `${stop.name}, tacet`].filter(Boolean).join(": ");
    case "end": return "the end";
    case "rest": return `${way}${count(bars.length, "bar")} rest${change}`;
    case "vamp": return `${way}VAMP ${span}`;
    case "safety": return `${way}safety ${span}`;
    default: return `${way}${stop.mark ? `${stop.mark}: ` : ""}play ${span}${change}`;
  }
}
