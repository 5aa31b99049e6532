// Pages put together from engraved systems: titles, headings, furniture, spacing; and the truth of the page in pixels.
import { affine, inkBox, mapPath, union } from './geometry.mjs';
import { boxOf, putText } from './style.mjs';
import { NOTES, PUBLISHERS } from './words.mjs';
import { readSystem } from './truth.mjs';

/** @param items [{sys, number, opening: boolean}] @returns {prims, width, height, truth pieces} in spaces, page origin top left. */
export function composePage(items, style, r, { title = null, part = null, pageNo = 1 } = {}) {
  const left = r.range(3.5, 9), right = r.range(2.5, 8), top = r.range(3, 9), bottom = r.range(4, 9);
  const W = left + Math.max(...items.map(t => t.sys.staves[0].x1)) + right;
  const prims = [], placed = [], page = { prims };
  const put = (s, name, size, x, y, anchor, el) => putText(page, s, name, size, x, y, anchor, { bar: -1, ...el });
  let y = top;
  if (title) {
    put(part, style.title, r.range(2, 3), r.chance(0.5) ? left : W / 2, y + 1, r.chance(0.5) ? 'start' : 'middle', { kind: 'furniture', key: 'part' });
    y += 4;
    put(title, style.title, r.range(3.2, 5.5), W / 2, y + 2, 'middle', { kind: 'furniture', key: 'title' }); y += 5;
    if (r.chance(0.5)) put(r.pick(['Words and music by the company', 'arr. E. Sandling', 'O. Fleet', 'orch. P. Rushmere', 'M. Cordgrass, op. 12']), style.dir, r.range(1.6, 2.4), W - right, y, 'end', { kind: 'furniture', key: 'author' });
  } else if (r.chance(0.8)) {
    const side = pageNo % 2 ? 'end' : 'start';
    put(String(pageNo), style.number, r.range(1.8, 2.6), side === 'end' ? W - right : left, y, side, { kind: 'furniture', key: 'pageno' });
    if (part && r.chance(0.7)) put(part, style.number, r.range(1.5, 2.2), W / 2, y, 'middle', { kind: 'furniture', key: 'part' });
    y += 1.5;
  }
  const gap = r.range(0.6, 3.2), least = r.range(8, 12);
  let prevMid = null;
  items.forEach((t, k) => {
    const box = boxOf(t.sys.prims);
    let head = null;
    if (t.opening && t.number.label) {
      const hs = r.range(2, 3.4), hy = y + (k ? gap + 1 : 0) + hs;
      const text = t.number.heading, at = style.headLeft ? left : W / 2;
      const b = put(text, style.title, hs, at, hy, style.headLeft ? 'start' : 'middle', { kind: 'heading', key: `head${k}` });
      head = { text, box: b }; y = Math.max(b[3], hy) + 0.4;
    }
    let mid = y + gap * r.range(0.6, 1.4) - box[1];
    if (prevMid !== null && mid - prevMid < least) mid = prevMid + least;
    const f = affine([1, 0, 0, 1, left + (t.indent ?? 0), mid]);
    for (const p of t.sys.prims) prims.push({ ...p, path: mapPath(p.path, f), el: { ...p.el, key: `${k}|${p.el.key}`, system: k } });
    placed.push({ ...t, dx: left + (t.indent ?? 0), dy: mid, head });
    y = mid + box[3]; prevMid = mid + t.sys.staves[t.sys.staves.length - 1].y;
  });
  y += bottom * 0.6;
  if (r.chance(0.6)) put(r.chance(0.6) ? `© ${r.int(1921, 2024)} ${r.pick(PUBLISHERS)}` : r.pick(NOTES), style.lyric, r.range(1.1, 1.7), W / 2, y + 2, 'middle', { kind: 'furniture', key: 'copy' });
  if (r.chance(0.3)) put(r.chance(0.5) ? `${r.int(1000, 99999)}` : r.pick(['V. S.', '(V.S.)', 'B. 4471', 'Bass 12']), style.number, r.range(1.2, 1.8), W - right, y + 1.4, 'end', { kind: 'furniture', key: 'plate' });
  return { prims, W, H: y + bottom, placed };
}

/** Truth of a composed page at k pixels per space; `warpFree` coordinates (the corpus warps them later). */
export function pageTruth(page, k, meta) {
  const staves = [], systems = [], bars = [], numbers = [];
  const X = v => Math.round(v * k * 100) / 100;
  let id = meta.firstId ?? 1;
  page.placed.forEach((t, s) => {
    const read = readSystem({ ...t.sys, prims: page.prims.filter(p => p.el.system === s).map(p => ({ ...p, path: mapPath(p.path, (x, y) => [x - t.dx, y - t.dy]) })) }, t.number, meta.sounds, meta.charts);
    const px = b => [X(b[0] + t.dx), X(b[1] + t.dy), X(b[2] + t.dx), X(b[3] + t.dy)];
    t.sys.staves.forEach((st, n) => {
      const signs = read.staves[n].map(({ bar, ...g }) => ({ ...g, box: px(g.box) }));
      if (t.head && n === 0) signs.unshift({ kind: 'heading', text: t.head.text, box: t.head.box.map(X) });
      const ml = t.midlines?.[n] ?? [[st.x0, st.y], [st.x1, st.y]];
      staves.push({ system: s + 1, staffOfSystem: n + 1, staffSpace: Math.round(k * 100) / 100, midline: ml.map(([x, y]) => [X(x + t.dx), X(y + t.dy)]), signs });
    });
    const a = t.sys.staves[0], z = t.sys.staves[t.sys.staves.length - 1];
    const quad = (x0, x1) => [[x0, a.y - 2], [x1, a.y - 2], [x1, z.y + 2], [x0, z.y + 2]].map(([x, y]) => [X(x + t.dx), X(y + t.dy)]);
    const numSign = read.staves[0].find(g => g.kind === 'bar-number' && g.box[0] < 3);
    systems.push({ index: s + 1, outline: quad(a.x0, a.x1), staffSpace: Math.round(k * 100) / 100, ...(numSign && /^\d+$/.test(numSign.text) ? { printedBarNumber: Number(numSign.text) } : {}), confidence: 1 });
    for (const e of read.bars) {
      const b = e.b, bid = `b${id++}`;
      const words = e.part ? [] : read.staves[0].filter(g => g.kind === 'word' && g.bar === e.i).map(g => ({ text: g.text, where: g.box[3] < 0 ? 'above' : 'below', box: px(g.box) }));
      const signs = e.part ? [] : b.signs;
      bars.push({ id: bid, page: 1, system: s + 1, outline: quad(e.x0, e.x1), number: b.number + e.part, count: b.count, meter: { beats: b.meter.beats, unit: b.meter.unit, printed: e.printed },
        startBarline: e.start, endBarline: e.end, ...(b.rehearsal && !e.part ? { rehearsal: b.rehearsal } : {}), content: b.content === 'bar-repeat-2' ? 'bar-repeat' : b.content,
        ...(b.ending ? { ending: b.ending.numbers } : {}), ...(signs.length ? { signs } : {}), ...(words.length ? { words } : {}), ...times(words), ...silence(b), confidence: 1, origin: 'verified' });
      const open = numbers[numbers.length - 1];
      const of = t.number.whole ?? t.number;
      if (open && open.of === of) open.lastBar = bid; else numbers.push({ of, label: t.number.label ?? '', title: t.number.title, firstBar: bid, lastBar: bid });
    }
  });
  const width = Math.round(page.W * k), height = Math.round(page.H * k);
  return {
    signs: { source: meta.source, width, height, engraver: meta.engraver, face: meta.face, seed: meta.seed, ...(meta.charts ? { charts: true } : {}), ...(meta.hand ? { hand: true } : {}), staves },
    map: { format: 'barmap/1', book: { title: meta.title ?? 'Made pages', part: meta.part ?? 'Bass' }, pages: [{ index: 1, source: meta.source, width, height, systems }], numbers: numbers.map(({ of, ...n }) => n), bars },
  };
}
export const toPixels = (prims, k) => prims.map(p => ({ ...p, path: mapPath(p.path, (x, y) => [x * k, y * k]), stroke: p.stroke * k, dash: p.dash?.map(v => v * k) }));
export const pageInk = prims => prims.reduce((b, p) => union(b, inkBox(p.path, p.stroke)), null);

/** barmap/1 wants four corners where a word stands; inside the makers its box is [x0, y0, x1, y1]. */
export function wordOutlines(map) {
  for (const b of map.bars) for (const w of b.words ?? []) { const [x0, y0, x1, y1] = w.box; w.box = [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]; }
  return map;
}
function times(words) {
  const n = words.map(w => /^\(?(\d)X\)?$|Play (\d) times/.exec(w.text)).find(Boolean);
  return n ? { times: Number(n[1] ?? n[2]) } : {};
}
/** Beats of rest before the first and after the last note of a bar with music. */
function silence(b) {
  if (b.content !== 'music') return {};
  const flat = b.events.flatMap(g => g.notes.map(n => ({ rest: n.rest, d: g.tuplet ? (n.dur * 2) / 3 : n.dur }))), beat = 16 / b.meter.unit;
  const lead = list => { const i = list.findIndex(n => !n.rest); return (i < 0 ? list : list.slice(0, i)).reduce((s, n) => s + n.d, 0) / beat; };
  const a = lead(flat), z = lead([...flat].reverse());
  return { ...(a ? { silentStart: a } : {}), ...(z ? { silentEnd: z } : {}) };
}
