// Verovio as engraver: a musical number -> systems in staff spaces (see systems.mjs for the shape).
import createVerovioModule from 'verovio/wasm';
import { LOG_OFF, VerovioToolkit, enableLog } from 'verovio/esm';
import { displayList } from './svg.mjs';
import { toMei } from './mei.mjs';
import { systemsFrom } from './systems.mjs';

let toolkit;
async function kit() {
  if (!toolkit) { const m = await createVerovioModule(); enableLog(LOG_OFF, m); toolkit = new VerovioToolkit(m); }
  return toolkit;
}

export function verovioOptions(r, face) {
  const thin = r.range(0.22, 0.6);
  return {
    font: face, breaks: 'auto', pageHeight: 60000, adjustPageHeight: true, scale: 100, header: 'none', footer: 'none', svgViewBox: false, unit: 9,
    pageMarginLeft: 300, pageMarginRight: 300, pageMarginTop: 200, pageMarginBottom: 200, multiRestStyle: 'auto', justifyVertically: false,
    pageWidth: Math.round(r.range(76, 138) * 18) + 600, spacingSystem: 20, spacingLinear: r.range(0.1, 0.28), spacingNonLinear: r.range(0.4, 0.65),
    staffLineWidth: r.range(0.1, 0.26), barLineWidth: thin, stemWidth: r.range(0.14, 0.4), ledgerLineThickness: r.range(0.18, 0.4),
    thickBarlineThickness: Math.max(r.range(0.7, 1.5), 1.9 * thin), barLineSeparation: r.range(0.6, 1.1), repeatBarLineDotSeparation: r.range(0.25, 0.6),
    multiRestThickness: r.range(0.8, 3), hairpinThickness: r.range(0.1, 0.3), repeatEndingLineThickness: r.range(0.12, 0.4), hairpinSize: r.range(2, 4),
    beamMaxSlope: r.int(4, 16), slurMidpointThickness: r.range(0.3, 0.9), measureMinWidth: r.int(10, 30), mnumInterval: 0, graceFactor: r.range(0.55, 0.8),
    minLastJustification: r.pick([0.3, 0.8]), dashedBarLineDashLength: r.range(0.7, 1.5), dashedBarLineGapLength: r.range(0.7, 1.4), lyricSize: r.range(3, 5),
    tupletBracketThickness: r.range(0.15, 0.3), xmlIdSeed: r.int(1, 1e9), leftMarginNote: r.range(0.6, 1.4), beamFrenchStyle: r.chance(0.2),
  };
}

/** Of its SVG at the unit above. */
const SPACE = 180;
const CLASSES = { clef: 'clef', keySig: 'key', meterSig: 'meter', mRest: 'rest', mRpt: 'bar-repeat', mRpt2: 'bar-repeat-2', multiRest: 'multi-rest', multiRestNum: 'count', mRptNum: 'rptnum',
  reh: 'rehearsal', harm: 'chord', tempo: 'word', dir: 'word', repeatMark: 'nav', fermata: 'fermata', caesura: 'caesura', voltaBracket: 'ending', mNum: 'bar-number', notehead: 'notehead', stem: 'stem', flag: 'flag',
  beam: 'beam', dynam: 'dynam', hairpin: 'hairpin', slur: 'slur', tie: 'slur', ledgerLines: 'ledger', accid: 'accid', rest: 'note-rest', barLine: 'barline', tupletNum: 'tupletnum', tuplet: 'tuplet',
  fing: 'fing', syl: 'lyric', grpSym: 'brace', artic: 'artic', dots: 'dots' };

function classify(p) {
  let kind = 'other', key = '', bar = -1, measure = '', system = '', staff = '', ctl = '', rest = '', worth = '';
  for (const { class: cls, id } of p.chain) {
    const c = cls.split(' ')[0];
    if (c === 'system') system = id;
    if (c === 'staff') staff = id;
    if (c === 'rest') rest = id;
    if (c === 'measure') { measure = id; bar = Number(/^b(\d+)$/.exec(id)?.[1] ?? -1); }
    const m = /^b(\d+)-(\w[\w-]*)$/.exec(id);
    worth = /^bs?\d+-[np]\d+(v\w+)$/.exec(id)?.[1] ?? worth;
    if (m && !/^[np]\d/.test(m[2])) { ctl = m[2]; if (bar < 0 || c === 'ending') bar = Number(m[1]); }
    if (CLASSES[c]) { if (!(kind === 'rest' && c === 'rest')) kind = CLASSES[c]; key = id || key; }
  }
  const direct = p.chain[p.chain.length - 1];
  if (kind === 'other' && direct.class === 'staff') kind = 'staffline';
  if (kind === 'notehead' && /^E10[0-9A-F]$/.test((direct.id ?? '').split('-')[0])) kind = 'slash';
  if (ctl === 'ctr') kind = 'counter';
  if (kind === 'nav') kind = ctl === 'segno' || ctl === 'coda' ? ctl : 'word';
  if (kind === 'bar-repeat-2' && !p.text && direct.id && /^E08/.test(direct.id)) kind = 'rptnum';
  if (kind === 'multi-rest' && /^E4E/.test(direct.id)) kind = 'block-rest';
  return { kind, key: `${kind}:${kind === 'ending' ? `b${bar}` : key || ctl || measure}`, bar, ctl, system, staff, measure, rest, worth };
}

/** Engrave; @returns {systems, mei} or throws when Verovio refuses. */
export async function engraveVerovio(number, options, meiOptions = {}) {
  const tk = await kit();
  const mei = toMei(number, meiOptions);
  tk.resetOptions();
  tk.setOptions(options);
  if (!tk.loadData(mei)) throw new Error('Verovio could not read the MEI');
  const systems = [];
  for (let p = 1; p <= tk.getPageCount(); p++) {
    const list = displayList(tk.renderToSVG(p));
    for (const q of list) q.el = classify(q);
    systems.push(...systemsFrom(list.filter(q => q.el.system), q => q.el.system, meiOptions.staves ?? 1, number.lines < 5 ? { lines: number.lines, space: SPACE } : null));
  }
  return systems;
}
