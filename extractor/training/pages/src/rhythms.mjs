// What a bass plays, for training: the rhythms of pits (walking quarters, two in a bar, dotted, shuffled, tied over the barline, triplets).
// Kept apart from music.mjs, whose pages the corpus is made of. Durations are in 16ths as printed; a minus is a rest.
import { Walk, note } from './events.mjs';

const t = (...notes) => ({ notes, tuplet: true }), six = (...notes) => ({ notes, tuplet: true, six: true });
const BEAT = {
  plain: [[4], [4], [4], [-4], [2, 2], [2, 2], [3, 1], [2, -2], [-2, 2]],
  dotted: [[3, 1], [3, 1], [4], [2, 2], [3, -1], [1, 3], [-3, 1], [2, 1, 1]],
  swing: [t(4, 2), t(4, 2), t(4, 2), t(2, 2, 2), t(2, -2, 2), [4], [4], t(4, -2), t(-4, 2), t(-2, 2, 2), t(2, 4), t(2, 2, -2)],
  busy: [[2, 2], [1, 1, 1, 1], [2, 1, 1], [1, 1, 2], [1, 2, 1], [3, 1], [-1, 1, 2], [-2, 1, 1], [1, 1, -2], [-1, 1, 1, 1], [0.5, 0.5, 1, 2], t(2, 2, 2), t(1, 1, 1, 1, 2), six(1, 1, 1, 1, 1, 1)],
};
const TWO = {
  plain: [[8], [8], [4, 4], [4, 4], [6, 2], [4, -4], [-4, 4], [-8], [2, 2, 2, 2], [4, 2, 2]],
  dotted: [[6, 2], [6, 2], [8], [2, 6], [6, -2], [-2, 6], [3, 1, 4], [3, 3, 2]],
  swing: [t(4, 4, 4), t(4, 4, 4), t(8, 4), t(-4, 4, 4), t(4, -4, 4), [6, 2], [4, 4], [2, 4, 2]],
  busy: [[2, 4, 2], [2, 4, 2], [3, 3, 2], [2, 2, 2, 2], [-2, 2, 2, 2], [2, -2, 2, 2], [2, 2, -2, 2], [-2, 4, 2], [2, 4, -2], [2, 2, 4], [6, 1, 1], [2, 6], [3, 3, -2], [2, -2, -2, 2]],
};
const FOUR = { plain: [[16], [8, 8], [12, 4], [8, -8]], dotted: [[12, 4], [12, -4], [6, 2, 8], [16]], swing: [t(8, 8, 8), [12, 4], [16]], busy: [[6, 6, 4], [2, 4, 4, 4, 2], [4, 8, 4], [6, 4, 6]] };
const THREE = [[12], [12], [8, 4], [4, 8], [6, 6], [6, 2, 4], [2, 2, 2, 2, 2, 2], [4, -8], [8, -4], [-4, 8], [2, 4, 2, 4], [4, 4, 2, 2]];
const TIED3 = { plain: [[6], [6], [4, 2], [4, 2], [2, 2, 2], [-6]], dotted: [[3, 1, 2], [4, 2], [6], [2, 4]], swing: [[4, 2], [4, 2], [2, -2, 2], [-4, 2], [4, -2], [2, 4]],
  busy: [[2, 2, 2], [2, 1, 1, 2], [1, 1, 1, 1, 1, 1], [2, 2, 1, 1], [-2, 2, 2], [2, 2, -2], [2, -4], [3, 3], [1, 1, 2, 2]] };
const SIX2 = [[12], [12], [6, 6], [8, 4], [4, 2, 6], [6, -6]];

function cells({ beats, unit }, taste, r) {
  const total = (16 / unit) * beats, out = [];
  let left = total;
  const put = (size, table) => { out.push(r.pick(table)); left -= size; };
  if (unit === 8 && beats % 3 === 0) { while (left > 0) { if (left >= 12 && r.chance(0.2)) put(12, SIX2); else put(6, TIED3[taste]); } return out; }
  while (left > 0) {
    if (left === 12 && r.chance(0.35)) put(12, THREE);
    else if (left % 16 === 0 && r.chance(0.2)) put(16, FOUR[taste]);
    else if (left >= 8 && r.chance(0.45)) put(8, TWO[taste]);
    else if (left === 2 || left === 1) put(left, [[left], [-left]]);
    else if (left % 4 && left > 4) put(left % 4 + 4, left % 4 === 2 ? TIED3[taste] : [[...Array(left % 4 + 4).fill(1)]]);
    else put(4, BEAT[taste]);
  }
  return out;
}

/** Other rhythms in most bars with music, and ties, in place. */
export function play(number, r, h) {
  const main = r.weighted({ plain: 4, dotted: 3, swing: 3, busy: 3 }), tied = r.pick([0, 0.05, 0.15, 0.3]), bracket = r.chance(0.4);
  const walk = new Walk(r, { ...h.walk, repeat: r.range(0.1, 0.7), chords: h.chords, artic: h.artic, tremolo: h.tremolo });
  for (const b of number.bars) {
    if (b.content !== 'music' || b.pickup || !r.chance(0.85)) continue;
    const taste = r.chance(0.7) ? main : r.pick(['plain', 'plain', 'dotted', 'swing', 'busy']);
    b.events = cells(b.meter, taste, r).map(c => {
      const list = c.notes ?? c;
      return { tuplet: !!c.tuplet, ...(c.six ? { six: true } : {}), ...(bracket ? { bracket } : {}), notes: list.map(d => (d < 0 ? { dur: -d, rest: true } : note(d, r, walk))) };
    });
    if (b.events.every(g => g.notes.every(n => n.rest))) { const n = b.events[0].notes[0]; b.events[0].notes[0] = note(n.dur, r, walk); }
  }
  let last = null;
  for (const b of number.bars) {
    if (b.content !== 'music' || b.pickup || b.left || b.newKey) last = null;
    if (b.content !== 'music') continue;
    for (const n of b.events.flatMap(g => g.notes)) {
      if (n.rest || n.grace !== undefined || n.slash) { last = null; continue; }
      if (last && r.chance(tied)) {
        n.pitches = [...last.pitches];
        delete n.accid; delete last.accid;
        last.tie = last.tie === 't' ? 'm' : 'i'; n.tie = 't';
      }
      last = n;
    }
    if (b.midClef) last = null;
  }
}
