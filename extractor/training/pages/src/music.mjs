// One musical number of a part: a list of drawn bars with all signs, as plain data.
import { ALTER, CUES, DYNTEXT, PLAYING, SYLLABLES, TEMPI, THEATRE, title } from './words.mjs';
import { Walk, fill } from './events.mjs';

const METERS = [[{ beats: 4, unit: 4 }, 30], [{ beats: 4, unit: 4, sym: 'C' }, 14], [{ beats: 2, unit: 2, sym: 'C|' }, 12], [{ beats: 3, unit: 4 }, 20], [{ beats: 2, unit: 4 }, 14],
  [{ beats: 6, unit: 8 }, 12], [{ beats: 12, unit: 8 }, 5], [{ beats: 9, unit: 8 }, 4], [{ beats: 2, unit: 2 }, 6], [{ beats: 5, unit: 4 }, 4], [{ beats: 7, unit: 8 }, 3],
  [{ beats: 3, unit: 8 }, 5], [{ beats: 3, unit: 2 }, 3], [{ beats: 6, unit: 4 }, 3], [{ beats: 5, unit: 8 }, 2], [{ beats: 7, unit: 4 }, 1], [{ beats: 4, unit: 2 }, 1], [{ beats: 1, unit: 4 }, 1],
  [{ beats: 6, unit: 16 }, 0.5], [{ beats: 4, unit: 8 }, 2], [{ beats: 10, unit: 8 }, 0.5]];
const sameMeter = (a, b) => a.beats === b.beats && a.unit === b.unit && a.sym === b.sym;
export const letters = i => (i < 26 ? String.fromCharCode(65 + i) : String.fromCharCode(65 + (i - 26) % 26).repeat(1 + Math.floor(i / 26)));

/** Habits of a whole part: what its copyist and composer do. */
export function habits(r) {
  const marks = r.weighted({ letters: 5, numbers: 3, bars: 3, lower: 0.4, none: 0.8 });
  return {
    clef: r.weighted([[{ shape: 'F', line: 4 }, 62], [{ shape: 'G', line: 2 }, 24], [{ shape: 'C', line: 4 }, 8], [{ shape: 'C', line: 3 }, 6]]),
    marks, enclosure: r.weighted({ box: 60, circle: 12, none: 28 }), firstMark: r.chance(0.3) ? r.int(1, 180) : 0,
    resty: r.weighted([[0.1, 3], [0.25, 4], [0.45, 4], [0.7, 2]]), long: r.chance(0.2), mode: r.weighted({ plain: 4, busy: 4, dense: 2, calm: 2 }),
    block: r.weighted([[0, 3], [0.5, 1], [1, 2]]), oneNumbered: r.chance(0.3), repeats: r.range(0, 0.12), words: r.range(0.02, 0.3), dyn: r.range(0.05, 0.3), slur: r.range(0, 0.35),
    walk: r.chance(0.25) ? { lo: -10, hi: 5 } : r.chance(0.2) ? { lo: -5, hi: 11 } : { lo: -7, hi: 7 }, chords: r.chance(0.15) ? 0.3 : 0.02, artic: r.pick([0.03, 0.1, 0.35]), tremolo: r.chance(0.1) ? 0.3 : 0.01,
    meterChanges: r.weighted([[0.02, 5], [0.12, 3], [0.4, 1]]), keyChanges: r.pick([0.05, 0.2]), doubles: r.range(0.1, 0.7), counters: r.chance(0.25) ? 0.12 : 0.005, everyBar: r.chance(0.05),
    forms: r.chance(0.25) ? r.range(1.5, 4) : r.range(0.2, 1), cues: r.range(0, 0.1), lyrics: r.chance(0.06), fing: r.chance(0.1) ? 0.2 : 0, dashed: r.chance(0.15), multiRuns: r.chance(0.4),
  };
}

export function makeNumber(r, h, { bars: want = r.int(12, 70), label = null, firstNumber = 1, state = { mark: 0 } } = {}) {
  const bars = [];
  let meter = r.weighted(METERS), key = r.int(-5, 5), clef = h.clef, no = firstNumber, up = false;
  const walk = new Walk(r, { ...h.walk, chords: h.chords, artic: h.artic, tremolo: h.tremolo });
  const mode = () => (r.chance(0.7) ? h.mode : r.pick(['plain', 'busy', 'calm']));
  const add = b => {
    const bar = { count: 1, content: 'music', meter, key, clef, words: [], signs: [], right: 'single', number: no, ...b };
    if (!bars.length) { bar.newMeter = true; }
    no += bar.pickup ? 0 : bar.count;
    if (bar.content === 'bar-repeat-2') no += 1;
    bars.push(bar); return bar;
  };
  const word = (b, text, place, style) => b.words.push({ text, place, style, at: style === 'tempo' ? 1 : 1 + r.int(0, Math.max(0, b.meter.beats - 2)) });
  const music = extra => {
    const b = add({ events: fill(meter, mode(), r, walk), ...extra });
    decorate(b); return b;
  };
  function decorate(b) {
    if (r.chance(h.dyn)) b.dyn = r.pick(['p', 'pp', 'mp', 'mf', 'f', 'ff', 'sf', 'sfz', 'fp', 'ppp', 'fff', 'fz']);
    if (r.chance(h.dyn * 0.5)) b.hairpin = r.pick(['cres', 'dim']);
    if (r.chance(h.slur)) b.slur = true;
    if (r.chance(0.05)) b.tie = true;
    if (r.chance(h.fing)) b.fing = r.int(0, 5);
    if (r.chance(h.words * 0.5)) word(b, r.pick(PLAYING), r.chance(0.7) ? 'above' : 'below', 'dir');
    if (r.chance(h.words * 0.25)) word(b, r.pick(DYNTEXT), 'below', 'dir');
    if (r.chance(0.015)) b.signs.push('fermata');
    if (r.chance(0.01)) b.signs.push('caesura');
    if (h.lyrics && r.chance(0.6)) b.lyrics = true;
    if (r.chance(0.012) && !b.pickup) b.midClef = true;
  }
  const rests = (n, opts = {}) => {
    if (n <= 0) return null;
    if (n === 1) return add({ content: 'rest', numeral: r.chance(h.oneNumbered), ...opts });
    return add({ content: 'multi-rest', count: n, block: n <= 12 && r.chance(h.block), below: r.chance(state.below ??= r.chance(0.15) ? 0.8 : 0.02), ...opts });
  };
  const size = () => (h.long && r.chance(0.4) ? r.int(16, 130) : r.weighted([[r.int(2, 4), 5], [r.int(5, 9), 4], [r.int(10, 24), 3], [r.int(25, 64), 1]]));
  const pickMark = b => {
    if (h.marks === 'none' || b.pickup) return;
    const i = state.mark++;
    const text = h.marks === 'letters' ? letters(i) : h.marks === 'lower' ? letters(i).toLowerCase() : h.marks === 'numbers' ? String(h.firstMark + i + 1) : String(b.number);
    if (h.marks === 'bars' && b.number < 2) return;
    b.rehearsal = { text, enclosure: h.enclosure };
  };
  if (r.chance(0.15)) { up = true; add({ pickup: true, number: 0, events: fill({ beats: 1, unit: 4 }, 'plain', r, walk), newMeter: true }); }
  const tempo = () => (r.chance(0.15) ? `${r.pick(TEMPI)} (${r.pick(['q', 'h', 'q.'])} = ${r.int(40, 180)})` : r.chance(0.2) ? `${r.pick(['q', 'q.', 'h', 'e'])} = ${r.int(40, 208)}` : r.pick(TEMPI));
  let first = true;
  while (bars.length < want) {
    const start = bars.length;
    const marked = !first && r.chance(0.75);
    if (first || (marked && r.chance(h.meterChanges * 1.5)) || r.chance(h.meterChanges * 0.3)) {
      const next = r.weighted(METERS);
      if (first && !up) meter = next; else if (!first && !sameMeter(next, meter)) { meter = next; state.changed = true; }
    }
    let changedKey = false;
    if (!first && r.chance(h.keyChanges)) { const k = r.int(-6, 6); if (k !== key) { key = k; changedKey = true; } }
    const wasChanged = state.changed; state.changed = false;
    if (!first && (changedKey || (marked && r.chance(h.doubles)))) bars[bars.length - 1].right = h.dashed && r.chance(0.2) ? 'dashed' : 'double';
    const len = r.int(2, 14), plan = r.next();
    const repeat = (!first || r.chance(0.4)) && r.chance(0.16 * h.forms + 0.02);
    // body of the phrase
    if (plan < h.resty) {
      if (h.multiRuns && r.chance(0.5)) { const n = r.int(2, 6); for (let k = 0; k < n; k++) { const b = rests(r.chance(0.2) ? 1 : size()); if (r.chance(0.4)) word(b, r.chance(0.3) ? r.pick(CUES) : r.pick([...ALTER, ...TEMPI]), 'above', 'tempo'); } }
      else { rests(size()); if (r.chance(0.5)) music(); }
    } else if (plan < h.resty + (1 - h.resty) * h.repeats * 4 && bars.length) {
      const shown = r.int(1, 2); for (let k = 0; k < shown; k++) music();
      if (r.chance(0.3) && !up && !h.noTwo) { add({ content: 'bar-repeat-2' }); }
      else for (let k = r.int(1, 7), c = 2; k > 0; k--, c++) { const b = add({ content: 'bar-repeat' }); if (r.chance(0.25)) b.counter = c; }
    } else {
      const counting = r.chance(h.counters * 3);
      for (let k = 0; k < len; k++) {
        const x = r.next();
        if (x < 0.06) rests(1); else if (x < 0.1) rests(r.int(2, 9));
        else if (x < 0.1 + h.cues) { const b = add({ content: 'rest', cue: fill(meter, 'plain', r, walk) }); word(b, r.pick(CUES), 'above', 'cue'); if (r.chance(0.2)) b.counter = r.int(1, 8); }
        else if (x < 0.11 + h.cues && h.slur) { const b = rests(1); b.signs.push('fermata'); if (r.chance(0.5)) word(b, r.pick(['G.P.', '(G.P.)', 'lunga', 'Cadenza', 'long']), 'above', 'dir'); }
        else { const b = music(); if (counting) b.counter = k + 1; }
      }
    }
    const b0 = bars[start];
    if (wasChanged) b0.newMeter = true;
    if (changedKey) b0.newKey = true;
    if (marked) pickMark(b0);
    if (first || r.chance(marked ? 0.45 : 0.08)) word(b0, tempo(), 'above', 'tempo');
    if (!first && r.chance(h.words)) word(bars[r.int(start, bars.length - 1)], r.pick(ALTER), r.chance(0.85) ? 'above' : 'below', 'dir');
    if (r.chance(h.words * 0.6)) word(bars[r.int(start, bars.length - 1)], r.pick(THEATRE), r.chance(0.75) ? 'above' : 'below', r.chance(0.5) ? 'tempo' : 'dir');
    if (r.chance(h.words * 0.2)) word(bars[r.int(start, bars.length - 1)], r.pick(CUES), 'above', 'cue');
    // repeats, with or without endings
    if (repeat && (first ? !up : !b0.newKey && !b0.newMeter)) {
      b0.left = 'repeat-start';
      if (start > 0) bars[start - 1].right = bars[start - 1].right === 'repeat-end' ? 'repeat-both' : 'repeat-start';
      const last = bars.length - 1;
      if (r.chance(0.55) && last - start >= 2) {
        const n1 = r.int(1, Math.min(2, last - start)), three = r.chance(0.12);
        for (let k = last - n1 + 1; k <= last; k++) bars[k].ending = { text: three ? '1. 2.' : '1.', numbers: three ? [1, 2] : [1], id: `${last}a` };
        bars[last].right = 'repeat-end';
        const n2 = r.int(1, 2);
        for (let k = 0; k < n2; k++) { const b = r.chance(0.8) ? music() : rests(r.chance(0.5) ? 1 : size()); b.ending = { text: three ? '3.' : '2.', numbers: [three ? 3 : 2], id: `${last}b`, open: r.chance(0.5) }; }
        if (r.chance(0.3)) bars[bars.length - 1].right = 'double';
      } else { bars[last].right = 'repeat-end'; if (r.chance(0.25)) { word(bars[last], r.pick(['3X', 'Vamp', 'Play 3 times', '(4X)']), 'above', 'tempo'); } }
    }
    if (!first && r.chance(0.06 * Math.min(2, h.forms))) b0.signs.push('segno');
    if (!first && r.chance(0.05 * Math.min(2, h.forms))) b0.signs.push('coda');
    if (r.chance(0.05 * Math.min(2, h.forms))) { const b = bars[bars.length - 1]; const s = r.pick(['to-coda', 'da-capo', 'dal-segno', 'fine']); b.signs.push(s); if (b.right === 'single' && r.chance(0.8)) b.right = 'double';
      b.words.push({ text: navText(s, r), place: r.chance(0.8) ? 'above' : 'below', style: 'nav', sign: s }); }
    first = false;
  }
  const end = bars[bars.length - 1];
  end.right = r.weighted({ final: 76, double: 8, none: 8, single: 8 });
  if (end.right === 'final' && r.chance(0.08)) end.signs.push('fermata');
  for (const b of bars) if (h.lyrics && b.lyrics) b.syllables = [0, 1, 2, 3, 4, 5].map(() => r.pick(SYLLABLES));
  return { label, title: title(r), bars, key: bars[0].key };
}

export function navText(s, r) {
  if (s === 'to-coda') return r.pick(['To Coda', 'to Coda', 'To Coda @', 'al Coda', 'To @', 'to Coda @']);
  if (s === 'da-capo') return r.pick(['D.C.', 'D.C. al Fine', 'D.C. al Coda', 'Da Capo', 'Da Capo al Fine', 'D. C.']);
  if (s === 'dal-segno') return r.pick(['D.S.', 'D.S. al Coda', 'D.S. al Fine', 'Dal Segno', 'D.S. % al Coda', 'D. S.']);
  return r.pick(['Fine', 'FINE', 'Fine.']);
}

/** A second staff for the same bars (piano-conductor pages). */
export function secondStaff(r, number) {
  const walk = new Walk(r, { lo: -6, hi: 6, chords: 0.3 });
  return number.bars.map(b => ({ ...b, rehearsal: undefined, midClef: false, events: b.events && fill(b.pickup ? { beats: 1, unit: 4 } : b.meter, r.pick(['plain', 'busy', 'calm']), r, walk), cue: undefined, words: [], signs: [] }));
}
