// Pages of half charts, as rhythm books and pit books have them: slashes, chord symbols, cross heads, counters, cues over rests, sung words.
// Kept apart from music.mjs, whose pages the corpus is made of.
import { Walk, fill } from './events.mjs';
import { CUES, SYLLABLES } from './words.mjs';
import { FONTS_OF_CHORDS, HAND, SERIF_ITALIC } from './fonts.mjs';
import { inkBox } from './geometry.mjs';

const ROOTS = ['C', 'D', 'E', 'F', 'G', 'A', 'B', 'Bb', 'Eb', 'Ab', 'Db', 'Gb', 'F#', 'C#', 'G#'];
const TAILS = [['', 8], ['m', 3], ['-', 1], ['7', 5], ['m7', 4], ['-7', 2], ['mi7', 1], ['min7', 1], ['maj7', 2], ['Maj7', 1], ['ma7', 1], ['M7', 1], ['6', 2], ['m6', 1], ['6/9', 1], ['9', 2], ['m9', 1], ['11', 0.5], ['13', 1], ['7sus', 0.5], ['sus4', 1], ['sus', 1], ['sus2', 0.5], ['7sus4', 1],
  ['dim', 1], ['dim7', 1], ['°', 1], ['°7', 1], ['+', 1], ['+7', 0.5], ['aug', 0.7], ['7b9', 1], ['7#9', 1], ['7(b9)', 1], ['7(#9)', 0.5], ['7alt', 0.7], ['m7b5', 1], ['m7(b5)', 1], ['ø', 0.5], ['ø7', 0.5], ['add9', 0.7], ['add2', 0.5], ['5', 0.7], ['13(b9)', 0.5], ['7(b13)', 0.3], ['m(maj7)', 0.5], ['2', 0.3], ['△7', 0.7]];
const VAMPS = ['VAMP', 'Vamp', 'VAMP till cue', 'Vamp till cue', 'Vamp – out on cue', 'out on cue', 'Out on cue', 'last time only', 'Last time only', 'last x only', 'x4', '4x', '4X', '(4X)', 'x2', '3x', 'PLAY 8', 'Play 8', 'Play 16', 'PLAY 4', 'Play 12', '(Play 8)', '2nd x only', 'Repeat till cue', 'open', 'Solo fill', 'fill', 'Fill', '(fill)', 'sim.', 'simile', 'cont. sim.', 'ad lib.', 'time', 'Time', 'straight 8ths', 'swing', 'bass solo', 'w/ bass', 'brushes', 'sticks', 'hi-hat', 'to Elec. Bass', 'To Upright', 'To E.B.', 'as is', 'Tacet 1st x', 'STOP', 'stop time', 'Hits', 'ens.', '(horns)'];

/** Habits of a part that is a chart here and there. */
export function chartHabits(h, r, engraver) {
  const perc = r.chance(0.12);
  return { ...h, chart: true, perc, slashes: perc ? r.range(0.1, 0.7) : r.weighted([[0, 2], [r.range(0.1, 0.4), 3], [r.range(0.5, 0.95), 4]]), chords: h.chords, chordSigns: perc ? 0 : r.weighted([[0, 3], [r.range(0.3, 1), 7]]),
    chordsOver: r.chance(0.35) ? r.range(0.2, 0.9) : 0, slashWay: r.weighted({ beats: 6, rhythm: 2, mixed: 3 }), crosses: perc ? 1 : r.chance(0.05) ? 0.3 : 0, counts: r.weighted([[0, 3], [1, 2], [2, 2], [4, 2]]), countWay: r.weighted({ bare: 4, round: 4, square: 0.4 }), countOver: r.chance(0.85),
    cues: r.chance(0.4) ? r.range(0.1, 0.5) : h.cues, cueWords: r.chance(0.3), cuePlace: r.weighted({ up: 5, middle: 3, down: 2, mixed: 2 }), lyrics: r.chance(0.15), repeats: r.pick([h.repeats, 0.25, 0.5]), dyn: r.range(0.05, 0.5),
    vamps: r.range(0, 0.12), boxedWords: r.chance(0.3), clefs: r.chance(0.25) ? 0.08 : 0.01, noTwo: h.noTwo, engraver,
    clef: perc ? { shape: 'perc', line: 3 } : h.clef };
}
function chord(r, flats) {
  if (r.chance(0.06)) return r.pick(['N.C.', 'N.C.', 'NC', '(N.C.)', 'N. C.']);
  const one = () => r.pick(flats ? ROOTS.filter(n => !/#/.test(n)) : ROOTS);
  let s = one() + r.weighted(TAILS);
  if (r.chance(0.14)) s += '/' + one();
  if (r.chance(0.04)) s = `(${s})`;
  return s;
}

const slashNote = (dur, head) => ({ dur, pitches: [0], head, stemless: head === 'slash' });
/** One slash a beat; dotted ones where the beat is. */
function beats({ beats: n, unit }, r) {
  const compound = unit === 8 && n % 3 === 0, dur = compound ? 6 : 16 / unit, count = compound ? n / 3 : n;
  if (dur === 8 && r.chance(0.6)) return Array.from({ length: count * 2 }, () => ({ len: 4, notes: [slashNote(4, 'slash')] }));
  return Array.from({ length: count }, () => ({ len: dur, notes: [slashNote(dur, 'slash')] }));
}
function stemmed(gs) { for (const g of gs) for (const n of g.notes) if (!n.rest) { n.pitches = [0]; n.head = 'slash'; delete n.accid; delete n.grace; } return gs; }
/** A drummer's bar: crosses over, heads in the middle and low. */
function kit(meter, r) {
  const dur = r.pick([2, 2, 4]), total = (16 / meter.unit) * meter.beats, gs = [], low = r.pick([-3, -3, -4]), high = r.pick([5, 5, 3, 4]);
  for (let at = 0; at < total; at += 4) {
    const len = Math.min(4, total - at), g = { len, notes: [] };
    for (let t = 0; t < len; t += dur) {
      const d = Math.min(dur, len - t), n = { dur: d, pitches: [high], heads: ['x'] };
      if (t === 0 && (at / 4) % 2 === 0 && r.chance(0.8)) { n.pitches.push(low); n.heads.push(null); } else if (t === 0 && r.chance(0.8)) { n.pitches.push(1); n.heads.push(null); } else if (r.chance(0.12)) { n.pitches = [1]; n.heads = [r.chance(0.3) ? 'x' : null]; }
      g.notes.push(n);
    }
    gs.push(g);
  }
  return gs;
}

/** Turns a number into a chart, in place. */
export function chart(number, r, h) {
  const bars = number.bars, flats = number.key < 0 || r.chance(0.4), walk = new Walk(r, { lo: -6, hi: 7 });
  let run = 0, on = false, way = 'beats', way2 = 'up', count = 0, runKind = '';
  bars.forEach((b, i) => {
    if (b.content !== 'music' || b.pickup) { on = false; }
    if (run-- <= 0 || b.rehearsal || b.newMeter) { on = r.chance(h.slashes); run = r.int(1, 10); way = h.slashWay === 'mixed' ? r.pick(['beats', 'beats', 'rhythm']) : h.slashWay; count = 0; }
    if (b.content === 'music' && !b.pickup) {
      if (on) {
        b.slashed = true; b.slur = false; b.midClef = false; delete b.hairpin; delete b.fing; delete b.lyrics; delete b.syllables;
        b.events = way === 'beats' ? beats(b.meter, r) : stemmed(fill(b.meter, r.pick(['plain', 'busy', 'plain']), r, walk));
        if (way === 'beats' && r.chance(0.06)) { const n = b.events.length >> 1, tail = stemmed(fill(b.meter, 'plain', r, walk)); const half = b.events.slice(0, n), len = half.reduce((s, g) => s + g.len, 0); let sum = 0; const rest = tail.filter(g => (sum += g.len) > len); if (rest.reduce((s, g) => s + g.len, 0) + len === b.events.reduce((s, g) => s + g.len, 0)) b.events = [...half, ...rest]; }
        if (r.chance(0.7)) b.signs = b.signs.filter(s => s !== 'caesura');
      } else if (h.crosses && r.chance(h.crosses)) { b.events = r.chance(0.75) ? kit(b.meter, r) : crossed(b.events, r); b.slur = false; b.midClef = false; delete b.hairpin; }
      else if (!b.midClef && r.chance(h.clefs) && !h.perc) b.midClef = true;
    }
    if (h.perc) { b.midClef = false; b.key = 0; delete b.newKey; }
    const kind = b.slashed ? 'slash' : b.content;
    if (kind !== runKind) { count = 0; runKind = kind; }
    count++;
    delete b.counter;
    const counted = h.counts && (b.content === 'bar-repeat' || (b.slashed && way === 'beats')) && (h.counts === 1 ? true : count % h.counts === 0) && (b.content !== 'bar-repeat' || count > 0);
    if (counted && r.chance(0.95)) { const n = String(b.content === 'bar-repeat' ? count + 1 : count); b.counter = h.countWay === 'round' ? `(${n})` : h.countWay === 'square' ? `[${n}]` : n; b.counterPlace = h.countOver ? 'above' : 'below'; }
    if (b.content === 'rest' && !b.cue && r.chance(h.cues) && !b.numeral) { b.cue = fill(b.meter, r.pick(['plain', 'busy', 'calm']), r, walk); b.words = b.words.filter(w => w.style !== 'cue'); if (r.chance(0.55)) b.words.push({ text: r.pick(CUES), place: r.chance(0.85) ? 'above' : 'below', style: 'cue', at: 1 }); }
    if (b.content === 'music' && r.chance(h.cues * 0.35) && !b.slashed && !b.pickup && !b.midClef && !b.signs.length) { b.content = 'rest'; b.cue = b.events; delete b.events; delete b.hairpin; b.slur = false; delete b.dyn; delete b.fing; }
    if (b.cue) { way2 = h.cuePlace === 'mixed' ? r.pick(['up', 'middle', 'down']) : r.chance(0.9) ? h.cuePlace : r.pick(['up', 'middle', 'down']); b.restAt = way2; if (h.cueWords && r.chance(0.8)) b.cueSyllables = [0, 1, 2, 3].map(() => r.pick(SYLLABLES)); }
    const over = b.slashed || (b.content === 'bar-repeat' && r.chance(0.5)) ? h.chordSigns : b.content === 'music' ? h.chordsOver : 0;
    if (over && r.chance(over) && !b.pickup) {
      const n = r.weighted([[1, 5], [2, 4], [b.meter.beats, 0.7]]), step = Math.max(1, Math.floor(b.meter.beats / n));
      b.chordSigns = []; for (let k = 0; k * step < b.meter.beats && k < n; k++) b.chordSigns.push({ text: chord(r, flats), at: 1 + k * step });
      if (b.content === 'bar-repeat') b.chordSigns.length = 1;
    }
    if (r.chance(h.vamps)) b.words.push({ text: r.pick(VAMPS), place: r.chance(0.8) ? 'above' : 'below', style: r.chance(0.6) ? 'tempo' : 'dir', at: 1, box: h.boxedWords && r.chance(0.5) });
    if (h.lyrics && b.content === 'music' && !b.slashed && r.chance(0.8)) b.syllables = [0, 1, 2, 3, 4, 5].map(() => r.pick(SYLLABLES));
    if (!h.lyrics) delete b.syllables;
    if (r.chance(h.dyn) && b.content === 'music') b.dyn ??= r.pick(['p', 'pp', 'mp', 'mf', 'f', 'ff', 'sfz', 'fp']);
  });
  return number;
}
function crossed(gs, r) { for (const g of gs) for (const n of g.notes) if (!n.rest) n.heads = n.pitches.map(() => (r.chance(0.6) ? 'x' : null)); return gs; }

/** The look of a chart's own signs. */
export function chartStyle(s, r) {
  const hand = s.hand;
  return { ...s, chart: true, number: hand || r.chance(0.7) ? s.number : r.pick(SERIF_ITALIC), numberX: r.range(0, 6), dynFace: r.pick(SERIF_ITALIC.filter(n => /BdIta|BoldItalic|Bold/.test(n)).concat(SERIF_ITALIC.slice(0, 3))), dynSize: r.range(1.7, 2.7), chordFace: hand ? r.pick(HAND) : r.pick(FONTS_OF_CHORDS), chordSize: r.range(1.5, 2.7), chordRaised: r.chance(0.35), chordSigns: r.chance(0.6), lyricSize: r.range(0.85, 1.2), counterSize: r.range(0.5, 1.1),
    slash: r.chance(0.4) ? null : { height: r.range(1.6, 2.6), wide: r.range(0.9, 2.2), thick: r.range(0.25, 0.95), cut: r.chance(0.7) }, numberPlace: s.everyBar ? s.numberPlace : r.weighted({ above: 4, left: 2, boxed: 2, circled: 2, italic: 2, none: 1 }) };
}
/** Draws slashes as this house does: strokes over the heads the engraver drew. */
export function restyleSlashes(sys, style, r) {
  const heads = sys.prims.filter(p => p.el.kind === 'slash');
  heads.forEach((p, n) => { p.el = { ...p.el, key: `slash:${n}` }; });
  if (!style.slash) return;
  const { height, wide, thick, cut } = style.slash;
  for (const p of heads) {
    const b = inkBox(p.path, p.stroke), cx = (b[0] + b[2]) / 2, cy = (b[1] + b[3]) / 2, h = height / 2, w = wide / 2;
    if (cut) p.path = [['M', cx - w - thick / 2, cy + h], ['L', cx - w + thick / 2, cy + h], ['L', cx + w + thick / 2, cy - h], ['L', cx + w - thick / 2, cy - h], ['Z']];
    else { p.path = [['M', cx - w, cy + h], ['L', cx + w, cy - h]]; p.fill = false; p.stroke = thick * 0.8; p.cap = r.chance(0.5) ? 'round' : 'butt'; continue; }
    p.fill = true; p.stroke = 0;
  }
}

/** What an engraver of the corpus can't show without doubt about which text is which is left out. */
export function chartTidy(number, engraver) {
  let last = -9, low = -9;
  number.bars.forEach((b, i) => {
    if (engraver !== 'verovio') { b.midClef = false; if (b.content !== 'music' && b.content !== 'bar-repeat') delete b.chordSigns; }
    if (engraver === 'lilypond' && b.content === 'bar-repeat') { delete b.chordSigns; delete b.counter; }
    if (engraver === 'musescore') {
      if (b.counter) { b.words.push({ text: b.counter, place: b.counterPlace, style: 'counter', at: 1 }); delete b.counter; }
      const seen = new Set();
      b.words = b.words.filter(w => { const k = w.style === 'tempo' || w.style === 'nav' ? w.style : w.place; if (seen.has(k)) return false; seen.add(k); if (w.style === 'tempo' || w.style === 'nav') return true; const near = k === 'below' ? low : last; if (i - near < (w.style === 'counter' ? 1 : 3)) return false; if (k === 'below') low = i + (w.style === 'counter' ? 0 : Math.floor(w.text.length / 8)); else last = i + (w.style === 'counter' ? 0 : Math.floor(w.text.length / 8)); return true; });
      if (b.signs.includes('caesura') && b.slashed) b.signs = b.signs.filter(s => s !== 'caesura');
    }
  });
  return number;
}
