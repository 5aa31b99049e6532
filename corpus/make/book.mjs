// One page of a pit book: musical numbers in order, bars from 1 in each, marks in sequence, engraved by one of four engravers.
import { Random } from '../../extractor/training/pages/src/random.mjs';
import { habits, makeNumber, secondStaff } from '../../extractor/training/pages/src/music.mjs';
import { tidy } from '../../extractor/training/pages/src/tidy.mjs';
import { applyStyle, boxOf, groups, makeStyle, obstacle, putText } from '../../extractor/training/pages/src/style.mjs';
import { composePage, pageTruth } from '../../extractor/training/pages/src/page.mjs';
import { readSystem, resolveMeters } from '../../extractor/training/pages/src/truth.mjs';
import { engraveVerovio, verovioOptions } from '../../extractor/training/pages/src/verovio.mjs';
import { engraveLilypond, lilypondOptions } from '../../extractor/training/pages/src/lilypond.mjs';
import { engraveMusescore, musescoreOptions } from '../../extractor/training/pages/src/musescore.mjs';
import { abcOptions, engraveAbc } from '../../extractor/training/pages/src/abcm2ps.mjs';
import { SERIF_ITALIC } from '../../extractor/training/pages/src/fonts.mjs';
import { chart, chartHabits, chartStyle, chartTidy, restyleSlashes } from '../../extractor/training/pages/src/charts.mjs';
import { PERC_PARTS, cutBars, ghost, percHabits, strike } from '../../extractor/training/pages/src/percussion.mjs';
import { divide, lower, underHabit, wander } from '../../extractor/training/pages/src/uncommon.mjs';
import { title } from '../../extractor/training/pages/src/words.mjs';

const PARTS = ['Bass', 'Double Bass', 'Bass (Ac. & Elec.)', 'Contrabass'];

function pitHabits(r, engraver) {
  const h = habits(r);
  h.clef = r.chance(0.88) ? { shape: 'F', line: 4 } : h.clef;
  h.marks = r.weighted({ letters: 5, bars: 4, numbers: 1.5 });
  h.enclosure = r.weighted({ box: 75, circle: 10, none: 15 });
  if (engraver === 'abcm2ps' && h.enclosure === 'circle') h.enclosure = 'box';
  h.firstMark = 0; h.lyrics = false; h.everyBar = false; h.dashed = false; h.fing = 0;
  h.resty = r.pick([0.2, 0.35, 0.5]); h.meterChanges = r.pick([0.05, 0.15]); h.mode = r.weighted({ plain: 4, calm: 3, busy: 2 });
  h.noTwo = engraver !== 'verovio';
  return h;
}

/** @returns {page, meta} with the page composed in staff spaces, or throws when the engraver drew something else than meant. */
/** @param grand two staves a system, as piano-conductor books have; Verovio only */
/** @param rare `under`, `clefs` or `divisi` (uncommon.mjs); the last two by Verovio only */
/** @param numbered marks are often bare, and bar numbers stand where they can be taken for marks: see {@link renumber} */
export async function bookPage(engraver, seed, { grand = false, charts = false, perc = '', firstId = 1, numbered = false, rare = '' } = {}) {
  if (perc) charts = true;
  const r = new Random(seed), cr = charts ? r.fork(11) : null, h = charts ? chartHabits(pitHabits(r, engraver), cr, engraver) : pitHabits(r, engraver), style = charts ? chartStyle(makeStyle(r), cr) : makeStyle(r);
  const places = numbered ? numberHabit(new Random(seed ^ 0x3c6ef372), h) : null;
  const rr = rare ? new Random(seed ^ 0x51ed270b) : null, under = rare === 'under' ? underHabit(rr) : null;
  style.headLeft = r.chance(0.5); style.wings = false; style.oneThick = false; const place = r.weighted({ above: 5, left: 3, boxed: 1, none: 1 });
  if (!charts) style.numberPlace = place;
  const opening = r.chance(0.7) || firstId > 1;
  if (!opening && style.numberPlace === 'none') style.numberPlace = 'above';
  const half = perc ? cr.weighted([[null, 4], [1, 3], [1.5, 1], [2, 2]]) : null;
  if (perc) style.count = null; // an engraver's own numerals stand clear of its texts
  const from = r.int(1, 22), items = [];
  const vo = verovioOptions(r, r.pick(['Leipzig', 'Bravura', 'Leland', 'Gootville'])), lo = lilypondOptions(r), mo = musescoreOptions(r, h), ao = abcOptions(r, h);
  const engrave = { verovio: n => engraveVerovio(n, vo, grand ? { staves: 2, second: secondStaff(r, n) } : {}), lilypond: n => engraveLilypond(n, lo), musescore: n => engraveMusescore(n, mo), abcm2ps: n => engraveAbc(n, ao) }[engraver];
  const face = { verovio: vo.font, lilypond: 'Emmentaler', musescore: mo.face, abcm2ps: 'abcm2ps' }[engraver];
  const least = r.int(8, 11);
  for (let n = 0; n < 4 && items.length < least + 3; n++) {
    const first = n > 0 || opening, label = String(from + n);
    const own = perc ? percHabits(h, cr, perc === 'book' ? cr.pick([1, 5]) : { line1: 1, line2: 2, drums: 5 }[perc], half) : h;
    const number = makeNumber(r, own, { bars: r.int(18, 56), label: first ? label : null, state: { mark: first ? 0 : r.int(2, 9) }, firstNumber: first ? 1 : r.int(20, 90) });
    tidy(number, engraver, r);
    if (perc && own.lines < 5) chartTidy(strike(number, cr, own), engraver); else if (perc) chartTidy(strike(chart(number, cr, own), cr, own), engraver); else if (charts) chartTidy(chart(number, cr, h), engraver);
    if (grand) for (const b of number.bars) { b.midClef = false; delete b.cue; }
    if (!first && number.bars[0].pickup) throw new Error('a page that goes on has no upbeat');
    number.label ??= String(from); // a number that began on the page before
    number.heading = r.pick([`No. ${label}  ${number.title}`, `${label}. ${number.title}`, `#${label} – ${number.title}`, `No. ${label} – ${number.title.toUpperCase()}`]);
    const put = (number, systems, goes) => {
      for (const sys of systems) { cutBars(sys, own.half); if (perc) ghost(sys, own.ghosts, cr); resolveMeters(sys, number); if (charts) restyleSlashes(sys, style, cr); applyStyle(sys, style, number, r); if (places) renumber(sys, number, places); else if (!first && !goes && sys === systems[0]) goesOn(sys, number, style); if (under) lower(sys, number, under); allDrawn(readSystem(sys, number), sys); }
      systems.forEach((sys, k) => items.push({ sys, number, opening: first && !goes && k === 0 }));
    };
    if (rare === 'clefs') wander(number, rr);
    if (rare !== 'divisi') put(number, await engrave(number), false);
    else for (const part of divide(number, rr)) put(part, await engraveVerovio(part, vo, part.two ? { staves: 2, second: part.second, alike: true, symbol: 'bracket' } : {}), part.goesOn);
  }
  const name = title(r), part = perc ? r.pick(PERC_PARTS) : r.pick(PARTS), salt = r.fork(3);
  let page = null;
  for (let count = Math.min(items.length, 13); count >= (grand ? 3 : 5); count--) {
    const q = Object.assign(new Random(1), { s: [...salt.s] });
    let slice = items.slice(0, count);
    if (slice.at(-1).opening) slice = slice.slice(0, -1); // a heading's number has more than one line on the page
    page = composePage(slice, style, q, { title: null, part, pageNo: r.int(2, 60) });
    if (page.H <= page.W * 1.4) break;
  }
  page.H = Math.max(page.H, page.W * (1.28 + 0.1 * salt.next()));
  return { page, meta: { engraver, face, seed, title: name, part: grand ? 'Piano-Conductor' : part, firstId } };
}
/** A page that goes on with a number says at its head in which bar. */
function goesOn(sys, number, style) {
  if (groups(sys, 'bar-number').length) return;
  const el = { kind: 'bar-number', key: 'bar-number:0', bar: 0 };
  if (style.numberPlace === 'left') putText(sys, String(number.bars[0].number), style.number, 2, -0.4, 0.35, 'end', el);
  else putText(sys, String(number.bars[0].number), style.number, 2, 0, obstacle(sys, 0, 3) - 0.4, 'start', el);
}
function numberHabit(r, h) {
  h.marks = r.weighted({ letters: 4, bars: 4, numbers: 2 }); h.enclosure = r.weighted({ none: 5, box: 3.5, circle: 1.5 });
  const place = r.weighted({ over: 5, fives: 3, tens: 1, start: 2, left: 1 });
  return { place, face: r.pick(SERIF_ITALIC), size: r.range(1.5, 2.5), gap: r.range(0.3, 1.2), every: place === 'fives' ? 5 : place === 'tens' ? 10 : 0, middle: r.chance(0.5) };
}
/** Sets the bar numbers anew: over the first bar of every line (`over` its music, `start` its clef, `left` of it), or over every fifth or tenth bar. */
function renumber(sys, number, { place, face, size, gap, every, middle }) {
  const old = new Set(groups(sys, 'bar-number').flat()), lines = {};
  sys.prims = sys.prims.filter(p => !old.has(p) && p.el.kind !== 'bar-number');
  for (const p of sys.prims) if (p.el.kind === 'barline') { const b = boxOf([p]); lines[p.el.bar] = Math.max(lines[p.el.bar] ?? 0, b[2]); }
  const drawn = sys.prims.filter(p => /^(note|rest|multi-rest|bar-repeat|block-rest)/.test(p.el.kind)), bars = Object.keys(lines).map(Number).filter(b => b >= 0 && number.bars[b]).sort((a, b) => a - b), from = Math.min(...drawn.map(p => boxOf([p])[0]).filter(x => x > 4));
  const put = (bar, x, anchor, y) => { const text = String(number.bars[bar].number); if (Number(text) > 1) putText(sys, text, face, size, x, y ?? obstacle(sys, x - (anchor === 'middle' ? 2 : 0.5), x + (anchor === 'middle' ? 2 : 3.5)) - gap, anchor, { kind: 'bar-number', key: `bar-number:${bar}`, bar }); };
  if (every) { for (const bar of bars) if (number.bars[bar].number % every === 0 && !number.bars[bar].pickup) put(bar, bar === bars[0] ? 3 : lines[bar - 1] ?? 3, middle ? 'middle' : 'start'); return; }
  if (!bars.length || number.bars[bars[0]].pickup) return;
  if (place === 'left') put(bars[0], -0.4, 'end', 0.35); else if (place === 'start') put(bars[0], 0, 'start'); else put(bars[0], Number.isFinite(from) ? from : 6, 'start');
}
/** Every sign the truth will name is on the page. */
function allDrawn({ staves, bars, lastX }, sys) {
  for (const p of sys.prims) { // a bar broken at the line's end has no entry of its own: such pages are not used
    if (/^(staffline|clef|key|meter|word|rehearsal|slur|hairpin|ending|barline|start-line|count|bar-number|lyric|chord|counter|dynam)$/.test(p.el.kind)) continue;
    const b = boxOf([p]);
    if (b[0] > lastX + 0.6 && bars.at(-1).end !== 'none' && b[1] < 4 && b[3] > -4) throw new Error(`${p.el.kind} after the last barline`);
  }
  for (const { b, i, part } of bars) if (!part) {
    for (const s of b.signs.filter(s => /^(segno|coda|fermata|caesura)$/.test(s))) if (!staves[0].some(g => g.kind === s && g.bar === i)) throw new Error(`${s} not drawn`);
    if (b.words.filter(w => w.style !== 'counter').length !== staves[0].filter(g => g.kind === 'word' && g.bar === i).length) throw new Error('words not drawn as meant');
    if (b.content !== 'music' && !staves[0].some(g => (g.kind === b.content || (g.kind === 'block-rest' && b.content === 'multi-rest')) && g.bar === i)) throw new Error(`${b.content} not drawn`);
  }
}
export { pageTruth };
