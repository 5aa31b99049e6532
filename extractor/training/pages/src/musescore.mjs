// MuseScore 3 as engraver: our own MSCX in, SVG with element classes out. Used for the held-out corpus only.
import { execFile } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { written } from './events.mjs';
import { byStaff } from './lilypond.mjs';
import { middle, symbols } from './mei.mjs';
import { displayList } from './svg.mjs';
import { assignBars } from './systems.mjs';
import { mapPath } from './geometry.mjs';
import { boxOf, groups } from './style.mjs';

const run = promisify(execFile);
const NAME = { 1: 'whole', 2: 'half', 4: 'quarter', 8: 'eighth', 16: '16th', 32: '32nd' };
const PC = [0, 2, 4, 5, 7, 9, 11], TPC = [14, 16, 18, 13, 15, 17, 19], SHARPS = [3, 0, 4, 1, 5, 2, 6];
const ARTIC = { stacc: 'articStaccatoAbove', acc: 'articAccentAbove', ten: 'articTenutoAbove', marc: 'articMarcatoAbove' };
const CLEF = { G2: 'G', F4: 'F', C4: 'C4', C3: 'C3', perc3: 'PERC' };
/** A staff of few lines: how many, and how far apart; places count from the upper line. */
const FEW = { 1: '<lines>1</lines>', 2: '<lines>2</lines><lineDistance>2</lineDistance>' };
/** Of its SVG. */
const SPACE = 25;
const HEAD = { slash: 'slash', x: 'cross' };
const esc = s => s.replace(/&/g, '&amp;').replace(/</g, '&lt;');
const note = s => esc(s).replace(/\bq(\.?) =/g, '<sym>metNoteQuarterUp</sym>$1 =').replace(/\bh(\.?) =/g, '<sym>metNoteHalfUp</sym>$1 =').replace(/\be =/g, '<sym>metNote8thUp</sym> =').replace(/@/g, '<sym>coda</sym>').replace(/%/g, '<sym>segno</sym>');

function noteXml(p, st, accid, head) {
  const d = middle(st.clef) + p, step = ((d % 7) + 7) % 7, oct = Math.floor(d / 7), order = SHARPS.indexOf(step);
  let alt = st.key > 0 && order < st.key ? 1 : st.key < 0 && 6 - order < -st.key ? -1 : 0;
  if (accid) alt = accid === 's' ? 1 : accid === 'f' ? -1 : 0;
  const sub = { s: 'accidentalSharp', f: 'accidentalFlat', n: 'accidentalNatural' }[accid];
  return `<Note>${accid ? `<Accidental><subtype>${sub}</subtype></Accidental>` : ''}<pitch>${(oct + 1) * 12 + PC[step] + alt}</pitch><tpc>${TPC[step] + 7 * alt}</tpc>${head ? `<head>${HEAD[head]}</head>` : ''}</Note>`;
}
/** A chord symbol: its root as MuseScore counts fifths, the rest by name. */
function harmony(text) {
  const m = /^([A-G])([b#]?)([^/]*)(?:\/([A-G])([b#]?))?$/.exec(text);
  if (!m) return `<Harmony><name>${esc(text)}</name></Harmony>`;
  const tpc = (n, a) => ({ C: 14, D: 16, E: 18, F: 13, G: 15, A: 17, B: 19 })[n] + (a === '#' ? 7 : a === 'b' ? -7 : 0);
  return `<Harmony><root>${tpc(m[1], m[2])}</root>${m[3] ? `<name>${esc(m[3].replace('△', 'maj').replace('°', 'dim').replace('ø', '0'))}</name>` : ''}${m[4] ? `<base>${tpc(m[4], m[5])}</base>` : ''}</Harmony>`;
}
const REST_UP = { up: -4, down: 4, middle: 0 };
const span = (type, inner, frac) => [`<Spanner type="${type}">${inner}<next><location><fractions>${frac}</fractions></location></next></Spanner>`, `<Spanner type="${type}"><prev><location><fractions>-${frac}</fractions></location></prev></Spanner>`];

function voice(gs, st, b, small, pre, o) {
  const flat = gs.flatMap(g => g.notes.map(n => ({ n, tup: g.tuplet }))), notes = flat.filter(f => !f.n.rest);
  const first = notes[0]?.n, last = notes.at(-1)?.n;
  let len = 0, on = false;
  for (const { n, tup } of flat) { if (n === first) on = true; if (n === last) break; if (on) len += tup ? n.dur * (2 / 3) : n.dur; }
  const frac = `${Math.round(len * 6)}/96`, slur = !small && b.slur && first !== last ? span('Slur', '<Slur></Slur>', frac) : null;
  const hair = !small && b.hairpin && first !== last ? span('HairPin', `<HairPin><subtype>${b.hairpin === 'cres' ? 0 : 1}</subtype></HairPin>`, frac) : null;
  let out = pre, at = 0, k = 0;
  for (const c of b.chordSigns ?? []) c.done = false;
  for (const g of gs) {
    if (g.tuplet) out += '<Tuplet><normalNotes>2</normalNotes><actualNotes>3</actualNotes><baseNote>eighth</baseNote><Number><style>Tuplet</style><text>3</text></Number></Tuplet>';
    for (const n of g.notes) {
      const [dur, dots] = written(n.dur), d = `${dots ? `<dots>${dots}</dots>` : ''}<durationType>${NAME[dur]}</durationType>`;
      if (n.rest) { out += `<Rest>${d}</Rest>`; at += g.tuplet ? n.dur * (2 / 3) : n.dur; continue; }
      if (!small && n === first && b.dyn) out += `<Dynamic><subtype>${b.dyn}</subtype></Dynamic>`;
      if (hair && n === first) out += hair[0];
      if (hair && n === last) out += hair[1];
      if (!small && n === last && b.signs.includes('fermata')) out += '<Fermata><subtype>fermataAbove</subtype></Fermata>';
      for (const c of b.chordSigns ?? []) if (!small && !c.done && at >= (c.at - 1) * (16 / b.meter.unit) - 0.01) { c.done = true; out += harmony(c.text); }
      at += g.tuplet ? n.dur * (2 / 3) : n.dur;
      const sung = small ? b.cueSyllables : b.syllables, syl = sung ? `<Lyrics><text>${esc(sung[k++ % sung.length])}</text></Lyrics>` : '';
      out += `<Chord>${small ? '<small>1</small>' : ''}${d}${n.stemless ? '<noStem>1</noStem>' : ''}${syl}${slur && n === first ? slur[0] : ''}${slur && n === last ? slur[1] : ''}${n.artic ? `<Articulation><subtype>${ARTIC[n.artic]}</subtype></Articulation>` : ''}${[...new Set(n.pitches)].map((p, i) => noteXml(o?.lines < 5 ? (p >= 0 ? 4 : 2) : p, st, i ? null : n.accid, n.heads?.[i] ?? n.head)).join('')}${n.slash ? `<Tremolo><subtype>r${8 * 2 ** (n.slash - 1)}</subtype></Tremolo>` : ''}</Chord>`;
    }
    if (g.tuplet) out += '<endTuplet/>';
  }
  return out;
}

export function toMscx(number, o) {
  const bars = number.bars, st = { clef: bars[0].clef, key: bars[0].key };
  let out = '', started = false;
  bars.forEach((b, i) => {
    const next = bars[i + 1], whole = `<durationType>measure</durationType><duration>${b.meter.beats}/${b.meter.unit}</duration>`;
    let pre = '', attrs = '', head = '';
    if (i === 0 && st.clef.shape !== 'F') pre += `<Clef><concertClefType>${CLEF[st.clef.shape + st.clef.line]}</concertClefType><transposingClefType>${CLEF[st.clef.shape + st.clef.line]}</transposingClefType></Clef>`;
    if (b.newKey || i === 0) { st.key = b.key; pre += `<KeySig><accidental>${b.key}</accidental></KeySig>`; }
    if (b.newMeter) pre += `<TimeSig>${b.meter.sym ? `<subtype>${b.meter.sym === 'C' ? 1 : 2}</subtype>` : ''}<sigN>${b.meter.beats}</sigN><sigD>${b.meter.unit}</sigD></TimeSig>`;
    if (b.ending && bars[i - 1]?.ending?.id !== b.ending.id) { let n = 1; while (bars[i + n]?.ending?.id === b.ending.id) n++; pre += `<Spanner type="Volta"><Volta><endHookType>${b.ending.open ? 0 : 1}</endHookType><beginText>${b.ending.text}</beginText><endings>${b.ending.numbers.join(',')}</endings></Volta><next><location><measures>${n}</measures></location></next></Spanner>`; b.voltaLen = n; }
    const before = bars[i - 1];
    if (before?.ending && before.ending.id !== b.ending?.id) { let n = 1; while (bars[i - 1 - n]?.ending?.id === before.ending.id) n++; pre += `<Spanner type="Volta"><prev><location><measures>-${n}</measures></location></prev></Spanner>`; }
    if (b.rehearsal) pre += `<RehearsalMark><text>${esc(b.rehearsal.text)}</text></RehearsalMark>`;
    for (const w of b.words) {
      if (w.style === 'nav') { head += w.sign === 'to-coda' || w.sign === 'fine' ? `<Marker><style>Repeat Text Right</style><text>${note(w.text)}</text><label>${w.sign === 'fine' ? 'fine' : 'coda'}</label></Marker>` : `<Jump><style>Repeat Text Right</style><text>${note(w.text)}</text><jumpTo>segno</jumpTo><playUntil>end</playUntil><continueAt></continueAt></Jump>`; continue; }
      if (w.style === 'tempo') pre += `<Tempo><tempo>2</tempo><followText>0</followText><text>${note(w.text)}</text></Tempo>`;
      else pre += `<StaffText>${w.place === 'below' ? '<placement>below</placement>' : ''}<text>${note(w.text)}</text></StaffText>`;
    }
    for (const s of b.signs) if (s === 'segno' || s === 'coda') head += `<Marker><style>Repeat Text Left</style><text><sym>${s}</sym></text><label>${s === 'coda' ? 'codab' : s}</label></Marker>`;
    if (b.left === 'repeat-start') head += '<startRepeat/>';
    if (b.right === 'repeat-end' || b.right === 'repeat-both') attrs += '<endRepeat>2</endRepeat>';
    const bl = { double: 'double', final: 'end', dashed: 'dashed' }[b.right] ?? (b.right === 'single' && !next ? 'normal' : null);
    const tail = (b.midClef ? clefChange(st) : '') + (b.signs.includes('caesura') ? '<Breath><symbol>caesura</symbol></Breath>' : '') + (bl ? `<BarLine><subtype>${bl}</subtype></BarLine>` : '');
    const ferm = b.signs.includes('fermata') && b.content !== 'music' ? '<Fermata><subtype>fermataAbove</subtype></Fermata>' : '';
    const m = (h, body) => { out += `<Measure${b.pickup ? ' len="1/4"' : ''}>${h}${b.pickup ? '<irregular>1</irregular>' : ''}${i === 0 && b.number > 1 && !started ? `<noOffset>${b.number - 1}</noOffset>` : ''}${body}`; started = true; out += `</Measure>\n`; };
    if (b.content === 'music') m(head + attrs, `<voice>${voice(b.events, st, b, false, pre, number)}${tail}</voice>`);
    else if (b.content === 'bar-repeat') m(head + attrs, `<voice>${pre}${(b.chordSigns ?? []).map(c => harmony(c.text)).join('')}<RepeatMeasure>${whole}</RepeatMeasure>${tail}</voice>`);
    else if (b.content === 'rest' && b.cue) m(head + attrs, `<voice>${pre}<Rest>${b.restAt ? `<offset x="0" y="${REST_UP[b.restAt]}"/>` : ''}${whole}</Rest>${tail}</voice><voice>${voice(b.cue, st, b, true, '', number)}</voice>`);
    else for (let k = 0; k < b.count; k++) m((k === 0 ? head + '<breakMultiMeasureRest>1</breakMultiMeasureRest>' : '') + (k === b.count - 1 ? attrs : ''), `<voice>${k === 0 ? pre : ''}${ferm}<Rest>${whole}</Rest>${k === b.count - 1 ? tail : ''}</voice>`);
  });
  const z = (k, v) => `<${k}>${v}</${k}>`;
  const style = [z('pageWidth', o.width), z('pageHeight', 44), z('pagePrintableWidth', (o.width - 1.2).toFixed(2)), z('pageEvenLeftMargin', 0.6), z('pageOddLeftMargin', 0.6), z('pageEvenTopMargin', 1.2), z('pageOddTopMargin', 1.2), z('createMultiMeasureRests', 1), z('minEmptyMeasures', 2), z('minSystemDistance', 26), z('maxSystemDistance', 26), z('showFooter', 0), z('showHeader', 0),
    z('musicalSymbolFont', o.face), z('musicalTextFont', { Emmentaler: 'MScore Text', Gonville: 'Gootville Text' }[o.face] ?? `${o.face} Text`), z('staffLineWidth', 0), z('barWidth', o.bar), z('endBarWidth', o.thick), z('doubleBarWidth', o.bar), z('stemWidth', o.stem), z('measureSpacing', o.spacing), z('minMMRestWidth', o.rest), z('rehearsalMarkFrameType', { box: 1, circle: 2, none: 0 }[o.enclosure]), z('rehearsalMarkFontFace', o.markFont), z('rehearsalMarkFontSize', o.markSize), z('rehearsalMarkFontStyle', 1),
    z('tempoFontFace', o.textFont), z('staffTextFontFace', o.textFont), z('repeatRightFontFace', o.textFont), z('measureNumberFontFace', o.textFont), z('measureNumberFontSize', o.numberSize), z('voltaFontFace', o.textFont), z('showMeasureNumber', o.numbers ? 1 : 0), z('mmRestNumberPos', 0), z('lastSystemFillLimit', 0.3), z('Spatium', 1.764)].filter(s => !/staffLineWidth/.test(s)).join('') + z('staffLineWidth', o.line);
  return `<?xml version="1.0" encoding="UTF-8"?>\n<museScore version="3.01"><programVersion>3.2.3</programVersion><Score><LayerTag id="0" tag="default"></LayerTag><currentLayer>0</currentLayer><Division>480</Division><Style>${style}</Style>` +
    `<Part><Staff id="1"><StaffType group="pitched"><name>stdNormal</name>${FEW[number.lines] ?? ''}</StaffType><defaultClef>F</defaultClef></Staff><trackName>Part</trackName><Instrument><longName></longName><shortName></shortName><trackName>Part</trackName></Instrument></Part><Staff id="1">${out}</Staff></Score></museScore>`;
}
function clefChange(st) { st.clef = st.clef.shape === 'F' ? { shape: 'C', line: 4 } : { shape: 'F', line: 4 }; const c = CLEF[st.clef.shape + st.clef.line]; return `<Clef><concertClefType>${c}</concertClefType><transposingClefType>${c}</transposingClefType></Clef>`; }

export function musescoreOptions(r, h) {
  const bar = r.range(0.14, 0.24), round = v => Math.round(v * 1000) / 1000;
  return { face: r.pick(['Emmentaler', 'Gonville', 'Bravura', 'MuseJazz', 'Emmentaler']), width: round(r.range(7.4, 9.4)), bar: round(bar), thick: round(r.range(0.4, 0.65)), stem: round(r.range(0.1, 0.17)), line: round(r.range(0.06, 0.12)), spacing: round(r.range(1.05, 1.4)), rest: round(r.range(4, 9)), enclosure: h.enclosure,
    markFont: r.pick(['Liberation Serif', 'Liberation Sans', 'FreeSerif', 'TeX Gyre Schola', 'DejaVu Sans', 'C059']), textFont: r.pick(['Liberation Serif', 'FreeSerif', 'TeX Gyre Schola', 'P052', 'C059', 'Nimbus Roman']), markSize: r.int(12, 18), numberSize: r.int(8, 11), numbers: true };
}
const KIND = { StaffLines: 'staffline', BarLine: 'barline', TimeSig: 'meter', KeySig: 'key', Clef: 'clef', Rest: 'rest', Note: 'notehead', Stem: 'stem', Beam: 'beam', RehearsalMark: 'rehearsal', Tempo: 'word', StaffText: 'word', Jump: 'word', Marker: 'marker', MeasureNumber: 'bar-number', VoltaSegment: 'ending', Fermata: 'fermata', Breath: 'caesura', RepeatMeasure: 'bar-repeat', Articulation: 'artic', Dynamic: 'dynam', HairpinSegment: 'hairpin', SlurSegment: 'slur', Tuplet: 'tuplet', Harmony: 'chord', Lyrics: 'lyric', LedgerLine: 'ledger', Accidental: 'accid', Tremolo: 'tremolo' };

export async function engraveMusescore(number, o) {
  const dir = fs.mkdtempSync(path.join(os.tmpdir(), 'ms-'));
  try {
    fs.writeFileSync(path.join(dir, 'p.mscx'), toMscx(number, o));
    try { await run('mscore3', ['-o', path.join(dir, 'p.svg'), path.join(dir, 'p.mscx')], { timeout: 120000, env: { ...process.env, QT_QPA_PLATFORM: 'offscreen' } }); } catch (e) { throw new Error(`MuseScore: ${e.message.split('\n')[0]}`); }
    const files = fs.readdirSync(dir).filter(f => /^p-\d+\.svg$/.test(f)).sort((a, b) => parseInt(a.slice(2)) - parseInt(b.slice(2)));
    const systems = [];
    for (const f of files) {
      const list = displayList(fs.readFileSync(path.join(dir, f), 'utf8'), { defaultStroke: 1 }).filter(p => !p.text);
      let n = 0;
      for (const p of list) { const cls = p.chain.at(-1)?.class ?? ''; p.el = { kind: KIND[cls] ?? 'other', cls, key: `${KIND[cls] ?? 'other'}:${n++}`, bar: -1, ctl: '' }; }
      const own = list.filter(p => p.el.cls || p.stroke || p.fill);
      if (own.some(p => p.el.kind === 'staffline')) systems.push(...byStaff(own.filter(p => p.el.cls), number.lines < 5 ? { lines: number.lines, space: SPACE } : null));
    }
    assignBars(systems, number);
    systems.forEach(s => identify(s, number));
    return systems;
  } finally { fs.rmSync(dir, { recursive: true, force: true }); }
}
/** Which sign of its bar an element is. Texts are outlines already: those of a system are told by their order, which must agree with the music. */
function identify(sys, number) {
  const idx = [...new Set(sys.prims.filter(p => p.el.kind === 'barline').map(p => p.el.bar))].filter(i => i >= 0), lo = Math.min(...idx), hi = Math.max(...idx);
  const bars = number.bars.map((b, i) => ({ b, i })).filter(t => t.i >= lo && t.i <= hi);
  const order = (cls, wanted, apply) => {
    const runs = clusters(sys.prims.filter(p => cls(p)));
    if (runs.length !== wanted.length) throw new Error(`${runs.length} ${cls.label} drawn, ${wanted.length} meant`);
    runs.forEach((g, k) => { for (const p of g) p.el = { ...p.el, bar: wanted[k].i, ...apply(wanted[k]) }; });
  };
  const of = (label, f) => Object.assign(f, { label });
  order(of('marks', p => p.el.kind === 'rehearsal'), bars.filter(t => t.b.rehearsal), t => ({ key: `rehearsal:${t.i}` }));
  const words = (label, test, pick) => order(of(label, test), bars.map(t => ({ ...t, w: t.b.words.find(pick) })).filter(t => t.w), t => ({ kind: t.w.style === 'counter' ? 'counter' : 'word', key: `word:${t.i}-${t.b.words.indexOf(t.w)}`, text: symbols(t.w.text), word: t.w }));
  words('tempi', p => p.el.cls === 'Tempo', w => w.style === 'tempo');
  words('texts above', p => p.el.cls === 'StaffText' && boxOf([p])[1] < 0, w => w.style !== 'tempo' && w.style !== 'nav' && w.place !== 'below');
  words('texts below', p => p.el.cls === 'StaffText' && boxOf([p])[1] >= 0, w => w.style !== 'tempo' && w.style !== 'nav' && w.place === 'below');
  words('jumps', p => p.el.cls === 'Jump', w => w.sign === 'da-capo' || w.sign === 'dal-segno');
  order(of('markers', p => p.el.kind === 'marker'), bars.flatMap(t => { const s = t.b.signs.find(s => s === 'segno' || s === 'coda'), w = t.b.words.find(w => w.sign === 'to-coda' || w.sign === 'fine'); return [s && { ...t, s }, w && { ...t, w }].filter(Boolean); }),
    t => (t.w ? { kind: 'word', key: `word:${t.i}-${t.b.words.indexOf(t.w)}`, text: symbols(t.w.text), word: t.w } : { kind: t.s, key: `${t.s}:${t.i}` }));
  for (const p of sys.prims) {
    const el = p.el, b = number.bars[el.bar], box = boxOf([p]);
    const set = (kind, key, more = {}) => { p.el = { ...el, kind, key: `${kind}:${key}`, ...more }; };
    if (!b) continue;
    if (el.kind === 'rest' && (b.content === 'music' || box[3] - box[1] > 1)) set('note-rest', `${el.key}`);
    else if (el.kind === 'multi-rest' && number.lines < 5 && box[1] < -1.5) { p.path = mapPath(p.path, (x, y) => [x, y - 1.2]); set('count', el.bar, { text: String(b.count) }); } // it would touch the bar
    else if (el.kind === 'multi-rest' && box[3] < -1.95) set('count', el.bar, { text: String(b.count) });
    else if (el.kind === 'bar-number') set('bar-number', el.bar, { text: String(b.number) });
    else if (el.kind === 'ending') { const e = [0, -1, 1].map(d => number.bars[el.bar + d]).find(c => c?.ending); if (!e) throw new Error('stray ending'); set('ending', e.ending.id, { text: e.ending.text, bar: number.bars.indexOf(e) }); }
    else if (el.kind === 'fermata' || el.kind === 'caesura') set(el.kind, el.bar);
  }
  if (number.lines < 5) for (const g of groups(sys, 'bar-repeat')) { const b = boxOf(g), dy = -(b[1] + b[3]) / 2; for (const p of g) p.path = mapPath(p.path, (x, y) => [x, y + dy]); } // it stands where five lines would have their middle
  for (const kind of ['key', 'meter']) for (const g of clusters(sys.prims.filter(p => p.el.kind === kind))) for (const p of g) p.el.key = g[0].el.key;
}
/** Things that stand together: sorted from left to right, apart by more than a space and a half. */
function clusters(prims) {
  const out = [];
  for (const p of prims.map(p => ({ p, b: boxOf([p]) })).sort((a, b) => a.b[0] - b.b[0])) {
    const g = out.at(-1);
    if (g && p.b[0] < g.x1 + 1.5) { g.push(p.p); g.x1 = Math.max(g.x1, p.b[2]); } else out.push(Object.assign([p.p], { x1: p.b[2] }));
  }
  return out;
}
