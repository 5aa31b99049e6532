// LilyPond as engraver: SVG back end, grobs marked by output-attributes (class = kind, id = bar and sign).
import { execFile } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { written } from './events.mjs';
import { inkBox } from './geometry.mjs';
import { middle, symbols } from './mei.mjs';
import { displayList } from './svg.mjs';
import { assignBars, systemsFrom } from './systems.mjs';

const run = promisify(execFile);
/** Of its SVG. */
const SPACE = 1;
const KEYS = ['ges', 'des', 'as', 'es', 'bes', 'f', 'c', 'g', 'd', 'a', 'e', 'b', 'fis'];
/** The other engravers take the middle line of a percussion clef for that of a treble clef. */
const PERC_MIDDLE = '\\set Staff.middleCClefPosition = #-6 \\set Staff.middleCPosition = #-6 ';
const SHARPS = [3, 0, 4, 1, 5, 2, 6]; // f c g d a e b as steps from c
const CLEFS = { G2: 'treble', F4: 'bass', C4: 'tenor', C3: 'alto', perc3: 'percussion' };
const q = s => `"${s.replace(/\\/g, '\\\\').replace(/"/g, '\\"')}"`;
const tag = (kind, id) => `\\tweak output-attributes #'((class . "${kind}") (id . "${id}"))`;

function pitch(p, clef, key, accid) {
  const d = middle(clef) + p, step = ((d % 7) + 7) % 7, oct = Math.floor(d / 7);
  const order = SHARPS.indexOf(step);
  let alt = key > 0 && order < key ? 1 : key < 0 && 6 - order < -key ? -1 : 0;
  if (accid) alt = accid === 's' ? 1 : accid === 'f' ? -1 : 0;
  return 'cdefgab'[step] + (alt > 0 ? 'is' : alt < 0 ? 'es' : '') + (oct >= 3 ? "'".repeat(oct - 3) : ','.repeat(3 - oct));
}
const ARTIC = { stacc: '-.', acc: '->', ten: '--', marc: '-^' };

function notes(gs, st, b, post, cue, name) {
  const flat = gs.flatMap(g => g.notes.filter(n => !n.rest)), firstN = flat[0], lastN = flat[flat.length - 1];
  let out = '', k = 0, at = 0, sung = 0;
  const signs = cue ? [] : [...(b.chordSigns ?? [])], words = cue ? b.cueSyllables : b.syllables;
  for (const g of gs) {
    if (g.tuplet) out += `\\tuplet ${g.six ? '6/4' : '3/2'} { `;
    for (const n of g.notes) {
      const [dur, dots] = written(n.dur), d = dur + '.'.repeat(dots);
      const here = []; while (signs.length && !n.rest && at >= (signs[0].at - 1) * (16 / b.meter.unit) - 0.01) here.push(signs.shift());
      at += g.tuplet ? (n.dur * 2) / 3 : n.dur;
      if (n.rest) { out += `${name ? tag('note-rest', `${name}-r${k++}v${dur}d${dots}t${g.tuplet ? 1 : 0}`) : ''} r${d} `.trimStart(); continue; }
      if (n.grace !== undefined) out += `\\acciaccatura ${pitch(n.grace, st.clef, st.key)}8 `;
      const shape = i => ((n.heads?.[i] ?? n.head) === 'slash' ? `\\tweak style #'slash ${tag('slash', `${name || 'b0'}-s${k}`)} ` : (n.heads?.[i] ?? n.head) === 'x' ? "\\tweak style #'cross " : '');
      const head = n.head === 'slash' ? '' : name ? `${tag('notehead', `${name}-n${k++}v${dur}d${dots}t${g.tuplet ? 1 : 0}`)} ` : '';
      const ps = [...new Set(n.pitches)].map((p, i) => head + shape(i) + pitch(p, st.clef, st.key, i ? null : n.accid));
      if (n.stemless) out += '\\once \\omit Stem ';
      out += (ps.length > 1 || n.head || n.heads ? `<${ps.join(' ')}>` : ps[0]) + d + (n.slash ? `:${Math.max(8, dur >= 4 ? 4 : dur) * 2 ** n.slash > 64 ? 32 : 8 * 2 ** (n.slash - 1) * (dur > 4 ? 2 : 1)}` : '') + (!cue && /^[im]$/.test(n.tie ?? '') ? '~' : '') + (n.artic ? ARTIC[n.artic] : '');
      for (const c of here) out += `-${tag('chord', `b${b.index}-h${b.chordSigns.indexOf(c)}`)}^\\markup \\sans ${q(c.text)} `.replace('-\\tweak', '-\\tweak').replace(/^-(\\tweak .*?\)\)) ?\^/, '-$1 ^');
      if (words && b.sing) out += `-${tag('lyric', `b${b.index}-l${sung}`)} _\\markup \\teeny ${q(words[sung++ % words.length])} `;
      if (!cue && n === firstN) out += post + (b.dyn ? `\\${b.dyn}` : '') + (b.hairpin && firstN !== lastN ? (b.hairpin === 'cres' ? '\\<' : '\\>') : '') + (b.slur && firstN !== lastN ? '(' : '') + (b.fing ? `-${b.fing}` : '');
      if (!cue && n === lastN && firstN !== lastN) out += (b.hairpin ? '\\!' : '') + (b.slur ? ')' : '');
      out += ' ';
    }
    if (g.tuplet) out += '} ';
  }
  return { out, has: flat.length > 0 };
}

/** The music of a number as LilyPond input. */
export function toLy(number, o) {
  const bars = number.bars, st = { clef: bars[0].clef, key: bars[0].key };
  let out = '', i = 0;
  const len = m => `1*${m.beats}/${m.unit}`;
  const posts = (b, i) => {
    let s = '';
    b.words.forEach((w, k) => { s += (w.place === 'below' ? '_' : '^') + tag('word', `b${i}-w${k}`) + ` \\markup ${w.style === 'tempo' || w.style === 'nav' ? '\\bold' : '\\italic'} ${q(symbols(w.text))} `; });
    if (b.counter && b.counterPlace === 'below') s += '_' + tag('counter', `b${i}-ctr`) + ` \\markup \\bold ${q(String(b.counter))} `; else if (b.counter) s += '^' + tag('counter', `b${i}-ctr`) + ` \\markup \\bold ${q(String(b.counter))} `;
    for (const x of b.signs) if (x === 'segno' || x === 'coda' || x === 'fermata') s += '^' + tag(x, `b${i}-${x}`) + ` \\${x} `;
    return s.replace(/([_^])(\\tweak .*?\)\)) /g, '$2 $1').replace(/(\\tweak)/g, '-$1').replace(/\)\) ([_^])/g, ')) $1');
  };
  const before = (b, i) => {
    let s = '';
    if (b.newKey && i) { st.key = b.key; s += `\\key ${KEYS[b.key + 6]} \\major `; }
    if (b.newMeter) s += `${b.meter.sym ? '\\defaultTimeSignature' : '\\numericTimeSignature'} \\time ${b.meter.beats}/${b.meter.unit} `;
    if (i && bars[i - 1].ending && bars[i - 1].ending.id !== b.ending?.id || b.ending && bars[i - 1]?.ending?.id !== b.ending.id) {
      const c = []; if (i && bars[i - 1].ending) c.push('(volta #f)'); if (b.ending && bars[i - 1]?.ending?.id !== b.ending.id) c.push(`(volta ${q(b.ending.text)})`);
      s += `\\once \\override Score.VoltaBracket.output-attributes = #'((class . "ending") (id . "b${i}-end")) \\set Score.repeatCommands = #'(${c.join(' ')}) `;
    }
    if (b.rehearsal) s += `${tag('rehearsal', `b${i}-reh`)} \\mark \\markup ${b.rehearsal.enclosure === 'none' ? '' : '\\pad-around #0.5 '}\\bold ${q(b.rehearsal.text)} `;
    if (b.pickup) s += '\\partial 4 ';
    return s;
  };
  const after = (b, i) => {
    const next = bars[i + 1];
    const type = { double: '||', final: '|.', 'repeat-start': '.|:-|', 'repeat-end': ':|.', 'repeat-both': o.both, dashed: '!', none: '', single: i === bars.length - 1 ? '|' : null }[b.right];
    return (b.signs.includes('caesura') && !next?.newMeter ? `\\once \\override BreathingSign.text = \\markup { \\musicglyph "scripts.caesura.straight" } ${tag('caesura', `b${i}-caesura`)} \\breathe ` : '') + (type === null ? '| ' : `\\bar "${type}" `) + (o.breaks ? (o.breaks.has(i + 1) ? '\\break ' : '\\noBreak ') : '') + '\n';
  };
  if (bars[0].left === 'repeat-start') out += '\\bar ".|:" ';
  bars.forEach((b, n) => { b.index = n; });
  while (i < bars.length) {
    const b = bars[i];
    out += before(b, i);
    if (b.content === 'multi-rest') out += `\\once \\override MultiMeasureRest.expand-limit = #${b.block ? 12 : 1} ${b.below ? '\\once \\override MultiMeasureRestNumber.direction = #DOWN ' : ''}R${len(b.meter)}*${b.count}${posts(b, i)} `;
    else if (b.content === 'rest' && !b.cue) out += `R${len(b.meter)}${posts(b, i)} `;
    else if (b.content === 'rest') out += `<< { R${len(b.meter)}${posts(b, i)} } \\\\ { \\teeny ${notes(b.cue, st, b, '', true).out} } >> `;
    else {
      const m = b.content === 'music' ? notes(b.events, st, b, posts(b, i), false, o.sounds && `b${i}`) : null;
      if (!m) throw new Error('percent repeat without a bar before it');
      let body = m.has ? m.out : m.out.replace(/^(\S+) /, `$1${posts(b, i)} `);
      if (b.midClef) { st.clef = st.clef.shape === 'F' ? { shape: 'C', line: 4 } : { shape: 'F', line: 4 }; body += `\\clef ${CLEFS[st.clef.shape + st.clef.line]} `; }
      let k = i; while (bars[k + 1]?.content === 'bar-repeat') k++;
      if (k > i) { out += `\\repeat percent ${k - i + 1} { ${body} } `; i = k; } else out += body;
    }
    out += after(bars[i], i); i++;
  }
  return out;
}

const GROBS = { Score: { BarNumber: 'bar-number', SystemStartBar: 'start-line', SystemStartBrace: 'brace' },
  Staff: { BarLine: 'barline', StaffSymbol: 'staffline', TimeSignature: 'meter', Clef: 'clef', CueClef: 'clef', KeySignature: 'key', KeyCancellation: 'key', LedgerLineSpanner: 'ledger', Accidental: 'accid' },
  Voice: { MultiMeasureRest: 'rest', MultiMeasureRestNumber: 'count', PercentRepeat: 'bar-repeat', DoublePercentRepeat: 'bar-repeat-2', PercentRepeatCounter: 'rptnum', NoteHead: 'notehead', Stem: 'stem', Beam: 'beam', Flag: 'flag', Slur: 'slur', Script: 'artic', DynamicText: 'dynam', Hairpin: 'hairpin', Rest: 'note-rest', TupletNumber: 'tupletnum', TupletBracket: 'tuplet', Dots: 'dots', Fingering: 'fing' } };

export function lilypondOptions(r) {
  const hair = r.range(1.4, 3.8);
  return { width: r.range(76, 132), staffLine: r.range(0.8, 1.9), hair, thick: Math.max(r.range(4, 8), 2 * hair), stem: r.range(1, 2.4), kern: r.range(2.4, 4), beam: r.range(0.4, 0.56), rest: r.range(4, 12), both: r.pick([':..:', ':|.|:', ':|.:', ':.|.:']), numbers: true, ragged: r.chance(0.1), every: false, spacing: r.range(1, 1.6), dense: r.range(0.6, 1.4) };
}
export function lySource(number, o) {
  const attr = Object.entries(GROBS).map(([c, g]) => `\\context { \\${c} ${Object.entries(g).map(([n, k]) => `\\override ${n}.output-attributes = #'((class . "${k}"))`).join(' ')} }`).join('\n');
  const mm = 1.7573, b0 = number.bars[0];
  return `\\version "2.24.0"
#(set-global-staff-size 20)
\\paper { page-breaking = #ly:one-page-breaking indent = 0 line-width = ${(o.width * mm).toFixed(1)}\\mm paper-width = ${(o.width * mm + 60).toFixed(1)}\\mm left-margin = 30\\mm top-margin = 40\\mm bottom-margin = 30\\mm
 print-page-number = ##f tagline = ##f ragged-last = ##t system-system-spacing = #'((basic-distance . 40) (minimum-distance . 40) (padding . 8) (stretchability . 0)) }
\\layout { ${attr} \\context { \\Score \\override BarNumber.font-size = #-1 ${o.every ? '\\override BarNumber.break-visibility = ##(#f #t #t) barNumberVisibility = #all-bar-numbers-visible' : ''} \\override SpacingSpanner.common-shortest-duration = #(ly:make-moment ${o.dense > 1 ? '1/8' : '3/16'}) \\override MultiMeasureRestText.outside-staff-priority = #450 ${o.voltaText ? "\\override VoltaBracket.font-encoding = #'latin1 \\override VoltaBracket.font-size = #-1" : ''} }
 \\context { \\Staff ${number.lines < 5 ? `\\override StaffSymbol.line-positions = #'(${number.lines === 2 ? '-2 2' : '0'}) ` : ''}\\override StaffSymbol.thickness = #${o.staffLine.toFixed(2)} \\override BarLine.hair-thickness = #${o.hair.toFixed(2)} \\override BarLine.thick-thickness = #${o.thick.toFixed(2)} \\override BarLine.kern = #${o.kern.toFixed(2)} }
 \\context { \\Voice \\override Stem.thickness = #${o.stem.toFixed(2)} \\override Beam.beam-thickness = #${o.beam.toFixed(2)} \\override MultiMeasureRest.thick-thickness = #${o.rest.toFixed(2)} \\override MultiMeasureRest.minimum-length = #${Math.round(o.spacing * 10)} } }
\\score { \\new Staff { \\compressMMRests { \\set Score.rehearsalMarkFormatter = #format-mark-numbers \\set Score.currentBarNumber = #${Math.max(1, b0.number)} \\clef ${CLEFS[b0.clef.shape + b0.clef.line]} ${b0.clef.shape === 'perc' ? PERC_MIDDLE : ''}\\key ${KEYS[b0.key + 6]} \\major
${toLy(number, o)} } } \\layout { } }
`;
}
export async function engraveLilypond(number, o) {
  const dir = fs.mkdtempSync(path.join(os.tmpdir(), 'ly-'));
  try {
    fs.writeFileSync(path.join(dir, 'p.ly'), lySource(number, o));
    try { await run('lilypond', ['-dbackend=svg', '-dno-point-and-click', '-s', '-o', path.join(dir, 'p'), path.join(dir, 'p.ly')], { timeout: 60000 }); }
    catch (e) { throw new Error(`LilyPond: ${(e.stderr ?? e.message).split('\n').find(l => /error/.test(l)) ?? 'failed'}`); }
    const list = displayList(fs.readFileSync(path.join(dir, 'p.svg'), 'utf8'), { defaultStroke: 0.1 });
    for (const p of list) p.el = classify(p);
    return assignBars(byStaff(list, number.lines < 5 ? { lines: number.lines, space: SPACE } : null), number);
  } finally { fs.rmSync(dir, { recursive: true, force: true }); }
}
function classify(p) {
  let kind = 'other', id = '', n = 0;
  for (const c of p.chain) { if (c.class) { kind = c.class; n = c.n; } if (c.id) id = c.id; }
  const m = /^b(\d+)-(\w[\w-]*)$/.exec(id);
  return { kind, key: `${kind}:${m ? id : n}`, bar: m ? Number(m[1]) : -1, ctl: m ? m[2] : '' };
}
/** Primitives go to the nearest staff (staves are set far apart). */
export function byStaff(list, few = null) {
  const ys = [...new Set(list.filter(p => p.el.kind === 'staffline').map(p => { const b = inkBox(p.path); return Math.round((b[1] + b[3]) * 50) / 100; }))].sort((a, b) => a - b);
  const own = few?.lines ?? 5;
  if (ys.length % own) throw new Error(`${ys.length} staff lines`);
  const mids = []; for (let i = own >> 1; i < ys.length; i += own) mids.push(ys[i]);
  const near = p => { const b = p.text ? [0, p.m[1] * p.x + p.m[3] * p.y + p.m[5], 0, p.m[1] * p.x + p.m[3] * p.y + p.m[5]] : inkBox(p.path); const y = (b[1] + b[3]) / 2; let k = 0; mids.forEach((m, i) => { if (Math.abs(m - y) < Math.abs(mids[k] - y)) k = i; }); return k; };
  const keyed = new Map(list.map(p => [p, near(p)]));
  return systemsFrom([...list].sort((a, b) => keyed.get(a) - keyed.get(b)), p => keyed.get(p), 1, few);
}
