// What scanners and phones do to a page. Each returns {img (gray), tint, F}: F maps clean pixels to the damaged image, for the truth.
import { at, blur, grain, image, inverse, sensor, smoothNoise } from './raster.mjs';

function fit(F, w, h, margin) {
  let b = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i <= 40; i++) for (const [x, y] of [[(w * i) / 40, 0], [(w * i) / 40, h], [0, (h * i) / 40], [w, (h * i) / 40]]) { const [u, v] = F(x, y); b = [Math.min(b[0], u), Math.min(b[1], v), Math.max(b[2], u), Math.max(b[3], v)]; }
  const [l, t, r, m] = margin;
  return { G: (x, y) => { const [u, v] = F(x, y); return [u - b[0] + l, v - b[1] + t]; }, W: Math.round(b[2] - b[0] + l + r), H: Math.round(b[3] - b[1] + t + m) };
}
const turn = (deg, cx, cy, s = 1) => { const a = (deg * Math.PI) / 180, c = Math.cos(a) * s, d = Math.sin(a) * s; return (x, y) => [cx + (x - cx) * c - (y - cy) * d, cy + (x - cx) * d + (y - cy) * c]; };

/** Above this level of 255 a copier makes paper black. */
const PALEST = 238;

/** @returns null when even the darkest copy lost its staff lines; @param keeps (img, G) => whether the copy still shows its staff lines */
export function scan(src, r, space, keeps) {
  const { w, h } = src, mode = r.weighted({ bilevel: 5, gray: 4, yellow: 2 });
  const R = turn(r.gauss(0.6), w / 2, h / 2, r.range(0.985, 1.01));
  const bend = r.chance(0.3) ? r.range(-0.25, 0.25) * space : 0, wave = r.range(0.6, 1.4);
  const F0 = (x, y) => { const [u, v] = R(x, y); return [u, v + bend * Math.sin((Math.PI * wave * x) / w)]; };
  const m = () => (r.chance(0.3) ? r.range(5, 60) : -r.range(0, 0.008) * w);
  const { G, W, H } = fit(F0, w, h, [m(), m(), m(), m()]);
  const inv = inverse(G, W, H, (X, Y) => [X, Y]), outside = r.chance(0.5) ? 20 : 245, soft = blur(src, r.range(0.035, 0.075) * space);
  const back = mode === 'bilevel' ? null : r.chance(0.6) ? blur(src, 0.12 * space) : null, through = r.range(0.05, 0.13);
  const fade = smoothNoise(r, W, H, r.range(10, 30) * space), fine = smoothNoise(r, W, H, 0.4 * space), g = grain(r), img = image(W, H);
  const fadeAmt = r.chance(0.6) ? r.range(0, 70) : 0, pixel = r.range(4, 16), patch = r.range(5, 34), thr = r.range(105, 190), paper = mode === 'bilevel' ? 250 : r.range(205, 250), ink = r.range(0, 60), shade = smoothNoise(r, W, H, W / 2), inked = [];
  for (let y = 0; y < H; y++) for (let x = 0; x < W; x++) {
    const [u, v] = inv(x + 0.5, y + 0.5);
    if (u < 0 || v < 0 || u > w || v > h) { img.d[y * W + x] = mode === 'bilevel' ? (outside < 128 ? 0 : 255) : outside + g() * 4; continue; }
    let c = at(soft, u, v);
    const f = Math.max(0, fade(x, y)) * fadeAmt;
    c = c + ((255 - c) * f) / 160;
    c = ink + (c * (paper - ink)) / 255 + shade(x, y) * 6;
    if (back) c -= through * (255 - at(back, w - u, v));
    c += patch * fine(x, y) * (c < 200 ? 1 : 0.35) * (mode === 'bilevel' ? 1 : 0.5) + pixel * g() * (mode === 'bilevel' ? 1.6 : 0.6);
    img.d[y * W + x] = mode === 'bilevel' ? c : Math.max(0, Math.min(255, c));
    if (mode === 'bilevel' && (x + y) % 3 === 0 && at(src, u, v) < 110) inked.push(c);
  }
  if (mode === 'bilevel') { // a copy that lost its notes or its staff lines (thin, so light) was made again, darker
    inked.sort((a, b) => a - b);
    const gray = img.d, first = Math.min(232, Math.max(thr, inked[Math.floor(inked.length * 0.86)] ?? thr));
    for (let level = first; level === first || level <= PALEST; level += 6) {
      img.d = gray.map(c => (c > level ? 255 : 0));
      if (keeps(img, G)) break;
    }
  }
  if (!keeps(img, G)) return null;
  speckle(img, r, space, mode === 'bilevel');
  if (r.chance(0.35)) edge(img, r);
  return { img, F: G, mode, tint: mode === 'yellow' ? [1, r.range(0.93, 0.97), r.range(0.76, 0.88)] : null };
}
function speckle(img, r, space, hard) {
  const n = r.chance(0.7) ? r.int(20, 500) : 0;
  for (let i = 0; i < n; i++) {
    const x = r.int(2, img.w - 3), y = r.int(2, img.h - 3), q = Math.max(1, Math.round(r.range(0.03, 0.13) * space)), v = r.chance(0.75) ? (hard ? 0 : r.range(30, 150)) : 255;
    for (let b = 0; b < q; b++) for (let a = 0; a < q; a++) if (!(a === 0 && b === 0 && r.chance(0.5))) { const X = Math.min(img.w - 1, x + a), Y = Math.min(img.h - 1, y + b); img.d[Y * img.w + X] = v; }
  }
}
function edge(img, r) {
  const side = r.pick(['left', 'right', 'top']), d = r.range(4, 30), wob = smoothNoise(r, img.w, img.h, 90);
  for (let y = 0; y < img.h; y++) for (let x = 0; x < img.w; x++) { const t = side === 'left' ? x : side === 'right' ? img.w - 1 - x : y; if (t < d + 8 * wob(x, y)) img.d[y * img.w + x] = 12; else if (t > 80 && side !== 'top' && x > 80 && x < img.w - 80) x = img.w - 81; }
}

/** @param spread both pages of an opening lie in src, bound in its middle; @param table what they lie on: 'plain' as drawn by lot, 'dark', 'light', 'patterned' */
export function photo(src, r, space, { strong = 1, spread = false, table = 'plain' } = {}) {
  const { w, h } = src, side = r.pick(['left', 'right']), A = r.range(-0.02, 0.075) * strong, lam = r.range(0.08, 0.28), D = r.range(1.5, 2.6), cx = w * r.range(0.4, 0.6), cy = h * r.range(0.4, 0.6), squeeze = r.range(0, 0.35);
  const bow = r.gauss(0.0025) * w, px = r.gauss(0.045) * strong / w, py = r.gauss(0.05) * strong / h, rot = turn(r.gauss(1.3), w / 2, h / 2, r.range(0.88, 1)), shear = r.gauss(0.008);
  const flat = (x, y) => {
    const d = spread ? Math.abs(x - w / 2) / w : (side === 'left' ? x : w - x) / w, e = d >= 0 ? Math.exp(-d / lam) : 2 - Math.exp(d / lam), z = A * e;
    const inward = squeeze * lam * Math.abs(A) * 6 * (1 - e) * w, X = (spread ? x > w / 2 : side === 'left') ? x - inward : x + inward, k = D / (D + z);
    return [cx + (X - cx) * k, cy + (y - cy) * k + bow * Math.sin((Math.PI * x) / w)];
  };
  const F0 = (x, y) => { const [a, b] = flat(x, y), [u, v] = rot(a, b), q = 1 + px * (u - w / 2) + py * (v - h / 2); return [w / 2 + (u - w / 2 + shear * (v - h / 2)) / q, h / 2 + (v - h / 2) / q]; };
  const mg = () => r.range(0.01, 0.085) * w, { G, W, H } = fit(F0, w, h, [mg(), mg(), mg(), mg()]);
  const inv = inverse(G, W, H, (X, Y) => [X, Y]), sharp = blur(src, r.range(0.045, 0.1) * space), img = image(W, H), g = sensor(r);
  const opening = r.chance(0.6), facing = r.range(0.02, 0.2) * w, lot = r.range(25, 110), dark = table === 'dark' ? 20 + lot * 0.4 : table === 'light' ? 150 + lot * 0.5 : lot, grainy = table === 'patterned' ? 55 : 16, wood = smoothNoise(r, W * 4, H, 24), coarse = smoothNoise(r, W, H, 260), light = smoothNoise(r, W, H, W * 0.7), gutter = r.range(0.15, 0.5), gw = r.range(0.015, 0.05);
  const la = r.range(0, 6.28), lx = Math.cos(la), ly = Math.sin(la), fall = r.range(0.05, 0.42), paper = r.range(190, 245), ink = r.range(18, 70), noise = r.range(1.2, 4.5);
  const sh = r.chance(0.55) ? { x: r.range(0.1, 0.9) * W, y: r.range(0.1, 0.9) * H, a: r.range(0, 6.28), k: r.range(0.5, 0.85), soft: r.range(0.02, 0.12) * W } : null;
  for (let y = 0; y < H; y++) for (let x = 0; x < W; x++) {
    const [u, v] = inv(x + 0.5, y + 0.5), d = spread ? u - w / 2 : side === 'left' ? u : w - u;
    let c, isPaper = v >= 0 && v <= h && (spread ? u >= 0 && u <= w : side === 'left' ? u <= w : u >= 0);
    if (isPaper && d < 0 && !spread) isPaper = opening && d > -facing;
    if (isPaper) {
      c = d >= 0 || spread ? at(sharp, u, v) : at(sharp, side === 'left' ? w + u : u - w, v);
      c = ink + (c * (paper - ink)) / 255;
      if (spread || opening || A > 0.03) c *= 1 - gutter * Math.exp(-Math.abs(d) / (gw * w));
      if ((spread || opening) && Math.abs(d) < 1.2) c *= 0.6;
    } else c = dark + grainy * wood(x * 4, y) + 14 * coarse(x, y);
    let L = 1 - fall * (0.5 + 0.5 * ((lx * (x - W / 2)) / W + (ly * (y - H / 2)) / H) * 1.6) + 0.07 * light(x, y);
    if (sh) { const t = (Math.cos(sh.a) * (x - sh.x) + Math.sin(sh.a) * (y - sh.y)) / sh.soft; L *= sh.k + (1 - sh.k) / (1 + Math.exp(-t)); }
    img.d[y * W + x] = Math.max(0, Math.min(255, c * L + noise * g()));
  }
  return { img, F: G, mode: 'photo', tint: [1, r.range(0.93, 0.99), r.range(0.78, 0.97)] };
}

/** Light scanning of a pencilled page. */
export function desk(src, r, space, rgb) {
  const { w, h } = src, { G, W, H } = fit(turn(r.gauss(0.35), w / 2, h / 2), w, h, [0, 0, 0, 0]), inv = inverse(G, W, H, (X, Y) => [X, Y]), g = grain(r), n = r.range(1, 4), shade = smoothNoise(r, W, H, W / 2), paper = r.range(225, 250);
  const planes = rgb.map(p => { const s = blur(p, r.range(0.03, 0.06) * space), o = image(W, H); for (let y = 0; y < H; y++) for (let x = 0; x < W; x++) { const [u, v] = inv(x + 0.5, y + 0.5); o.d[y * W + x] = Math.max(0, Math.min(255, (at(s, u, v) * paper) / 255 + 5 * shade(x, y) + n * g())); } return o; });
  return { planes, F: G, mode: 'pencil' };
}
