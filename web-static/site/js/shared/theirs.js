/** @typedef {import("../core/types.js").Align} Align */
/** @typedef {import("../core/types.js").AlignStretch} AlignStretch */

/** @param {{part: string, title: string}} other what a book that lies beside this one is called */
export function partName(other) {
  return other.part || other.title || "the other part";
}

/** What bars are called in the part that lies beside this one, the director's for instance. */
export class TheirBars {
  #whose;
  /** @type {Map<string, AlignStretch[]>} */
  #numbers;

  /** @param {Align} [align] nothing lies beside the book without it */
  constructor(align) {
    this.#whose = align?.other ? partName(align.other) : "";
    this.#numbers = new Map((align?.otherwise ?? []).map((n) => [n.number.trim().toLowerCase(), n.stretches]));
  }

  /** What the other part is called; empty where none lies beside this one. */
  get whose() {
    return this.#whose;
  }

  /**
   * "Director 42–57"; "Director 12 or 14" where two endings are numbered alike here and not there; "Director: not sure" where it is
   * open which bars they are; empty where they are called the same.
   *
   * @param {string} number label of the number they are in
   * @param {string} first as this part calls it
   * @param {string} [last]
   */
  beside(number, first, last = first) {
    const stretches = this.#whose ? this.#numbers.get(number.trim().toLowerCase()) : undefined;
    if (!stretches) return "";
    const [from, to] = [called(stretches, first), called(stretches, last)];
    if (from === undefined || to === undefined) return `${this.#whose}: not sure`;
    const between = /\D/.test(from + to) ? " to " : "–";
    return from === first && to === last ? "" : `${this.#whose} ${from === to ? from : from + between + to}`;
  }

  /**
   * The same in brackets, to stand behind what this part calls them.
   *
   * @param {string} number
   * @param {string} first
   * @param {string} [last]
   */
  behind(number, first, last = first) {
    const text = this.beside(number, first, last);
    return text ? ` [${text}]` : "";
  }

  /**
   * Bars as a plan says them, "bar 17", "10-11", with the other part's behind.
   *
   * @param {string} number
   * @param {string} said
   */
  both(number, said) {
    const span = /^(?:bars? )?(\w+)(?:[-–](\w+))?$/.exec(said);
    return span ? said + this.behind(number, span[1], span[2] ?? span[1]) : said;
  }
}

/**
 * @param {AlignStretch[]} stretches
 * @param {string} bar
 * @returns {string|undefined} undefined where the other part has no sure bar for it
 */
function called(stretches, bar) {
  for (const s of stretches) {
    const at = s.first === undefined || s.last === undefined ? undefined : place(s.first, s.last, bar);
    if (at !== undefined) return s.how === "same" ? bar : there(s, at);
  }
  // a number that occurs twice is called with its ending
  const endings = stretches.filter((s) => s.first?.startsWith(`${bar} in the `));
  if (endings.every((s) => s.how === "same")) return bar;
  const names = endings.map((s) => (s.how === "same" ? s.first : there(s, 0)));
  return names.includes(undefined) ? undefined : [...new Set(names)].join(" or ");
}

/**
 * @param {AlignStretch} s
 * @param {number} at
 */
function there(s, at) {
  if (s.how !== "otherwise" || s.otherFirst === undefined) return undefined;
  return at === 0 ? s.otherFirst : String(Number(s.otherFirst) + at);
}

/**
 * @param {string} first
 * @param {string} last
 * @param {string} bar
 * @returns {number|undefined} how many bars it stands behind the first of a stretch
 */
function place(first, last, bar) {
  if (bar === first) return 0;
  const [from, to, at] = [first, last, bar].map((name) => (/^\d+$/.test(name) ? Number(name) : NaN));
  return at >= from && at <= to ? at - from : undefined;
}
