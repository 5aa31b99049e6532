// SVG of an engraver -> display list: {path, fill, stroke, dash, chain:[{class,id}]} and {text...}, all in one coordinate system.
import sax from 'sax';
import { I, affine, ellipsePath, mapPath, mul, parsePath, rectPath, scaleOf, transform } from './geometry.mjs';

const num = v => (v === undefined ? undefined : parseFloat(v));
function styleOf(a) {
  const s = { ...a };
  for (const kv of (a.style ?? '').split(';')) { const k = kv.indexOf(':'); if (k > 0) s[kv.slice(0, k).trim()] = kv.slice(k + 1).trim(); }
  return s;
}
function tree(text) {
  const p = sax.parser(true, { trim: false });
  const root = { name: 'root', at: {}, kids: [] }; const stack = [root];
  p.onerror = e => { throw e; };
  p.onopentag = t => { const n = { name: t.name, at: styleOf(t.attributes), kids: [] }; stack[stack.length - 1].kids.push(n); stack.push(n); };
  p.onclosetag = () => stack.pop();
  p.ontext = t => { if (t) stack[stack.length - 1].kids.push({ name: '#', value: t }); };
  p.oncdata = p.ontext;
  p.write(text).close();
  return root;
}

/** @returns list of drawing primitives in document order. */
export function displayList(svg, { defaultStroke = 0 } = {}) {
  const root = tree(svg), defs = new Map(), out = []; let serial = 0, mark = 0;
  (function index(n) { if (n.at?.id && n.name !== 'svg') defs.set(n.at.id, n); n.kids?.forEach(index); })(root);
  const walk = (n, m, st, chain, inDefs) => {
    if (n.name === '#' || n.name === 'defs' && !inDefs || n.name === 'style' || n.name === 'desc' || n.name === 'title') return;
    const a = n.at ?? {};
    st = { ...st };
    for (const k of ['fill', 'stroke', 'stroke-width', 'stroke-dasharray', 'fill-opacity', 'font-family', 'font-size', 'font-style', 'font-weight', 'text-anchor', 'stroke-linecap', 'color', 'font']) if (a[k] !== undefined) st[k] = a[k];
    if (a.class === 'stroke') { st.fill = 'none'; st.stroke = 'black'; } else if (a.class === 'fill') { st.fill = 'black'; st.stroke = 'none'; }
    let mm = a.transform ? mul(m, transform(a.transform)) : m;
    if (n.name === 'svg' && a.viewBox && chain.length + out.length >= 0 && n.inner !== true && a.class === 'definition-scale') mm = m;
    const ch = a.class !== undefined || a.id !== undefined ? [...chain, { class: a.class ?? '', id: a.id ?? '', n: ++serial }] : chain;
    const put = path => {
      const k = scaleOf(mm), fill = !(st.fill === 'none' || st['fill-opacity'] === '0');
      const stroked = st.stroke !== undefined ? st.stroke !== 'none' : st['stroke-width'] !== undefined;
      const w = stroked ? (num(st['stroke-width']) ?? defaultStroke) * k : 0;
      if (!fill && !w) return;
      const white = /^(white|#fff|#ffffff)$/i.test(st.fill ?? '');
      const dash = st['stroke-dasharray'] && st['stroke-dasharray'] !== 'none' ? st['stroke-dasharray'].split(/[\s,]+/).map(v => parseFloat(v) * k) : null;
      out.push({ path: mapPath(path, affine(mm)), fill: fill && !white, white, stroke: w, dash, cap: st['stroke-linecap'], chain: ch });
    };
    if (n.name === 'abc') { for (; mark < out.length; mark++) out[mark].abc ??= a.type; return; } // abcm2ps -A: what was drawn just before
    if (n.name === 'path' && a.d) put(parsePath(a.d));
    else if (n.name === 'rect') put(rectPath(num(a.x) || 0, num(a.y) || 0, num(a.width), num(a.height)));
    else if (n.name === 'line') put([['M', num(a.x1), num(a.y1)], ['L', num(a.x2), num(a.y2)]]);
    else if (n.name === 'polygon' || n.name === 'polyline') { const v = (a.points ?? '').trim().split(/[\s,]+/).map(Number); const p = []; for (let i = 0; i + 1 < v.length; i += 2) p.push([i ? 'L' : 'M', v[i], v[i + 1]]); if (n.name === 'polygon') p.push(['Z']); if (p.length) put(p); }
    else if (n.name === 'ellipse' || n.name === 'circle') put(ellipsePath(num(a.cx) || 0, num(a.cy) || 0, num(a.rx ?? a.r), num(a.ry ?? a.r)));
    else if (n.name === 'use') {
      const t = defs.get((a['xlink:href'] ?? a.href ?? '').slice(1));
      if (t) { const mu = mul(mm, [1, 0, 0, 1, num(a.x) || 0, num(a.y) || 0]); const glyph = (t.at.id ?? '').split('-')[0]; walk(t, mu, st, [...ch, { class: 'glyph', id: glyph }], true); }
      return;
    } else if (n.name === 'text') { out.push({ text: textRuns(n, st), m: mm, x: num(a.x) || 0, y: num(a.y) || 0, anchor: a['text-anchor'] ?? st['text-anchor'] ?? 'start', chain: ch, abc: n.kids.find(k => k.name === 'abc')?.at.type }); return; }
    n.kids?.forEach(k => walk(k, mm, st, ch, inDefs));
  };
  root.kids.forEach(k => walk(k, I, {}, [], false));
  return out;
}

const shorthand = f => (f ? { 'font-size': /([\d.]+)px/.exec(f)?.[1], 'font-weight': /bold/.test(f) ? 'bold' : 'normal', 'font-style': /italic/.test(f) ? 'italic' : 'normal', 'font-family': f.split('px')[1]?.trim() } : {});
function textRuns(n, st) {
  const runs = [];
  const go = (n, st) => {
    const s = { ...st, ...shorthand(n.at.font ?? st.font) };
    for (const k of ['font-size', 'font-style', 'font-weight', 'font-family']) if (n.at[k] !== undefined) s[k] = n.at[k];
    for (const k of n.kids) { if (k.name === '#') { const v = k.value.replace(/[\n\r\t]+ */g, ''); if (v.trim() !== '' || (v && runs.length && !/^\s{2,}$/.test(v))) runs.push({ s: v, size: parseFloat(s['font-size']) || 0, italic: s['font-style'] === 'italic', bold: s['font-weight'] === 'bold', family: s['font-family'] ?? '' }); } else go(k, s); }
  };
  go(n, st);
  return runs.filter(r => r.size > 0);
}
