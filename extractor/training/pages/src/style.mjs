// The look of a set of pages, and its application to engraved systems: text faces, numerals, enclosures, thick-bar shapes, staff-start lines.
import { DIGITS, HAND, SANS, SERIF, SERIF_BOLD, SERIF_ITALIC, digitHeight, textPaths } from './fonts.mjs';
import { chordText } from './chords.mjs';
import { affine, ellipsePath, inkBox, mapPath, rectPath, union } from './geometry.mjs';

export function makeStyle(r, { hand = false } = {}) {
  const h = hand ? r.pick(HAND) : null;
  const f = list => h && r.chance(0.9) ? h : r.pick(list);
  return {
    hand, tempo: f(r.chance(0.8) ? SERIF_BOLD : SANS), dir: f(SERIF_ITALIC), rehearsal: f([...SANS, ...SERIF_BOLD]), bareMark: f([...SERIF_BOLD, ...SANS.filter(n => /Bold|Black|Demi/.test(n))]), numberUnder: r.chance(0.4), number: f([...SERIF, ...SERIF_ITALIC, ...SANS]), title: f([...SERIF_BOLD, ...SERIF, ...SANS]), ending: f([...SERIF_BOLD, ...SERIF]),
    count: hand ? (r.chance(0.8) ? h : null) : r.chance(0.55) ? r.pick(DIGITS) : null, meter: hand ? (r.chance(0.5) ? h : null) : r.chance(0.2) ? r.pick(DIGITS.filter(n => /Bold|Bd|Demi|Black/.test(n))) : null,
    counter: f([...DIGITS]), lyric: f(SERIF), fing: f([...SERIF_BOLD, ...SANS]),
    tempoSize: r.range(0.85, 1.25), dirSize: r.range(0.8, 1.15), rehSize: r.range(0.95, 1.7), countSize: r.range(0.75, 1.15), numberSize: r.range(0.8, 1.3), counterSize: r.range(0.55, 1),
    enclosurePad: r.range(0.2, 0.55), enclosureLine: r.range(0.1, 0.32), startLine: r.chance(hand ? 0.35 : 0.15) ? (hand && r.chance(0.4) ? 2 : 1) : 0, wings: r.chance(0.06), thickBar: r.weighted({ plain: 5, noserif: 1, tall: 2, thin: 1, short: 2 }), thickH: r.range(0.35, 1.1),
    numberPlace: r.weighted({ above: 6, left: 2, boxed: 1, none: 3 }), oneThick: r.chance(0.1), countGap: r.range(0.3, 1.1), rehSquare: r.chance(0.3),
  };
}
const FONT_OF = { rehearsal: 'rehearsal', 'bar-number': 'number', ending: 'ending', counter: 'counter', lyric: 'lyric', fing: 'fing', dynam: 'dir' };

/** Resolve texts to outlines and restyle numerals; works in place. `number` is the music, for the meaning of each element. */
export function applyStyle(sys, style, number, r) {
  for (const t of sys.texts) if (t.el.kind !== 'chord') placeText(sys, t, style, number);
  placeChords(sys, sys.texts.filter(t => t.el.kind === 'chord'), style);
  sys.texts = [];
  groups(sys, 'count').forEach(g => restyleCount(sys, g, style, number));
  if (style.meter) groups(sys, 'meter').forEach(g => restyleMeter(sys, g, style));
  groups(sys, 'multi-rest').forEach(g => restyleThick(sys, g, style));
  oneNumerals(sys, style, number);
  unstack(sys);
  if (style.wings) wings(sys);
  for (const st of sys.lines ? [] : sys.staves) {
    for (let k = 0; k < style.startLine; k++) sys.prims.push(line(st.x0 + 0.08 + k * 0.7, st.y - 2, st.x0 + 0.08 + k * 0.7, st.y + 2, 0.16, { kind: 'start-line', key: `start:${st.y}`, bar: -1 }));
  }
}
export const line = (x0, y0, x1, y1, w, el) => ({ path: [['M', x0, y0], ['L', x1, y1]], fill: false, stroke: w, el });
export function groups(sys, kind) {
  const by = new Map();
  for (const p of sys.prims) if (p.el.kind === kind) { if (!by.has(p.el.key)) by.set(p.el.key, []); by.get(p.el.key).push(p); }
  return [...by.values()];
}
export const boxOf = ps => ps.reduce((b, p) => union(b, inkBox(p.path, p.stroke)), null);
export function remove(sys, ps) { const s = new Set(ps); sys.prims = sys.prims.filter(p => !s.has(p)); }
export function putText(sys, s, name, size, x, y, anchor, el, extra = {}) {
  const t = textPaths(s, name, size);
  if (!t.parts.length) return null;
  const dx = anchor === 'middle' ? x - t.width / 2 : anchor === 'end' ? x - t.width : x;
  for (const p of t.parts) sys.prims.push({ path: mapPath(p, affine([1, 0, 0, 1, dx, y])), fill: true, stroke: 0, el: { ...el, text: s, ...extra } });
  return [t.box[0] + dx, t.box[1] + y, t.box[2] + dx, t.box[3] + y];
}

function placeText(sys, t, style, number) {
  const { kind } = t.el, b = number.bars[t.el.bar];
  let name = style[FONT_OF[kind] ?? 'tempo'], size = t.size, { x, y, anchor } = t;
  let el = { ...t.el };
  if (style.chart && kind === 'dynam') { placeDynamic(sys, t, style); return; }
  if (style.chart && kind === 'lyric') { size *= style.lyricSize; el.text = t.s; }
  if (kind === 'word') {
    const w = b?.words[Number(/^w(\d+)$/.exec(t.el.ctl)?.[1] ?? -1)];
    const bold = w ? w.style === 'tempo' || w.style === 'nav' : t.bold;
    name = bold ? style.tempo : style.dir; size *= bold ? style.tempoSize : style.dirSize;
    if (w?.style === 'cue') size *= 0.75;
    el.word = w;
    if (w?.style === 'nav') { anchor = 'end'; x = rightOf(sys, t.el.bar) ?? x; }
  } else if (kind === 'rehearsal') { size *= style.rehSize; if (b?.rehearsal.enclosure === 'none') { name = style.bareMark; size *= 1.25; } }
  else if (kind === 'bar-number') {
    size *= style.numberSize;
    if (style.numberPlace === 'none') return;
    const opening = x < 3;
    if (style.everyBar && style.numberUnder) { const c = middleOf(sys, t.el.bar); if (!c) return; x = c; anchor = 'middle'; y = lowest(sys, c - 1.5, c + 1.5) + 0.6 + size * 0.7; }
    else if (!opening) anchor = 'start';
    else if (style.numberPlace === 'left') { x = -0.4; anchor = 'end'; y = 0.35; } else { anchor = 'start'; x = style.numberPlace === 'italic' ? style.numberX : 0; }
  } else if (kind === 'counter') size *= style.counterSize * 1.3;
  if (kind === 'bar-number' && (style.numberPlace === 'boxed' || style.numberPlace === 'circled')) y = Math.min(y, obstacle(sys, x - 0.6, x + 3.5) - style.enclosurePad - 0.3);
  if (kind === 'bar-number' && anchor === 'start') y = Math.min(y, obstacle(sys, x, x + textPaths(t.s, name, size).width) - 0.35);
  const box = putText(sys, t.s, name, size, x, y, anchor, el);
  if (!box) return;
  const enclosure = el.word?.box ? 'box' : kind === 'bar-number' && style.numberPlace === 'circled' ? 'circle' : kind === 'rehearsal' ? b?.rehearsal.enclosure : kind === 'bar-number' && style.numberPlace === 'boxed' ? 'box' : 'none';
  if (enclosure === 'box' || enclosure === 'circle') enclose(sys, box, enclosure, style, { ...el, text: t.s }, size);
}
/** Chord symbols stand on one line over the staff where there is room; what follows the root may be smaller and raised. */
function placeChords(sys, texts, style) {
  if (!texts.length || !style.chordFace) return;
  const set = texts.map(t => ({ t, s: chordText(t.s, style.chordSigns), w: textPaths(chordText(t.s, style.chordSigns), style.chordFace, style.chordSize).width }));
  set.sort((a, b) => a.t.x - b.t.x);
  let room = set.map(c => obstacle(sys, c.t.x - 0.3, c.t.x + c.w + 0.3) - 0.45);
  const line = Math.min(...room);
  if (line > -9) room = room.map(() => line);
  let right = -9;
  set.forEach(({ t, s, w }, n) => {
    const el = { ...t.el, key: `chord:${t.el.bar}-${t.el.ctl || n}` }, x = Math.max(t.x, right + 0.4);
    const cut = style.chordRaised ? /^\(?[A-G][♭♯b#]?/.exec(s)?.[0].length ?? s.length : s.length, root = s.slice(0, cut), tail = s.slice(cut);
    putText(sys, root, style.chordFace, style.chordSize, x, room[n], 'start', el, { text: s });
    const at = x + textPaths(root, style.chordFace, style.chordSize).width;
    if (tail) putText(sys, tail, style.chordFace, style.chordSize * 0.68, at, room[n] - style.chordSize * 0.28, 'start', el, { text: s });
    right = x + w;
  });
}
const LOUD = { '\uE520': 'p', '\uE521': 'm', '\uE522': 'f', '\uE523': 'r', '\uE524': 's', '\uE525': 'z', '\uE526': 'n' };
/** Dynamics in a bold italic text face, as many printers set them. */
function placeDynamic(sys, t, style) {
  const s = [...t.s].map(c => LOUD[c] ?? c).join('');
  if (/^[pmfrszn]+$/.test(s)) putText(sys, s, style.dynFace, style.dynSize, t.x, t.y, t.anchor, { ...t.el }, { text: s });
}
function middleOf(sys, bar) {
  const ps = sys.prims.filter(p => p.el.kind === 'barline' && p.el.bar === bar), before = sys.prims.filter(p => p.el.kind === 'barline' && p.el.bar === bar - 1);
  if (!ps.length) return null;
  return (boxOf(ps)[2] + (before.length ? boxOf(before)[2] : 8)) / 2;
}
function lowest(sys, x0, x1) {
  let low = 2;
  for (const p of sys.prims) { if (p.el.kind === 'staffline') continue; const b = inkBox(p.path, p.stroke); if (b[2] > x0 && b[0] < x1 && b[1] > -0.5 && b[3] > low) low = b[3]; }
  return low;
}
function rightOf(sys, bar) {
  const ps = sys.prims.filter(p => p.el.kind === 'barline' && p.el.bar === bar);
  return ps.length ? boxOf(ps)[2] : null;
}
function enclose(sys, b, type, style, el, size) {
  const pad = style.enclosurePad, cx = (b[0] + b[2]) / 2, cy = (b[1] + b[3]) / 2;
  let w = b[2] - b[0] + 2 * pad, h = Math.max(b[3] - b[1], size * 0.6) + 2 * pad;
  if (style.rehSquare && w < h) w = h;
  if (type === 'box') { const p = rectPath(cx - w / 2, cy - h / 2, w, h); sys.prims.push({ path: p, fill: false, stroke: style.enclosureLine, el: { ...el, frame: true } }); }
  else { const d = Math.hypot(w, h) * 0.92 / 2; const rx = Math.max(d, w / 2 * 1.15); sys.prims.push({ path: ellipsePath(cx, cy, rx, Math.min(rx, d)), fill: false, stroke: style.enclosureLine, el: { ...el, frame: true } }); }
}
function restyleCount(sys, g, style, number) {
  const bar = number.bars[g[0].el.bar], text = String(bar.count);
  for (const p of g) p.el = { ...p.el, text };
  if (!style.count) return;
  const b = boxOf(g), size = (2 * style.countSize) / digitHeight(style.count), below = b[1] > 1;
  remove(sys, g);
  putText(sys, text, style.count, size, (b[0] + b[2]) / 2, below ? 2 + style.countGap + 2 * style.countSize : Math.min(b[3], -2 - style.countGap), 'middle', g[0].el);
}
function restyleMeter(sys, g, style) {
  const b = boxOf(g), text = g.find(p => p.el.text)?.el.text;
  if (b[3] - b[1] < 3.2) return; // C or cut C
  const bar = g[0].el.meter;
  if (!bar) return;
  const size = 1.98 / digitHeight(style.meter);
  remove(sys, g);
  const y = (b[1] + b[3]) / 2;
  putText(sys, String(bar.beats), style.meter, size, (b[0] + b[2]) / 2, y - 0.02, 'middle', g[0].el, { text });
  putText(sys, String(bar.unit), style.meter, size, (b[0] + b[2]) / 2, y + 1.98, 'middle', g[0].el, { text });
}
function restyleThick(sys, g, style) {
  if (g.length !== 3 || style.thickBar === 'plain') return;
  const b = boxOf(g), el = g[0].el, y = (b[1] + b[3]) / 2; let [x0, , x1] = b;
  if (style.thickBar === 'short') { const c = (x0 + x1) / 2, w = Math.min(x1 - x0, 3 + (x1 - x0) * 0.3); x0 = c - w / 2; x1 = c + w / 2; }
  remove(sys, g);
  const h = style.thickBar === 'thin' ? 0.3 : style.thickH, s = style.thickBar === 'noserif' ? 0 : style.thickBar === 'tall' ? 4 : 2;
  sys.prims.push({ path: rectPath(x0, y - h / 2, x1 - x0, h), fill: true, stroke: 0, el });
  if (s) for (const x of [x0 + 0.07, x1 - 0.07]) sys.prims.push(line(x, y - s / 2, x, y + s / 2, 0.14 + style.enclosureLine / 3, el));
}
function oneNumerals(sys, style, number) {
  if (sys.staves.length > 1) return;
  for (const g of groups(sys, 'rest')) {
    const el = g[0].el, b = number.bars[el.bar];
    if (!b?.numeral) continue;
    const bx = boxOf(g), name = style.count ?? style.counter, size = (2 * style.countSize) / digitHeight(name);
    const top = obstacle(sys, bx[0] - 0.6, bx[2] + 0.6);
    putText(sys, '1', name, size, (bx[0] + bx[2]) / 2, Math.min(-2 - style.countGap, top - 0.4), 'middle', { ...el, kind: 'count', key: `count:one${el.bar}` });
    if (style.oneThick && bx[2] - bx[0] < 3) { const c = (bx[0] + bx[2]) / 2; remove(sys, g); const e = { ...el, kind: 'multi-rest' }; sys.prims.push({ path: rectPath(c - 1.6, -0.35, 3.2, 0.7), fill: true, stroke: 0, el: e }); for (const x of [c - 1.6, c + 1.6]) sys.prims.push(line(x, -1, x, 1, 0.16, e)); }
  }
}
/** Highest ink above the staff between two x (never below the top line). */
export function obstacle(sys, x0, x1) {
  let top = -2;
  for (const p of sys.prims) { if (p.el.kind === 'staffline') continue; const b = inkBox(p.path, p.stroke); if (b[2] > x0 && b[0] < x1 && b[3] < 0.5 && b[1] < top) top = b[1]; }
  return top;
}

/** Words printed over a rehearsal mark move to its right, as an engraver would set them. */
function unstack(sys) {
  const marks = groups(sys, 'rehearsal').map(boxOf);
  for (const kind of ['word', 'segno', 'coda', 'bar-number', 'counter']) for (const g of groups(sys, kind)) {
    const b = boxOf(g), m = marks.find(m => m[0] < b[2] + 0.1 && m[2] > b[0] - 0.1 && m[1] < b[3] + 0.1 && m[3] > b[1] - 0.1);
    if (!m) continue;
    const dx = g[0].el.word?.style === 'nav' ? m[0] - 0.5 - b[2] : m[2] + 0.5 - b[0];
    for (const p of g) p.path = mapPath(p.path, (x, y) => [x + dx, y]);
  }
}

/** Winged repeat signs: little strokes at the ends of the thick line. */
function wings(sys) {
  const dots = sys.prims.filter(p => p.el.kind === 'barline' && boxOf([p])[3] - boxOf([p])[1] < 1.2).map(p => boxOf([p]));
  for (const p of sys.prims.filter(p => p.el.kind === 'barline')) {
    const b = boxOf([p]); if (b[2] - b[0] < 0.34 || b[3] - b[1] < 3) continue;
    for (const side of [-1, 1]) {
      const x = side < 0 ? b[0] : b[2];
      if (!dots.some(d => Math.sign((d[0] + d[2]) / 2 - x) === side && Math.abs((d[0] + d[2]) / 2 - x) < 1.8)) continue;
      for (const [y, dy] of [[b[1], -0.7], [b[3], 0.7]]) sys.prims.push({ path: [['M', x, y], ['C', x + side * 0.2, y + dy * 0.4, x + side * 0.6, y + dy * 0.9, x + side * 1.1, y + dy]], fill: false, stroke: 0.22, el: { kind: 'wing', key: 'wing', bar: -1 } });
    }
  }
}
