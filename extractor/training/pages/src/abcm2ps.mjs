// abcm2ps as engraver: ABC in, annotated SVG (-A) out. Used for the held-out corpus only.
import { execFile } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { inkBox } from './geometry.mjs';
import { byStaff } from './lilypond.mjs';
import { middle, symbols } from './mei.mjs';
import { displayList } from './svg.mjs';
import { assignBars } from './systems.mjs';
import { obstacle } from './style.mjs';

const run = promisify(execFile);
const KEYS = ['Gb', 'Db', 'Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#'];
const CLEF = { G2: 'treble', F4: 'bass', C4: 'tenor', C3: 'alto' };
const ARTIC = { stacc: '.', acc: '!>!', ten: '!tenuto!', marc: '!^!' };
const SIZE = { mark: 15.5, tempo: 14.5, above: 13.5, ending: 12.5, number: 11.5 }; // sizes tell the kinds of text apart

function pitch(p, clef, accid) {
  const d = middle(clef) + p, n = 'CDEFGAB'[((d % 7) + 7) % 7], o = Math.floor(d / 7);
  return ({ s: '^', f: '_', n: '=' }[accid] ?? '') + (o >= 5 ? n.toLowerCase() + "'".repeat(o - 5) : n + ','.repeat(Math.max(0, 4 - o)));
}
function notes(b, clef, lead) {
  const flat = b.events.flatMap(g => g.notes).filter(n => !n.rest), first = flat[0], last = flat.at(-1), two = first !== last;
  let out = '', led = false;
  for (const g of b.events) {
    if (g.tuplet) out += '(3';
    for (const n of g.notes) {
      const d = n.dur === 0.5 ? '/' : n.dur === 1 ? '' : String(n.dur), pre = led ? '' : lead; led = true;
      if (n.rest) { out += `${pre}z${d}`; continue; }
      const ps = [...new Set(n.pitches)].map((p, i) => pitch(p, clef, i ? null : n.accid));
      out += pre + (two && n === first && b.slur ? '(' : '') + (n === first && b.dyn ? `!${b.dyn}!` : '') + (two && b.hairpin ? (n === first ? `!${b.hairpin === 'cres' ? '<' : '>'}(!` : n === last ? `!${b.hairpin === 'cres' ? '<' : '>'})!` : '') : '') +
        (n === last && b.signs.includes('fermata') ? '!fermata!' : '') + (n.artic ? ARTIC[n.artic] : '') + (n.slash ? '/'.repeat(0) : '') + (ps.length > 1 ? `[${ps.join('')}]` : ps[0]) + d + (two && n === last && b.slur ? ')' : '');
    }
    out += ' ';
  }
  return out;
}
export function toAbc(number, o) {
  const bars = number.bars, clef = bars[0].clef, r = bars[0];
  const met = m => (m.sym ?? `${m.beats}/${m.unit}`);
  let out = `%%pagewidth ${o.width.toFixed(1)}cm\n%%leftmargin 1cm\n%%rightmargin 1cm\n%%pageheight 600cm\n%%topmargin 2cm\n%%topspace 0cm\n%%staffsep 160pt\n%%maxstaffsep 160pt\n%%sysstaffsep 160pt\n%%maxsysstaffsep 160pt\n%%musicspace 60pt\n%%partsbox ${o.box ? 1 : 0}\n%%measurenb 0\n%%continueall 1\n%%stretchlast 0.8\n%%maxshrink ${o.shrink.toFixed(2)}\n%%notespacingfactor ${o.factor.toFixed(2)}\n` +
    `%%partsfont Serif-Bold ${SIZE.mark}\n%%tempofont Serif-Bold ${SIZE.tempo}\n%%annotationfont Serif ${SIZE.above}\n%%repeatfont Serif ${SIZE.ending}\n%%measurefont Serif ${SIZE.number}\n%%titleleft 0\n%%writefields T 0\n%%linewarn 0\n%%timewarn 0\nX:1\nT:\nM:${met(r.meter)}\nL:1/16\nK:${KEYS[r.key + 6]} clef=${CLEF[clef.shape + clef.line]}\n`;
  bars.forEach((b, i) => {
    if (i && b.newKey) out += `[K:${KEYS[b.key + 6]}]`;
    if (i && b.newMeter) out += `[M:${met(b.meter)}]`;
    if (b.rehearsal) out += `[P:${b.rehearsal.text}]`;
    let lead = '';
    for (const w of b.words) if (w.style !== 'nav') lead += `"${w.place === 'below' ? '_' : '^'}${symbols(w.text).replace(/"/g, '')}"`;
    for (const s of b.signs) if (s === 'segno' || s === 'coda') lead += `!${s}!`;
    const nav = b.words.find(w => w.style === 'nav');
    if (nav) lead += `"${nav.place === 'below' ? '_' : '^'}${symbols(nav.text)}"`;
    if (b.content === 'music') out += notes(b, clef, lead);
    else if (b.content === 'multi-rest') out += `${lead}Z${b.count}`;
    else out += `${lead}${b.signs.includes('fermata') ? '!fermata!' : ''}Z`;
    const next = bars[i + 1], ends = b.ending && next?.ending?.id !== b.ending.id && !b.ending.open && next;
    out += { single: '|', double: '||', final: '|]', 'repeat-start': '|:', 'repeat-end': ':|', 'repeat-both': '::', dashed: '.|' }[b.right];
    if (next?.ending && next.ending.id !== b.ending?.id) out += `["${next.ending.text}"`; else if (b.ending && next && !next.ending && ends && b.right === 'single') out += ']';
    out += i % 4 === 3 ? '\n' : ' ';
  });
  if (bars[0].left === 'repeat-start') out = out.replace(/(\nK:[^\n]*\n)/, '$1|:');
  return out + '\n';
}
export function abcOptions(r, h) { return { width: r.range(15.5, 23), box: h.enclosure !== 'none', shrink: r.range(0.55, 0.8), factor: r.range(1.15, 1.4) }; }

const GLYPH = { mrest: 'multi-rest', hld: 'fermata', sgno: 'segno', coda: 'coda', csig: 'meter', ctsig: 'meter', rdots: 'barline', r1: 'note-rest' };
export async function engraveAbc(number, o) {
  const dir = fs.mkdtempSync(path.join(os.tmpdir(), 'abc-'));
  try {
    fs.writeFileSync(path.join(dir, 'p.abc'), toAbc(number, o));
    try { await run('abcm2ps', ['-A', '-v', '-O', path.join(dir, 'p'), path.join(dir, 'p.abc')], { timeout: 60000 }); } catch (e) { throw new Error(`abcm2ps: ${e.message.split('\n')[0]}`); }
    const files = fs.readdirSync(dir).filter(f => f.endsWith('.svg')).sort();
    const systems = [];
    for (const f of files) systems.push(...byStaff(pieces(displayList(fs.readFileSync(path.join(dir, f), 'utf8'), { defaultStroke: 0.7 }))));
    for (const s of systems) for (const p of s.prims) if (p.el.kind === 'barline') p.el.key = `barline:${Math.round(inkBox(p.path)[0])}`;
    assignBars(systems, number);
    systems.forEach(s => identify(s, number));
    return systems;
  } finally { fs.rmSync(dir, { recursive: true, force: true }); }
}
let serial = 0;
/** Staff lines come as one path: cut it; name everything else by glyph, symbol type or size of its text. */
function pieces(list) {
  const out = [];
  for (const p of list) {
    const put = (kind, more = {}) => out.push({ ...p, ...more, el: { kind, key: `${kind}:${serial++}`, bar: -1, ctl: '' } });
    if (p.text) {
      const size = p.text[0]?.size;
      put(p.abc === 'M' ? 'meter' : p.abc === 'Z' ? 'count' : Math.abs(size - SIZE.mark) < 0.2 ? 'rehearsal' : Math.abs(size - SIZE.ending) < 0.2 ? 'ending' : Math.abs(size - SIZE.number) < 0.2 ? 'bar-number' : Math.abs(size - SIZE.above) < 0.2 ? 'word' : Math.abs(size - SIZE.tempo) < 0.2 ? 'word' : 'other');
      continue;
    }
    const lines = []; for (const c of p.path) c[0] === 'M' ? lines.push([c]) : lines.at(-1)?.push(c);
    const flat = lines.filter(l => l.length === 2 && l[1][0] === 'L' && Math.abs(l[0][2] - l[1][2]) < 0.01 && Math.abs(l[1][1] - l[0][1]) > 60);
    if (p.stroke && flat.length >= 5 && flat.length === lines.length) { for (const l of lines) put('staffline', { path: l }); continue; }
    const glyph = p.chain.filter(c => c.class === 'glyph').at(-1)?.id ?? p.chain.at(-1)?.id ?? '', all = p.chain.map(c => c.id);
    const g = Object.keys(GLYPH).find(k => all.includes(k));
    if (g === 'r1' && p.abc === 'Z') put('rest');
    else if (g) put(GLYPH[g]);
    else if (p.abc === 'B') put(inkBox(p.path, p.stroke)[3] - inkBox(p.path, p.stroke)[1] > 20 || /dots/.test(glyph) ? 'barline' : p.path.length === 5 ? 'rehearsal' : 'other');
    else if (all.some(id => /clef/.test(id))) put('clef');
    else if (p.abc === 'K' && all.some(id => /^(ft|sh|nt|ut|us|un)/.test(id))) put('key');
    else if (p.abc === 'M') put('meter');
    else put('other');
  }
  return out;
}
function identify(sys, number) {
  const own = k => [...sys.prims, ...sys.texts].filter(p => p.el.kind === k);
  const idx = own('barline').map(p => p.el.bar).filter(i => i >= 0), lo = Math.min(...idx), hi = Math.max(...idx);
  const bars = number.bars.map((b, i) => ({ b, i })).filter(t => t.i >= lo && t.i <= hi);
  sys.prims = sys.prims.filter(p => p.el.kind !== 'rehearsal'); // frames are drawn again around our own letters
  const marks = sys.texts.filter(t => t.el.kind === 'rehearsal').sort((a, b) => a.x - b.x), want = bars.filter(t => t.b.rehearsal);
  if (marks.length !== want.length) throw new Error(`${marks.length} marks drawn, ${want.length} meant`);
  marks.forEach((m, k) => { if (m.s !== want[k].b.rehearsal.text) throw new Error(`mark ${m.s}`); m.el = { ...m.el, bar: want[k].i, key: `rehearsal:${want[k].i}` }; });
  const texts = sys.texts.filter(t => t.el.kind === 'word').sort((a, b) => a.x - b.x), used = new Set();
  const words = bars.flatMap(t => t.b.words.map((w, k) => ({ ...t, w, k, s: symbols(w.text) })));
  if (texts.length !== words.length) throw new Error(`${texts.length} words drawn, ${words.length} meant`);
  for (const t of texts) { const w = words.find(w => !used.has(w) && w.s === t.s); if (!w) throw new Error(`stray text ${t.s}`); used.add(w); t.el = { ...t.el, bar: w.i, ctl: `w${w.k}`, key: `word:${w.i}-${w.k}` }; }
  for (const t of sys.texts) {
    const b = number.bars[t.el.bar];
    if (t.el.kind === 'count') { t.el.key = `count:${t.el.bar}`; if (t.s !== String(b.count)) throw new Error(`count ${t.s} for ${b.count}`); }
    if (t.el.kind === 'ending') { if (!b.ending) throw new Error('stray ending'); t.el.key = `ending:${b.ending.id}`; t.el.text = t.s; }
    if (t.el.kind === 'bar-number') t.s = String(b.number); // set anew in our own face anyway; ours counts long rests and upbeats as the map does
    if (t.el.kind === 'rehearsal') t.y = obstacle(sys, t.x - 0.7, t.x + 3) - 0.9; // abcm2ps sets part letters too high for a part book
  }
  for (const k of ['fermata', 'segno', 'coda']) for (const p of own(k)) p.el.key = `${k}:${p.el.bar}`;
  for (const p of own('note-rest')) if (number.bars[p.el.bar]?.content === 'rest') p.el = { ...p.el, kind: 'rest', key: `rest:${p.el.bar}` };
  for (const p of own('multi-rest')) p.el.key = `multi-rest:${p.el.bar}`;
  for (const p of [...own('key'), ...own('clef')]) p.el.key = `${p.el.kind}:${p.el.bar}`;
  for (const p of own('meter')) p.el.key = `meter:${p.el.bar}:${Math.round((p.path ? inkBox(p.path)[0] : p.x) / 3)}`;
  // the bracket of an ending has no name: long thin strokes beside its numeral
  for (const t of sys.texts.filter(t => t.el.kind === 'ending')) for (const p of sys.prims) if (p.el.kind === 'other' && p.stroke && !p.fill) { const b = inkBox(p.path, p.stroke); if (Math.abs(b[0] - (t.x - 0.7)) < 1.2 && b[3] < -2 && b[2] - b[0] > 2.5 && Math.abs(b[1] - t.y) < 4) p.el = { ...p.el, kind: 'ending', key: t.el.key, bar: t.el.bar }; }
}
