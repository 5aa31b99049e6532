// Seeded random numbers: every made page is a function of its seed alone.
export class Random {
  constructor(seed) {
    this.s = [0x9e3779b9 ^ seed, 0x243f6a88, 0xb7e15162, seed >>> 0 || 1];
    for (let i = 0; i < 20; i++) this.next();
  }
  /** sfc32: uniform in [0, 1). */
  next() {
    const s = this.s;
    const t = (((s[0] + s[1]) | 0) + s[3]) | 0;
    s[3] = (s[3] + 1) | 0;
    s[0] = s[1] ^ (s[1] >>> 9);
    s[1] = (s[2] + (s[2] << 3)) | 0;
    s[2] = ((s[2] << 21) | (s[2] >>> 11)) + t | 0;
    return (t >>> 0) / 4294967296;
  }
  chance(p) { return this.next() < p; }
  int(lo, hi) { return lo + Math.floor(this.next() * (hi - lo + 1)); }
  range(lo, hi) { return lo + this.next() * (hi - lo); }
  pick(list) { return list[Math.floor(this.next() * list.length)]; }
  /** One key of {key: weight}, or one entry of [[value, weight], ...]. */
  weighted(table) {
    const rows = Array.isArray(table) ? table : Object.entries(table);
    let r = this.next() * rows.reduce((n, [, w]) => n + w, 0);
    for (const [v, w] of rows) if ((r -= w) < 0) return v;
    return rows[rows.length - 1][0];
  }
  gauss(sd = 1) {
    const u = Math.sqrt(-2 * Math.log(1 - this.next()));
    return sd * u * Math.cos(2 * Math.PI * this.next());
  }
  fork(salt) { return new Random((Math.floor(this.next() * 4294967296) ^ (salt * 2654435761)) | 0); }
}
