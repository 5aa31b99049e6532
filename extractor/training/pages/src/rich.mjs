// Training pages with many signs of the form: endings of all sorts, segno and coda, words of navigation, holds, breaks, headings.
// Kept apart from music.mjs, whose pages the corpus is made of.
import { SANS, SERIF, SERIF_BOLD, SERIF_ITALIC } from './fonts.mjs';
import { barlines } from './truth.mjs';
import { boxOf, groups } from './style.mjs';
import { mapPath } from './geometry.mjs';

const NAV = ['D.S.', 'D.S. al Coda', 'D.S. al Fine', 'D.S. al @', 'D.S. % al @', 'D.S. % al Coda', 'D. S.', 'D.S. al Coda (no rep.)', 'D.S. (take rep.)', 'Dal Segno', 'Dal Segno al Fine', 'Dal Segno al Coda', 'Dal % al Fine', 'dal segno',
  'D.C.', 'D. C.', 'D.C. al Fine', 'D.C. al Coda', 'D.C. al @', 'D.C. senza rep.', 'Da Capo', 'Da Capo al Fine', 'Da Capo al Coda', 'da capo al fine', 'To Coda', 'to Coda', 'To Coda @', 'TO CODA', 'To @', 'to @', 'al Coda', 'al @',
  'last x to Coda', '2nd x to Coda', 'To Coda 2', 'Fine', 'FINE', 'Fine.', '(Fine)', 'fine', 'al Fine'];
const HERE = ['Coda', 'CODA', '@ Coda', 'Coda 2', 'Segno', '%', '@'];
const CAPS = ['Vamp', 'VAMP', 'Safety', 'Tacet', 'TACET', 'Segue', 'G.P.', 'Cut to', 'Open', 'Solo', 'On cue'];

/** Habits turned towards form. */
export function richHabits(h, r) {
  return { ...h, forms: r.range(2, 9), cues: r.chance(0.3) ? r.range(0.1, 0.3) : h.cues, resty: Math.max(h.resty, r.pick([0.1, 0.3, 0.5])), keyChanges: r.pick([0.05, 0.2, 0.5]), meterChanges: r.pick([h.meterChanges, 0.3]),
    segnos: r.range(0, 0.07), holds: r.range(0, 0.06), breaks: r.range(0, 0.06), navs: r.range(0, 0.06), enclosure: r.weighted({ box: 45, circle: 15, none: 40 }), oneNumbered: r.chance(0.4), repeats: r.chance(0.2) ? 0.25 : h.repeats };
}
export function richStyle(s, r) {
  return { ...s, ending: r.chance(0.5) ? r.pick([...SERIF_BOLD, ...SERIF, ...SANS, ...SERIF_ITALIC]) : s.ending, title: r.chance(0.6) && !s.hand ? r.pick([...SERIF_BOLD, ...SERIF, ...SANS, ...SERIF_ITALIC]) : s.title, rehSize: r.range(0.9, 2.3),
    numberPlace: s.everyBar ? s.numberPlace : r.weighted({ above: 4, left: 3, boxed: 3, none: 1 }), numberSize: r.range(0.75, 1.3), high: r.chance(0.3) ? r.range(0.5, 5) : 0, headLeft: r.chance(0.45) };
}
export function heading(number, r) {
  const l = r.chance(0.2) ? `${number.label}${r.pick(['A', 'B', 'C', 'a', 'b'])}` : number.label, t = number.title, T = t.toUpperCase();
  return r.pick([`No. ${l}  ${t}`, `No. ${l} ${t}`, `No. ${l} ${t}`, `No. ${l}: ${t}`, `No. ${l} - ${t}`, `No. ${l} – ${t}`, `NO. ${l} ${T}`, `${l}. ${t}`, `${l} ${t}`, `#${l} ${t}`, `#${l} - ${T}`, `No. ${l}`, `#${l}`, `${l}.`, `Nr. ${l} ${t}`, `N. ${l} ${T}`, `${l}: ${t}`, `${l} – ${T}`, `No. ${l} ${t} (Reprise)`, `Act ${r.pick(['I', 'II', 'One', 'Two'])} No. ${l}`, `No. ${l}. ${t}`]);
}

/** How a printer writes the numbers of an ending. */
function format(r) {
  const stop = r.chance(0.75) ? '.' : '', join = r.pick([',', ', ', '', ' ', ', ']), range = r.pick(['-', '–', ' - ']);
  return n => (n.length > 2 && r.chance(0.6) ? `${n[0]}${stop}${range}${n[n.length - 1]}${stop}` : n.map(v => `${v}${stop}`).join(stop || join.trim() ? join : ', '));
}

/** More signs on the bars of a number, in place. */
export function enrich(number, r, h) {
  const bars = number.bars, text = format(r);
  const shape = new Map();
  bars.forEach(b => { if (b.ending) { const k = b.ending.id.slice(0, -1); if (!shape.has(k)) shape.set(k, r.weighted([[[[1], [2]], 5], [[[1, 2], [3]], 2], [[[1, 2, 3], [4]], 1.5], [[[1], [2, 3]], 1], [[[1, 3], [2]], 0.5]])); } });
  bars.forEach((b, i) => { // longer endings
    if (!b.ending || bars[i - 1]?.ending?.id === b.ending.id || !r.chance(0.4)) return;
    for (let k = r.int(1, 4), j = i - 1; b.ending.id.endsWith('a') && k > 0 && j > 0 && !bars[j].ending && !bars[j].left && !bars[j - 1].ending && !bars[j + 1].newMeter && !bars[j + 1].newKey && bars[j].content !== 'bar-repeat-2'; k--, j--) bars[j].ending = { ...b.ending };
  });
  bars.forEach((b, i) => {
    if (!b.ending?.id.endsWith('b') || bars[i + 1]?.ending || !r.chance(0.4)) return;
    for (let k = r.int(1, 4), j = i + 1; k > 0 && j < bars.length && !bars[j].ending && !bars[j].left && !bars[j].newMeter && !bars[j].newKey && !bars[j].rehearsal && !/double|repeat/.test(bars[j - 1].right); k--, j++) bars[j].ending = { ...b.ending };
  });
  const texts = new Map();
  for (const b of bars) if (b.ending) {
    const id = b.ending.id, n = shape.get(id.slice(0, -1))[id.endsWith('a') ? 0 : 1];
    if (!texts.has(id)) texts.set(id, [text(n), r.chance(0.4)]);
    b.ending = { ...b.ending, numbers: n, text: texts.get(id)[0], open: id.endsWith('b') && texts.get(id)[1] };
  }
  bars.forEach((b, i) => {
    const own = s => b.signs.includes(s), ok = b.content === 'music' || b.content === 'rest' || b.content === 'multi-rest';
    if (ok && !own('segno') && !own('coda') && r.chance(h.segnos)) b.signs.push(r.pick(['segno', 'coda', 'coda']));
    if ((b.content === 'music' || b.content === 'rest') && !own('fermata') && r.chance(h.holds)) b.signs.push('fermata');
    if (b.content === 'music' && !own('caesura') && r.chance(h.breaks)) b.signs.push('caesura');
    if (!b.words.some(w => w.style === 'nav') && r.chance(h.navs)) { b.words.push({ text: r.pick(NAV), place: r.chance(0.75) ? 'above' : 'below', style: 'nav' }); if (b.right === 'single' && r.chance(0.6) && b.content !== 'bar-repeat-2') b.right = 'double'; }
    if (i && r.chance(h.navs * 0.5)) b.words.push({ text: r.pick(r.chance(0.6) ? HERE : CAPS), place: 'above', style: 'tempo', at: 1 });
    for (const w of b.words) if (w.style === 'nav' && r.chance(0.6)) w.text = r.pick(NAV);
  });
  return number;
}

/** Marks set high over the staff, as where they stand in one row over everything. */
export function raise(sys, style) {
  if (!style.high) return;
  const others = sys.prims.filter(p => !/staffline|rehearsal/.test(p.el.kind)).map(p => boxOf([p]));
  for (const g of groups(sys, 'rehearsal')) {
    const b = boxOf(g); let d = style.high;
    for (let n = 0; n < 12 && others.some(o => o[0] < b[2] + 0.2 && o[2] > b[0] - 0.2 && o[1] < b[3] - d + 0.2 && o[3] > b[1] - d - 0.2); n++) d += 0.5;
    for (const p of g) p.path = mapPath(p.path, (x, y) => [x, y - d]);
  }
}

/** Says what each key signature shows: "3b", "2#", "0" where it only takes back. `of`: bar index -> key, or nothing where glyphs tell. */
export function nameKeys(sys, number, glyphs) {
  const gs = groups(sys, 'key').map(g => ({ g, b: boxOf(g) })).sort((p, q) => p.b[0] - q.b[0]);
  const lines = barlines(sys), lastX = lines.length ? lines[lines.length - 1].x : Infinity, merged = [];
  for (const it of gs) {
    const near = merged.find(m => Math.abs((m.b[1] + m.b[3]) / 2 - (it.b[1] + it.b[3]) / 2) < 5 && it.b[0] - m.b[2] < 1.6 && it.b[0] - m.b[2] > -3);
    if (near) { near.g.push(...it.g); near.b = boxOf(near.g); } else merged.push({ ...it, g: [...it.g] });
  }
  const last = Math.max(...sys.prims.map(p => p.el.bar));
  merged.forEach((m, n) => {
    let key;
    if (glyphs) { const c = code => m.g.filter(p => p.glyph?.startsWith(code)).length; key = c('E262') - c('E260'); if (!c('E262') && !c('E260') && !c('E261')) throw new Error('a key signature of other glyphs'); }
    else { const bar = Math.max(...m.g.map(p => p.el.bar)); key = m.b[0] > lastX && number.bars[last + 1]?.newKey ? number.bars[last + 1].key : number.bars[bar]?.key; if (key === undefined) throw new Error('a key signature of no bar'); }
    const el = { ...m.g[0].el, key: `key:k${n}`, text: key === 0 ? '0' : `${Math.abs(key)}${key > 0 ? '#' : 'b'}` };
    for (const p of m.g) p.el = { ...p.el, ...el };
  });
}

/** LilyPond draws the numbers of endings as glyphs: their text comes from the music. A bracket that only goes on from the line before has none. */
export function nameEndings(sys, number) {
  for (const g of groups(sys, 'ending')) if (g.some(p => p.fill)) for (const p of g) p.el = { ...p.el, text: number.bars[p.el.bar]?.ending?.text };
}
