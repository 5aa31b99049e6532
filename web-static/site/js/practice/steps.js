import { markText } from "../core/words.js";

/**
 * The order of play as single bars with beats, for a click to follow.
 *
 * @typedef {object} BarStep
 * @property {string} bar id of the entry
 * @property {string} name "34"
 * @property {number} beats clicks in the bar
 * @property {number} share of a quarter each click lasts
 * @property {string} mark rehearsal mark at it
 * @property {number} page
 * @property {boolean} rest
 * @property {number} left bars of this rest still to come, this one counted; 0 for music
 * @property {string} vamp key of the vamp it belongs to, or nothing
 */

/** @typedef {import("../core/types.js").Bar} Bar */

/**
 * How a bar is clicked: as the director beats it where a change says so, else 6/8, 9/8 and 12/8 in
 * dotted beats as is common practice, else in the meter's own unit.
 *
 * @param {{beats: number, unit: number}|undefined} meter
 * @param {number|undefined} shown beats the director shows
 */
export function beatsOf(meter, shown) {
  const { beats, unit } = meter ?? { beats: 4, unit: 4 };
  const quarters = (beats * 4) / unit;
  if (shown) return { beats: shown, share: quarters / shown };
  if (unit >= 8 && beats > 3 && beats % 3 === 0) return { beats: beats / 3, share: (3 * 4) / unit };
  return { beats, share: 4 / unit };
}

/**
 * @param {any} planned one number of the plan
 * @param {Map<string, Bar>} bars
 * @param {(bar: Bar, offset: number) => number|undefined} shown beats the director shows
 * @returns {BarStep[]}
 */
export function barSteps(planned, bars, shown) {
  const vamps = vampBars(planned.open ?? [], planned.order ?? []);
  /** @type {BarStep[]} */
  const steps = [];
  for (const entry of planned.order ?? []) {
    const bar = bars.get(entry.bar);
    if (!bar) continue;
    const from = (entry.from ?? 1) - 1;
    const many = entry.bars ?? (entry.inserted ? 1 : bar.count);
    const rest = !entry.inserted && (bar.content === "rest" || bar.content === "multi-rest");
    for (let i = 0; i < many; i++) {
      const beat = beatsOf(bar.meter, shown(bar, from + i));
      const cut = i === 0 && entry.beatsCut ? Math.round((entry.beatsCut * 4) / (bar.meter?.unit ?? 4) / beat.share) : 0;
      steps.push({
        bar: bar.id,
        name: entry.inserted ?? bar.label ?? String(bar.number + from + i),
        beats: Math.max(1, beat.beats - cut),
        share: beat.share,
        mark: i === 0 && from === 0 && !entry.inserted ? markText(bar.rehearsal) : "",
        page: bar.page,
        rest,
        left: rest ? many - i : 0,
        vamp: vamps.get(bar.id) ?? "",
      });
    }
  }
  return restsTogether(steps);
}

/**
 * @param {any[]} open
 * @param {any[]} order
 * @returns {Map<string, string>} bar id to vamp key
 */
function vampBars(open, order) {
  /** @type {Map<string, string>} */
  const found = new Map();
  for (const vamp of open.filter((o) => o.kind === "vamp")) {
    let inside = false;
    for (const entry of order) {
      if (entry.bar === vamp.first) inside = true;
      if (inside) found.set(entry.bar, `${vamp.first}-${vamp.last}`);
      if (entry.bar === vamp.last) break;
    }
  }
  return found;
}

/**
 * Rests next to each other are counted on as one.
 *
 * @param {BarStep[]} steps
 */
function restsTogether(steps) {
  for (let i = steps.length - 2; i >= 0; i--) {
    if (steps[i].rest && steps[i + 1].rest && !steps[i].vamp && !steps[i + 1].vamp) steps[i].left = steps[i + 1].left + 1;
  }
  return steps;
}
