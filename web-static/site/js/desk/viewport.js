/** @typedef {import("../core/types.js").Point} Point */

const CLOSEST = 6;
/** A finger that wanders less than this many screen pixels has tapped. */
export const TAP = 8;

/**
 * Zooms and pans a drawing by wheel, pinch, drag and keys.
 *
 * What is under a finger decides first: a `grab` listener may take the pointer for itself.
 */
export class Viewport {
  #root;
  #layer;
  #width = 1;
  #height = 1;
  #scale = 1;
  #x = 0;
  #y = 0;
  /** @type {Map<number, Point>} */
  #fingers = new Map();
  /** @type {Point|undefined} */
  #down;
  #moved = false;
  /** @type {((p: Point, event: PointerEvent, end: boolean) => void)|undefined} */
  #taken;
  /** @type {(event: PointerEvent, p: Point) => ((p: Point, event: PointerEvent, end: boolean) => void)|undefined} */
  grab = () => undefined;
  /** @type {(p: Point, event: PointerEvent) => void} */
  tap = () => {};
  /** @type {(p: Point) => void} a second click with the mouse in the same place */
  twice = () => {};
  /** @type {{at: Point, when: number}|undefined} */
  #tapped;
  /** @type {(p: Point) => void} */
  hover = () => {};
  /** @type {() => void} */
  changed = () => {};

  /**
   * @param {SVGSVGElement} root
   * @param {SVGGElement} layer
   */
  constructor(root, layer) {
    this.#root = root;
    this.#layer = layer;
    root.addEventListener("wheel", (event) => this.#wheel(event), { passive: false });
    root.addEventListener("pointerdown", (event) => this.#start(event));
    root.addEventListener("pointermove", (event) => this.#move(event));
    root.addEventListener("pointerup", (event) => this.#end(event, true));
    root.addEventListener("pointercancel", (event) => this.#end(event, false));
    new ResizeObserver(([{ contentRect }]) => this.#resized(contentRect)).observe(root);
  }

  /** @type {{width: number, height: number}|undefined} told by the browser, which then need not be asked in the middle of drawing */
  #seen;

  /** @param {{width: number, height: number}} now */
  #resized({ width, height }) {
    const before = this.#seen?.width;
    this.#seen = { width, height };
    if (before && Math.abs(width - before) > 1) this.fit();
  }

  /** @returns {{width: number, height: number}} screen pixels */
  #box() {
    return this.#seen ?? this.#root.getBoundingClientRect();
  }

  /** Whether it is as narrow as on a phone. */
  get narrow() {
    return this.#box().width < 640;
  }

  get scale() {
    return this.#scale;
  }

  /**
   * @param {number} width of the page in its pixels
   * @param {number} height
   */
  size(width, height) {
    this.#width = width;
    this.#height = height;
    this.fit();
  }

  /** The whole width of the page from its top, or the whole page when that is what is shown. */
  fit() {
    const box = this.#box();
    if (box.width === 0) return;
    const whole = Math.min(box.width / this.#width, box.height / this.#height);
    this.#scale = this.#whole ? whole : Math.max(whole, (box.width * 0.92) / this.#width);
    this.#x = (box.width - this.#width * this.#scale) / 2;
    this.#y = this.#height * this.#scale < box.height ? (box.height - this.#height * this.#scale) / 2 : 0;
    this.#apply();
  }

  /** Changes between the width of the page and the whole of it. */
  fitOther() {
    this.#whole = !this.#whole;
    this.fit();
  }

  #whole = false;

  /**
   * @param {number} factor
   * @param {Point} [at] screen point that stays in place
   */
  zoom(factor, at) {
    const box = this.#box();
    const [cx, cy] = at ?? [box.width / 2, box.height / 2];
    const least = Math.min(box.width / this.#width, box.height / this.#height) * 0.8;
    const next = Math.min(CLOSEST, Math.max(least, this.#scale * factor));
    const real = next / this.#scale;
    this.#x = cx - (cx - this.#x) * real;
    this.#y = cy - (cy - this.#y) * real;
    this.#scale = next;
    this.#apply();
  }

  /**
   * @param {number} dx screen pixels
   * @param {number} dy
   */
  pan(dx, dy) {
    this.#x += dx;
    this.#y += dy;
    this.#apply();
  }

  /**
   * Brings a part of the page into view; moves no more than it must.
   *
   * @param {number} left page pixels
   * @param {number} top
   * @param {number} right
   * @param {number} bottom
   * @param {boolean} [close] zoom in until it is large
   */
  reveal(left, top, right, bottom, close = false) {
    const box = this.#box();
    if (close) {
      const wanted = Math.min(box.width / ((right - left) * 2.2), box.height / ((bottom - top) * 3.5), 1.6);
      if (wanted > this.#scale) this.#scale = wanted;
      this.#x = box.width / 2 - ((left + right) / 2) * this.#scale;
      this.#y = box.height / 2 - ((top + bottom) / 2) * this.#scale;
    } else {
      const edge = Math.min(60, box.width / 8);
      const shift = (/** @type {number} */ low, /** @type {number} */ high, /** @type {number} */ size) =>
        low < edge ? edge - low : high > size - edge ? Math.max(size - edge - high, edge - low) : 0;
      this.#x += shift(left * this.#scale + this.#x, right * this.#scale + this.#x, box.width);
      this.#y += shift(top * this.#scale + this.#y, bottom * this.#scale + this.#y, box.height);
    }
    this.#apply();
  }

  #apply() {
    const box = this.#box();
    const keep = 80;
    const w = this.#width * this.#scale;
    const h = this.#height * this.#scale;
    this.#x = Math.min(box.width - keep, Math.max(keep - w, this.#x));
    this.#y = Math.min(box.height - keep, Math.max(keep - h, this.#y));
    this.#layer.setAttribute("transform", `translate(${this.#x} ${this.#y}) scale(${this.#scale})`);
    this.changed();
  }

  /** @param {{clientX: number, clientY: number}} event @returns {Point} */
  #screen(event) {
    const box = this.#root.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  }

  /** @param {Point} p screen point @returns {Point} page pixels */
  #page([x, y]) {
    return [(x - this.#x) / this.#scale, (y - this.#y) / this.#scale];
  }

  /** @param {WheelEvent} event */
  #wheel(event) {
    event.preventDefault();
    if (event.shiftKey && !event.ctrlKey) this.pan(-event.deltaY - event.deltaX, 0);
    else this.zoom(Math.exp(-Math.max(-120, Math.min(120, event.deltaY)) / (event.ctrlKey ? 120 : 420)), this.#screen(event));
  }

  /** @param {PointerEvent} event */
  #start(event) {
    if (event.button > 0) return;
    const at = this.#screen(event);
    this.#fingers.set(event.pointerId, at);
    if (this.#fingers.size > 1) {
      this.#moved = true;
      return;
    }
    this.#down = at;
    this.#moved = false;
    this.#taken = this.grab(event, this.#page(at));
    try {
      this.#root.setPointerCapture(event.pointerId);
    } catch {
      // A pointer made by a script can't be captured; its events still arrive.
    }
  }

  /** @param {PointerEvent} event */
  #move(event) {
    const at = this.#screen(event);
    const before = this.#fingers.get(event.pointerId);
    if (!before) {
      this.hover(this.#page(at));
      return;
    }
    const down = this.#down ?? at;
    if (Math.hypot(at[0] - down[0], at[1] - down[1]) > TAP) this.#moved = true;
    if (this.#fingers.size === 1) {
      if (this.#taken) this.#taken(this.#page(at), event, false);
      else if (this.#moved) this.pan(at[0] - before[0], at[1] - before[1]);
    } else {
      this.#pinch(event.pointerId, before, at);
    }
    this.#fingers.set(event.pointerId, at);
  }

  /**
   * @param {number} id
   * @param {Point} before
   * @param {Point} at
   */
  #pinch(id, before, at) {
    const other = [...this.#fingers].find(([key]) => key !== id)?.[1];
    if (!other) return;
    const was = Math.hypot(before[0] - other[0], before[1] - other[1]);
    const now = Math.hypot(at[0] - other[0], at[1] - other[1]);
    this.pan((at[0] - before[0]) / 2, (at[1] - before[1]) / 2);
    if (was > 0) this.zoom(now / was, [(at[0] + other[0]) / 2, (at[1] + other[1]) / 2]);
  }

  /**
   * @param {PointerEvent} event
   * @param {boolean} meant
   */
  #end(event, meant) {
    if (!this.#fingers.delete(event.pointerId)) return;
    const at = this.#screen(event);
    const taken = this.#taken;
    if (this.#fingers.size > 0) return;
    this.#taken = undefined;
    // what the system takes away is not let go where it was: it stays where it began
    if (taken) taken(this.#page(meant ? at : (this.#down ?? at)), event, true);
    else if (meant && !this.#moved) this.#tap(at, event);
  }

  /**
   * What is drawn changes between two clicks, so the browser's own double-click can't be relied on.
   *
   * @param {Point} at
   * @param {PointerEvent} event
   */
  #tap(at, event) {
    const before = this.#tapped;
    const again = before && event.pointerType === "mouse" && event.timeStamp - before.when < 400 && Math.hypot(at[0] - before.at[0], at[1] - before.at[1]) < TAP;
    this.#tapped = again ? undefined : { at, when: event.timeStamp };
    if (again) this.twice(this.#page(at));
    else this.tap(this.#page(at), event);
  }
}
