// What parts have now and then and the other makers don't draw: marks and bar numbers under the staff, clefs and octaves that change in mid line, divisi that come and go.
import { inkBox, mapPath } from './geometry.mjs';
import { SERIF_ITALIC } from './fonts.mjs';
import { boxOf, groups, putText } from './style.mjs';
import { Walk, fill } from './events.mjs';

/** What a house sets under its staves, and how far. */
export function underHabit(r) {
  const what = r.weighted({ both: 3, marks: 3, numbers: 5 });
  return { marks: what !== 'numbers', numbers: what !== 'marks', gap: r.range(0.4, 1.6), every: r.chance(0.35), size: r.range(1.4, 2.4), face: r.pick(SERIF_ITALIC), middle: r.chance(0.5) };
}

function lowest(sys, x0, x1) {
  let low = 2;
  for (const p of sys.prims) { if (p.el.kind === 'staffline') continue; const b = inkBox(p.path, p.stroke); if (b[2] > x0 && b[0] < x1 && b[1] > -1.5 && b[3] > low) low = b[3]; }
  return low;
}

/** Moves marks and bar numbers under the staff, clear of all that hangs there; with `every` each bar has its number there. */
export function lower(sys, number, habit) {
  const down = g => {
    const b = boxOf(g), own = new Set(g), rest = { prims: sys.prims.filter(p => !own.has(p)) };
    const dy = lowest(rest, b[0] - 0.3, b[2] + 0.3) + habit.gap - b[1];
    for (const p of g) p.path = mapPath(p.path, (x, y) => [x, y + dy]);
  };
  if (habit.numbers) {
    if (habit.every) number_(sys, number, habit); else groups(sys, 'bar-number').filter(g => boxOf(g)[3] < 0).forEach(down);
  }
  if (habit.marks) groups(sys, 'rehearsal').forEach(down);
}

function number_(sys, number, { gap, size, face, middle }) {
  const ends = {};
  for (const p of sys.prims) if (p.el.kind === 'barline' && p.el.bar >= 0) { const b = boxOf([p]); ends[p.el.bar] = Math.max(ends[p.el.bar] ?? 0, b[2]); }
  sys.prims = sys.prims.filter(p => p.el.kind !== 'bar-number');
  for (const bar of Object.keys(ends).map(Number).sort((a, b) => a - b)) {
    const b = number.bars[bar];
    if (!b || b.pickup || b.number < 1) continue;
    const left = ends[bar - 1] ?? 6, x = middle ? (left + ends[bar]) / 2 : left + 0.4, text = b.count > 1 ? `${b.number}–${b.number + b.count - 1}` : String(b.number);
    if (b.count > 1 && !middle) continue;
    if (b.count > 1) continue; // a range is a text of its own, which no truth names
    const low = lowest(sys, x - (middle ? 1.5 : 0), x + (middle ? 1.5 : 2.8));
    putText(sys, text, face, size, x, low + gap + size * 0.7, middle ? 'middle' : 'start', { kind: 'bar-number', key: `bar-number:${bar}`, bar });
  }
}

const CLEFS = [{ shape: 'F', line: 4 }, { shape: 'C', line: 4 }, { shape: 'G', line: 2 }, { shape: 'C', line: 3 }, { shape: 'G', line: 2, dis: 8 }];
/** Clefs and octave lines in mid line, in place: before a bar or within it. */
export function wander(number, r) {
  const share = r.pick([0.12, 0.25, 0.4]), octaves = r.pick([0, 0.1, 0.2]), two = r.chance(0.6) ? [r.pick(CLEFS), r.pick(CLEFS)] : CLEFS;
  let clef = number.bars[0].clef;
  number.bars.forEach(b => {
    b.midClef = false;
    if (b.content !== 'music' || b.pickup || b.slashed) return;
    if (r.chance(share)) {
      const to = r.pick([...two, number.bars[0].clef].filter(c => c.shape + c.line + (c.dis ?? '') !== clef.shape + clef.line + (clef.dis ?? '')));
      if (to) { b.newClef = to; b.clefAt = r.chance(0.6) ? null : r.int(1, Math.max(1, b.events.length - 1)); clef = to; }
    }
    if (r.chance(octaves)) b.octave = r.pick(['above', 'above', 'below']);
  });
}

/** Cuts a number into runs of bars that have one staff or two in turn: [{bars, staves, second}] as numbers of their own. */
export function divide(number, r) {
  const out = [], walk = new Walk(r, { lo: -6, hi: 6, chords: 0.1 });
  for (let at = 0, two = r.chance(0.4); at < number.bars.length; two = !two) {
    let n = r.int(4, 14);
    while (at + n < number.bars.length && (number.bars[at + n].ending || number.bars[at + n - 1].ending || /repeat/.test(number.bars[at + n].content) || number.bars[at + n].left || number.bars[at + n].newKey || number.bars[at + n].newMeter)) n++;
    const bars = number.bars.slice(at, at + n).map(b => ({ ...b, midClef: false, cue: undefined, slur: false, tie: false }));
    for (const b of bars) for (const g of b.events ?? []) for (const v of g.notes) delete v.tie;
    bars.forEach((b, i) => { if (i === bars.length - 1 && at + n < number.bars.length && b.right === 'final') b.right = 'double'; });
    const second = bars.map(b => ({ ...b, rehearsal: undefined, events: b.events && fill(b.pickup ? { beats: 1, unit: 4 } : b.meter, r.pick(['plain', 'busy', 'calm']), r, walk), words: [], signs: [] }));
    out.push({ ...number, bars, whole: number, goesOn: at > 0, two, second });
    at += n;
  }
  return out;
}
