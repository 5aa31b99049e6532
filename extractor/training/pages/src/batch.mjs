// A batch: one part (one or a few musical numbers) engraved, styled and cut into pages.
import { Random } from './random.mjs';
import { habits, makeNumber, secondStaff } from './music.mjs';
import { applyStyle, makeStyle } from './style.mjs';
import { composePage } from './page.mjs';
import { resolveMeters } from './truth.mjs';
import { engraveVerovio, verovioOptions } from './verovio.mjs';
import { engraveLilypond, lilypondOptions } from './lilypond.mjs';
import { addOssia } from './ossia.mjs';
import { makeHand } from './hand.mjs';
import { INSTRUMENTS, title } from './words.mjs';
import { quieten } from './sounds.mjs';
import { play } from './rhythms.mjs';
import { chart, chartHabits, chartStyle, restyleSlashes } from './charts.mjs';
import { lower, underHabit } from './uncommon.mjs';
import { enrich, heading, nameEndings, nameKeys, raise, richHabits, richStyle } from './rich.mjs';

export async function makeBatch(engraver, seed, { handShare, faces, rich = false, sounds = false, rhythms = false, charts = false, under = false }) {
  const r = new Random(seed);
  const hand = r.chance(handShare);
  const face = hand && r.chance(0.8) && faces.includes('Petaluma') ? 'Petaluma' : r.pick(faces);
  let h = habits(r), style = makeStyle(r, { hand: hand || (face === 'Petaluma' && r.chance(0.7)) });
  if (rich) h = richHabits(h, r);
  const ly0 = engraver === 'lilypond';
  style.headLeft = r.chance(0.3);
  style.everyBar = h.everyBar;
  if (h.everyBar) style.numberPlace = r.pick(['above', 'boxed', 'left']);
  if (rich) style = richStyle(style, r);
  if (charts) { h = chartHabits(h, r, engraver); style = chartStyle(style, r); }
  const ur = under ? new Random(seed ^ 0x51ed270b) : null, house = ur?.chance(0.65) ? underHabit(ur) : null; // the others tell what is under a staff and belongs to the next one
  if (house?.marks && h.marks === 'none') h.marks = ur.pick(['letters', 'numbers', 'bars']);
  if (house?.numbers && !house.every && style.numberPlace === 'none') style.numberPlace = ur.pick(['above', 'boxed', 'left']);
  const state = { mark: 0 }, items = [];
  const piano = !charts && !ly0 && r.chance(rich ? 0.12 : 0.04) && !hand, symbol = rich ? r.pick(['brace', 'brace', 'bracket', 'bracketsq', 'line']) : 'brace';
  const count = r.weighted(rich ? [[1, 3], [2, 3], [3, 2], [5, 1]] : [[1, 5], [2, 2], [3, 1]]), from = r.int(1, 30);
  const ly = engraver === 'lilypond';
  if (ly) h.noTwo = true;
  const options = ly ? { ...lilypondOptions(r), every: h.everyBar } : { ...verovioOptions(r, face), ...(h.everyBar ? { mnumInterval: 1 } : {}) };
  for (let n = 0; n < count; n++) {
    const label = count > 1 || r.chance(rich ? 0.7 : 0.4) ? String(from + n) : null;
    if (label) state.mark = 0;
    const number = makeNumber(r, h, { ...(rich ? { bars: r.int(8, 50) } : {}), label, state, firstNumber: label || r.chance(0.5) ? 1 : r.int(2, 300) });
    number.heading = r.pick([`No. ${label}  ${number.title}`, `${label}. ${number.title}`, `#${label} ${number.title}`, `No. ${label}`, `No. ${label} – ${number.title}`]);
    if (rich) { enrich(number, r, h); number.heading = heading(number, r); }
    if (rhythms) play(number, r, h);
    if (charts) chart(number, r, h);
    if (sounds) quieten(number, r);
    if (piano) for (const b of number.bars) { b.midClef = false; delete b.cue; }
    let breaks = null;
    if (r.chance(0.2)) { breaks = new Set(); let at = 0; while ((at += r.int(1, 7)) < number.bars.length) breaks.add(at); }
    const systems = ly ? await engraveLilypond(number, { ...options, breaks, sounds, ...(rich ? { voltaText: r.chance(0.6) || number.bars.some(b => /[^0-9., -]/.test(b.ending?.text ?? '')) } : {}) }) : await engraveVerovio(number, { ...options, breaks: breaks ? 'encoded' : 'auto' }, piano ? { breaks, staves: 2, symbol, second: secondStaff(r, number) } : { breaks });
    for (const sys of systems) { resolveMeters(sys, number); if (ly) nameEndings(sys, number); if (charts) restyleSlashes(sys, style, r); applyStyle(sys, style, number, r); if (house) lower(sys, number, house); if (rich) { if (!house?.marks) raise(sys, style); nameKeys(sys, number, !ly); } }
    const hr = r.fork(7);
    const nature = hand ? makeHand(hr) : null;
    systems.forEach((sys, k) => items.push({ sys: nature ? nature(sys, hr) : sys, number, opening: k === 0 }));
  }
  if (!piano && r.chance(0.08)) for (const t of items) if (r.chance(0.25)) addOssia(r.pick(items).sys, t.sys, r);
  const pages = [];
  const per = r.int(4, 14), k = r.range(12, 24), part = r.pick(INSTRUMENTS), name = title(r);
  for (let i = 0, n = 0; i < items.length; i += per, n++) {
    const slice = items.slice(i, i + per);
    if (slice.length < 2 && n) break;
    for (const s of slice) s.midlines = s.sys.midlines;
    const page = composePage(slice, style, r, { title: n === 0 && r.chance(0.6) ? name : null, part, pageNo: n + r.int(1, 40) });
    pages.push({ page, n, k, meta: { engraver, face: ly ? 'Emmentaler' : face, hand, sounds, charts, title: name, part } });
  }
  return pages;
}
