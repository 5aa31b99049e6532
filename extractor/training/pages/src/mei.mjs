// A musical number as MEI, for Verovio. Ids tie what is drawn to the bar (b12) and the sign (b12-reh) it stands for.
import { written } from './events.mjs';

const CLEF = { G2: [34], F4: [22], C4: [26], C3: [28], perc3: [34] }; // diatonic number of the middle line: octave*7 + step (C=0)
const STEP = 'cdefgab';
const RIGHT = { single: 'single', double: 'dbl', final: 'end', 'repeat-start': 'single', 'repeat-end': 'rptend', 'repeat-both': 'rptend', dashed: 'dashed', none: 'invis' };
const esc = s => s.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/"/g, '&quot;');
export const symbols = s => s.replace(/@/g, '\u{1D10C}').replace(/%/g, '\u{1D10B}').replace(/\bq(\.?) =/g, '♩$1 =').replace(/\bh(\.?) =/g, '\u{1D15E}$1 =').replace(/\be =/g, '♪ =');

export function middle(clef) { return CLEF[clef.shape + clef.line][0] - (clef.dis ? 7 : 0); }
const attrs = clef => `shape="${clef.shape}" line="${clef.line}"${clef.dis ? ` dis="${clef.dis}" dis.place="below"` : ''}`;
function pitch(p, clef) { const d = middle(clef) + p; return `pname="${STEP[((d % 7) + 7) % 7]}" oct="${Math.floor(d / 7)}"`; }

/** @param number from music.mjs; @returns {{mei:string, parts:Map}} */
/** @param alike two staves of one instrument: both have the part's own clef */
export function toMei(number, { staves = 1, second = null, breaks = null, leftLine = false, symbol = 'brace', alike = false } = {}) {
  const first = number.bars[0];
  const sig = k => (k === 0 ? '0' : `${Math.abs(k)}${k > 0 ? 's' : 'f'}`);
  const met = m => (number.goesOn && !first.newMeter && m === first.meter ? 'meter.visible="false" ' : '') + `meter.count="${m.beats}" meter.unit="${m.unit}"` + (m.sym === 'C' ? ' meter.sym="common"' : m.sym === 'C|' ? ' meter.sym="cut"' : '');
  const top = staves > 1 && !alike ? { shape: 'G', line: 2 } : first.clef, low = alike ? first.clef : { shape: 'F', line: 4 };
  const def = (n, clef) => `<staffDef n="${n}" lines="${number.lines ?? 5}" clef.shape="${clef.shape}"${clef.shape === 'perc' ? '' : ` clef.line="${clef.line}"`}/>`;
  let out = `<?xml version="1.0" encoding="UTF-8"?><mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.0"><meiHead><fileDesc><titleStmt><title>made</title></titleStmt><pubStmt/></fileDesc></meiHead><music><body><mdiv><score>` +
    `<scoreDef keysig="${sig(first.key)}" ${met(first.meter)}${leftLine ? ' system.leftline="true"' : ''}><staffGrp${staves > 1 ? ` symbol="${symbol}" bar.thru="true"` : ''}>${def(1, top)}${staves > 1 ? def(2, low) : ''}</staffGrp></scoreDef><section>`;
  let open = null, slurs = '', clef = top;
  number.bars.forEach((b, i) => {
    if (open && (!b.ending || b.ending.id !== open)) { out += '</ending>'; open = null; }
    if (i && (b.newMeter || b.newKey)) out += `<scoreDef${b.newKey ? ` keysig="${sig(b.key)}"` : ''} ${b.newMeter ? met(b.meter) : ''}/>`;
    if (breaks?.has(i)) out += '<sb/>';
    if (b.ending && !open) { open = b.ending.id; out += `<ending xml:id="b${i}-end" n="${b.ending.text}"${b.ending.open ? ' lendsym="none"' : ''}>`; }
    const ctl = [];
    const ctx = { i, clef, ctl, lines: number.lines ?? 5, first: null, last: null, n: 0 };
    out += `<measure n="${b.number}" xml:id="b${i}" right="${RIGHT[b.right] ?? 'single'}"${b.left === 'repeat-start' ? ' left="rptstart"' : ''}${b.pickup ? ' metcon="false"' : ''}>`;
    out += `<staff n="1">${body(b, ctx)}</staff>`;
    if (staves > 1) out += `<staff n="2">${body(second[i], { ...ctx, clef: low, ctl: [], i: `s${i}` })}</staff>`;
    clef = ctx.clef;
    controls(b, i, ctx);
    out += ctl.join('') + '</measure>';
  });
  if (open) out += '</ending>';
  return out + '</section></score></mdiv></body></music></mei>';
}

/** A staff of few lines counts its places from its lowest line. */
function height(p, { clef, lines }) { return lines < 5 ? `loc="${p / (lines === 2 ? 2 : 1) + lines - 1}"` : pitch(p, clef); }
/** Where a rest stands that makes room for cues: steps over the lowest line. */
const REST_AT = { up: ' loc="10"', down: ' loc="-2"', middle: ' loc="6"' };
function body(b, ctx) {
  if (b.content === 'multi-rest') return `<layer n="1"><multiRest num="${b.count}" block="${b.block ? 'false' : 'true'}"${b.below ? ' num.place="below"' : ''}/></layer>`;
  if (b.content === 'bar-repeat') return `<layer n="1"><mRpt/></layer>`;
  if (b.content === 'bar-repeat-2') return `<layer n="1"><mRpt2/></layer>`;
  if (b.content === 'rest') return `<layer n="1"><mRest xml:id="b${ctx.i}-rest"${REST_AT[b.restAt] ?? ''}/></layer>` + (b.cue ? `<layer n="2">${events(b.cue, ctx, b, true)}</layer>` : '');
  let notes = events(b.events, ctx, b, false);
  if (b.midClef) { ctx.clef = ctx.clef.shape === 'F' ? { shape: 'C', line: 4 } : { shape: 'F', line: 4 }; notes += `<clef ${attrs(ctx.clef)}/>`; }
  if (b.newClef && ctx.clef !== b.newClef) { ctx.clef = b.newClef; notes += `<clef ${attrs(ctx.clef)}/>`; }
  return `<layer n="1">${notes}</layer>`;
}

function events(gs, ctx, b, cue) {
  let out = '';
  gs.forEach((g, k) => {
    if (!cue && b.newClef && k > 0 && b.clefAt === k) { ctx.clef = b.newClef; out += `<clef ${attrs(ctx.clef)}/>`; }
    const beam = g.notes.length > 1 && g.notes.every(n => n.dur < 4) && g.notes.filter(n => !n.rest).length > 1;
    if (g.tuplet) out += `<tuplet num="${g.six ? 6 : 3}" numbase="${g.six ? 4 : 2}" bracket.visible="${beam && !g.bracket ? 'false' : 'true'}">`;
    if (beam) out += '<beam>';
    for (const n of g.notes) {
      const [dur, dots] = written(n.dur);
      const d = `dur="${dur}"${dots ? ` dots="${dots}"` : ''}`;
      // the id says what the note is worth as printed, so that its truth is told where it is drawn; cues say nothing
      const worth = cue ? '' : `v${dur}d${dots}t${g.tuplet ? 1 : 0}`, id = `b${ctx.i}-n${ctx.n++}${worth}`;
      if (n.rest) { out += `<rest xml:id="${id.replace('-n', '-p')}" ${d}/>`; continue; }
      ctx.first ??= id; ctx.last = id;
      const c = cue ? ' cue="true"' : '';
      if (n.grace !== undefined) out += `<note grace="acc" dur="8" stem.dir="up" ${pitch(n.grace, ctx.clef)}/>`;
      const at = `${d}${c}${n.tie && !cue ? ` tie="${n.tie}"` : ''}${n.artic ? ` artic="${n.artic}"` : ''}${n.slash ? ` stem.mod="${n.slash}slash"` : ''}`;
      const sung = cue ? b.cueSyllables : b.syllables;
      const lyr = sung ? `<verse n="1"><syl>${esc(sung[ctx.n % sung.length])}</syl></verse>` : '';
      const shape = n.head ? ` head.shape="${n.head}"${n.stemless ? ' stem.visible="false"' : ''}` : '', own = k => (n.heads?.[k] ? ` head.shape="${n.heads[k]}"` : shape);
      if (n.pitches.length > 1) out += `<chord xml:id="${id}" ${at}>${n.pitches.map((p, k) => `<note ${height(p, ctx)}${own(k)}/>`).join('')}${lyr}</chord>`;
      else out += `<note xml:id="${id}" ${at} ${height(n.pitches[0], ctx)}${own(0)}${n.accid ? ` accid="${n.accid}"` : ''}>${lyr}</note>`;
    }
    if (beam) out += '</beam>';
    if (g.tuplet) out += '</tuplet>';
  });
  return out;
}

function controls(b, i, ctx) {
  const { ctl } = ctx;
  const beats = b.pickup ? 1 : b.meter.beats;
  if (b.rehearsal) ctl.push(`<reh xml:id="b${i}-reh" tstamp="0" staff="1" place="above">${esc(b.rehearsal.text)}</reh>`);
  b.words.forEach((w, k) => {
    const ts = w.style === 'nav' ? Math.max(1, beats - 0.5) : b.content === 'music' ? Math.min(w.at ?? 1, beats) : 1;
    const tag = w.style === 'tempo' ? 'tempo' : 'dir';
    ctl.push(`<${tag} xml:id="b${i}-w${k}" tstamp="${ts}" staff="1" place="${w.place}">${esc(symbols(w.text))}</${tag}>`);
  });
  if (b.counter) ctl.push(`<dir xml:id="b${i}-ctr" tstamp="${b.content === 'music' ? 1 + (beats - 1) / 2 : 1}" staff="1" place="${b.counterPlace ?? 'above'}">${b.counter}</dir>`);
  (b.chordSigns ?? []).forEach((c, k) => ctl.push(`<harm xml:id="b${i}-h${k}" tstamp="${b.content === 'music' ? Math.min(c.at, beats) : 1}" staff="1" place="above">${esc(c.text)}</harm>`));
  for (const s of b.signs) {
    if (s === 'segno' || s === 'coda') ctl.push(`<repeatMark xml:id="b${i}-${s}" tstamp="1" staff="1" func="${s}"/>`);
    if (s === 'fermata') ctl.push(`<fermata xml:id="b${i}-fermata" startid="#${ctx.last ?? `b${i}-rest`}" place="above"/>`);
    if (s === 'caesura') ctl.push(`<caesura xml:id="b${i}-caesura" tstamp="${beats + 0.6}" staff="1"/>`);
  }
  if (b.dyn) ctl.push(`<dynam tstamp="1" staff="1" place="below">${b.dyn}</dynam>`);
  if (b.hairpin && ctx.first) ctl.push(`<hairpin form="${b.hairpin}" tstamp="${1 + (b.dyn ? 1 : 0) * 0.8}" tstamp2="0m+${beats}" staff="1" place="below"/>`);
  if (b.octave && ctx.first !== ctx.last) ctl.push(`<octave startid="#${ctx.first}" endid="#${ctx.last}" staff="1" dis="8" dis.place="${b.octave}"/>`);
  if (b.slur && ctx.first !== ctx.last) ctl.push(`<slur startid="#${ctx.first}" endid="#${ctx.last}"/>`);
  if (b.fing !== undefined && ctx.first) ctl.push(`<fing startid="#${ctx.first}" place="above">${b.fing}</fing>`);
}
