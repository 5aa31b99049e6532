// Music within what an engraver can show without doubt about which drawn text is which: used for the corpus.
import { fill, Walk } from './events.mjs';

export function tidy(number, engraver, r) {
  const walk = new Walk(r, { lo: -7, hi: 6 });
  const bars = number.bars, last = {};
  bars.forEach((b, i) => {
    if (b.content === 'music' && b.events.every(g => g.notes.every(n => n.rest))) { // a silent bar is a rest, whatever signs draw it
      if (b.pickup) b.events[0].notes[0] = { dur: b.events[0].notes[0].dur, pitches: [0] };
      else { b.content = 'rest'; delete b.events; b.midClef = false; delete b.dyn; delete b.hairpin; b.slur = false; }
    }
    if (engraver === 'lilypond' && b.content === 'bar-repeat') { b.words = []; b.signs = []; }
    delete b.counter; delete b.syllables; delete b.lyrics;
    if (b.content === 'bar-repeat-2') { b.content = 'music'; b.events = fill(b.meter, 'plain', r, walk); shift(bars, i + 1, -1); }
    if (engraver === 'abcm2ps' && b.content === 'bar-repeat') { b.content = 'music'; b.events = fill(b.meter, 'plain', r, walk); }
    if (engraver === 'abcm2ps') { delete b.cue; b.signs = b.signs.filter(s => s !== 'caesura'); }
    if (engraver !== 'lilypond') { b.block = false; }
    b.below = engraver === 'lilypond' && b.below;
    if (b.numeral) b.numeral = false;
    if (engraver === 'musescore' && b.content === 'multi-rest' && b.right === 'double' && !bars[i + 1]?.newKey) b.right = 'single'; // it drops that barline
    const seen = new Set();
    b.words = b.words.filter(w => { const k = w.style === 'tempo' || w.style === 'nav' ? w.style : w.place; if (seen.has(k)) return false; if (engraver === 'musescore' && k !== 'nav' && i - (last[k] ?? -9) < 3) return false; last[k] = i; seen.add(k); return true; });
    const nav = b.words.find(w => w.style === 'nav');
    b.signs = b.signs.filter(s => !(nav && (s === 'segno' || s === 'coda')) && (nav || !/coda|fine|capo|dal/.test(s) || s === 'coda'));
    if (engraver === 'abcm2ps' || engraver === 'musescore') { b.midClef = false; if (b.right === 'none') b.right = 'final'; }
    if (b.content !== 'music' && engraver !== 'verovio') { b.signs = b.signs.filter(s => s !== 'caesura'); }
    if (b.content === 'multi-rest') b.signs = b.signs.filter(s => s !== 'fermata' && s !== 'caesura');
    if (b.dyn === 'fz') b.dyn = 'f';
    if (engraver === 'abcm2ps' && (b.dyn === 'sf' || b.dyn === 'fp')) b.dyn = 'sfz';
  });
  return number;
}
function shift(bars, from, by) { for (let i = from; i < bars.length; i++) { const b = bars[i], old = String(b.number); b.number += by; if (b.rehearsal?.text === old) b.rehearsal.text = String(b.number); } }
