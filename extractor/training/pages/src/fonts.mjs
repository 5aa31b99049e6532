// Text as outlines, from fonts installed on the machine, so that every text box is an exact ink box.
import fs from 'node:fs';
import path from 'node:path';
import opentype from 'opentype.js';
import { inkBox, union } from './geometry.mjs';

const files = new Map();
(function scan(d) {
  if (!fs.existsSync(d)) return;
  for (const e of fs.readdirSync(d, { withFileTypes: true })) {
    const f = path.join(d, e.name);
    if (e.isDirectory()) scan(f); else if (/\.(ttf|otf)$/i.test(e.name)) files.set(e.name.replace(/\.\w+$/, ''), f);
  }
})('/usr/share/fonts');
const have = list => list.filter(n => files.has(n));
export const SERIF_BOLD = have(['C059-Bold', 'NimbusRoman-Bold', 'P052-Bold', 'URWBookman-Demi', 'FreeSerifBold', 'LinLibertine_RB', 'EBGaramond-Bold', 'OldStandard-Bold', 'GFSDidotBold', 'DejaVuSerifCondensed-Bold', 'Caladea-Bold', 'texgyreschola-bold', 'texgyrebonum-bold', 'LiberationSerif-Bold']);
export const SERIF_ITALIC = have(['C059-Italic', 'NimbusRoman-Italic', 'P052-Italic', 'URWBookman-LightItalic', 'FreeSerifItalic', 'LinLibertine_RI', 'EBGaramond12-Italic', 'OldStandard-Italic', 'GFSDidot-Italic', 'Caladea-Italic', 'NimbusRoman-BoldItalic', 'C059-BdIta', 'LiberationSerif-Italic']);
export const SERIF = have(['C059-Roman', 'NimbusRoman-Regular', 'P052-Roman', 'URWBookman-Light', 'FreeSerif', 'LinLibertine_R', 'EBGaramond12-Regular', 'OldStandard-Regular', 'GFSDidot', 'Caladea-Regular', 'GoudyBookletter1911', 'LiberationSerif-Regular', 'Junicode']);
export const SANS = have(['NimbusSans-Bold', 'NimbusSansNarrow-Bold', 'DejaVuSans-Bold', 'DejaVuSansCondensed-Bold', 'FreeSansBold', 'LiberationSans-Bold', 'Lato-Bold', 'Lato-Black', 'URWGothic-Demi', 'Roboto-Bold', 'RobotoCondensed-Bold', 'BebasNeue-Regular', 'NimbusSans-Regular', 'NimbusSansNarrow-Regular', 'LiberationSansNarrow-Bold', 'NimbusMonoPS-Bold', 'Cantarell-Bold', 'Tuffy_Bold']);
export const HAND = have(['ComicNeue-Bold', 'ComicNeue-Regular', 'ComicNeue_Angular_Bold', 'SteveHand', 'Humor-Sans', 'rufscript010', 'RufScript', 'breip', 'Breip', 'Ecolier_court', 'DancingScript-Bold', 'FemkeKlaver', 'Femkeklaver', 'Z003-MediumItalic', 'Delphine', 'SjfontsSteveHand', 'ISABELLA', 'Isabella', 'Dancing Script', 'DancingScript-Regular']);
/** Faces of chord symbols: plain ones above all, some with serifs, some as if written. */
export const FONTS_OF_CHORDS = [...SANS, ...have(['NimbusSans-Regular', 'LiberationSans-Regular', 'DejaVuSans', 'Lato-Regular', 'ComicNeue-Bold', 'Humor-Sans', 'SteveHand', 'C059-Roman', 'NimbusRoman-Regular', 'NimbusRoman-Bold', 'P052-Bold', 'C059-Bold', 'FreeSerif', 'LiberationSerif-Bold', 'NimbusRoman-Italic', 'C059-Italic'])];
export const DIGITS = have(['C059-Bold', 'URWBookman-Demi', 'OldStandard-Bold', 'GFSDidotBold', 'FreeSerifBold', 'NimbusRoman-Bold', 'P052-Bold', 'NimbusSans-Bold', 'NimbusSansNarrow-Bold', 'DejaVuSans-Bold', 'LinLibertine_RB', 'EBGaramond-Bold', 'C059-BdIta', 'URWBookman-DemiItalic', 'NimbusSans-BoldItalic', 'Lato-Black', 'C059-Roman', 'NimbusSans-Regular']);

const cache = new Map();
export function font(name) {
  if (!cache.has(name)) { const b = fs.readFileSync(files.get(name)); cache.set(name, opentype.parse(b.buffer.slice(b.byteOffset, b.byteOffset + b.byteLength))); }
  return cache.get(name);
}
export const available = () => [...files.keys()];
const FALLBACK = ['FreeSerif', 'DejaVuSans', 'NimbusRoman-Regular'].filter(n => files.has(n));

/** Glyph outlines of a line of text: baseline at (0,0), size in em. @returns {{parts: path[], width, box}} */
export function textPaths(s, name, size, { tracking = 0 } = {}) {
  const parts = []; let x = 0, box = null;
  for (const ch of s) {
    let f = font(name);
    if (ch !== ' ' && !f.charToGlyphIndex(ch)) { const alt = FALLBACK.find(n => font(n).charToGlyphIndex(ch)); if (alt) f = font(alt); else continue; }
    const g = f.charToGlyph(ch);
    const p = commands(g.getPath(x, 0, size).commands);
    if (p.length) { parts.push(p); box = union(box, inkBox(p)); }
    x += (g.advanceWidth / f.unitsPerEm) * size + tracking * size;
  }
  return { parts, width: x, box: box ?? [0, 0, 0, 0] };
}
function commands(cs) {
  const out = []; let x = 0, y = 0;
  for (const c of cs) {
    if (c.type === 'M') out.push(['M', c.x, c.y]); else if (c.type === 'L') out.push(['L', c.x, c.y]);
    else if (c.type === 'C') out.push(['C', c.x1, c.y1, c.x2, c.y2, c.x, c.y]);
    else if (c.type === 'Q') out.push(['C', x + (2 / 3) * (c.x1 - x), y + (2 / 3) * (c.y1 - y), c.x + (2 / 3) * (c.x1 - c.x), c.y + (2 / 3) * (c.y1 - c.y), c.x, c.y]);
    else out.push(['Z']);
    if (c.type !== 'Z') { x = c.x; y = c.y; }
  }
  return out;
}
/** Height of a digit of the font as a share of its em. */
export function digitHeight(name) { const b = textPaths('8', name, 1).box; return -b[1] + Math.max(0, b[3]); }
