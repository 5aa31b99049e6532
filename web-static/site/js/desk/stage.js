import { imagePath } from "../core/api.js";
import { el, svg } from "../core/dom.js";
import { mayCorrect } from "../core/may.js";
import { centre, crossing, holds, points, taller } from "./geometry.js";
import { Overlay } from "./overlay.js";
import { TAP, Viewport } from "./viewport.js";

/** @typedef {import("../core/types.js").Bar} Bar */
/** @typedef {import("../core/types.js").Point} Point */
/** @typedef {import("../core/types.js").MapPage} MapPage */

/** A mouse is steadier than a finger: screen pixels from which a handle is dragged. */
const STEADY = 2;

/** @typedef {{doubted: Set<string>, starts: Map<string, string>, region?: import("../core/types.js").Outline, marked?: Set<string>, frames?: import("../core/types.js").Outline[], drawn?: boolean}} State `region`: where the doubt at hand is; `drawn`: the page has no picture */

/** The page with what was read drawn over it. */
export class Stage {
  #bus;
  #book;
  #image = svg("image", { class: "page-image", x: 0, y: 0 });
  #paper = svg("rect", { class: "page-paper", x: 0, y: 0 });
  #overlay = new Overlay();
  #region = svg("g");
  #over = svg("g", {}, this.#overlay.node, this.#region);
  #handles = svg("g");
  #ghost = svg("line", { class: "ghost", visibility: "hidden" });
  #layer = svg("g", {}, this.#paper, this.#image, this.#over, this.#ghost, this.#handles);
  #root = svg(
    "svg",
    { class: "stage", tabindex: 0, role: "application", "aria-label": "The page. Arrow keys choose a bar, question mark shows all keys." },
    svg("defs", {}, svg("pattern", { id: "hatch", width: 14, height: 14, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" }, svg("rect", { class: "hatch-line", width: 4, height: 14 }))),
    this.#layer,
  );
  #note = el("p", { class: "stage-note", hidden: true });
  #from = el("p", { class: "stage-from", hidden: true, text: "From a score file: there is no picture, only the bars in their order." });
  node = el("div", { class: "stage-box" }, this.#root, this.#note, this.#from);
  view = new Viewport(this.#root, this.#layer);
  /** @type {MapPage|undefined} */
  #page;
  /** @type {Bar[]} */
  #bars = [];
  /** @type {Bar|undefined} */
  #selected;
  #adding = false;
  #shown = "";

  /**
   * @param {string} book
   * @param {import("../core/bus.js").EventBus<import("../core/types.js").DeskEvents>} bus gets `pick` with a bar or nothing, `cut-at` with
   *     a bar and a point, `drag-end` with a bar, a side and a point, `line-drawn` with an outline
   */
  constructor(book, bus) {
    this.#book = book;
    this.#bus = bus;
    this.view.tap = (p, event) => this.#tap(p, event);
    this.view.hover = (p) => this.#hover(p);
    this.#layer.append(this.#frame);
    this.view.grab = (event, p) => (this.#drawing ? this.#drawFrame(p) : this.#grab(event, p) ?? (this.#adding ? undefined : this.#grabMark(event)));
    this.view.changed = () => this.#rescaled();
    this.view.twice = (p) => {
      const bar = this.#at(p);
      if (bar && !this.#adding) bus.emit("cut-at", { bar, p });
    };
    this.#image.addEventListener("error", () => this.note("The picture of this page can't be shown."));
  }

  focus() {
    this.#root.focus({ preventScroll: true });
  }

  /** @param {string} text shown over the page; empty takes it away */
  note(text) {
    this.#note.textContent = text;
    this.#note.hidden = !text;
  }

  /** @param {boolean} on whether the next tap adds a barline */
  set adding(on) {
    this.#adding = on;
    this.#root.classList.toggle("adding", on);
    this.#ghost.setAttribute("visibility", "hidden");
  }

  /** @param {boolean} on whether the next drag draws a line of music */
  set drawing(on) {
    this.#drawing = on;
    this.#root.classList.toggle("adding", on);
    this.#frame.setAttribute("visibility", "hidden");
  }

  get drawing() {
    return this.#drawing;
  }

  #drawing = false;
  #frame = svg("rect", { class: "frame", visibility: "hidden" });

  /** @param {Point} from */
  #drawFrame(from) {
    return (/** @type {Point} */ p, /** @type {PointerEvent} */ _event, /** @type {boolean} */ end) => {
      const [x0, x1] = [Math.min(from[0], p[0]), Math.max(from[0], p[0])];
      const [y0, y1] = [Math.min(from[1], p[1]), Math.max(from[1], p[1])];
      for (const [k, v] of Object.entries({ x: x0, y: y0, width: x1 - x0, height: y1 - y0, visibility: "visible" })) {
        this.#frame.setAttribute(k, String(v));
      }
      if (!end) return;
      const large = x1 - x0 > 40 && y1 - y0 > 10;
      this.#bus.emit("line-drawn", large ? [[x0, y0], [x1, y0], [x1, y1], [x0, y1]] : undefined);
    };
  }

  get adding() {
    return this.#adding;
  }

  /**
   * @param {MapPage} page
   * @param {string} id of the page's image
   * @param {Bar[]} bars
   * @param {Bar|undefined} selected
   * @param {State} state
   */
  draw(page, id, bars, selected, state) {
    this.#page = page;
    this.#bars = bars;
    this.#selected = selected;
    if (this.#shown !== id) {
      this.#shown = id;
      this.note("");
      this.#root.classList.toggle("drawn", state.drawn === true);
      this.#from.hidden = !state.drawn;
      if (state.drawn) this.#image.removeAttribute("href");
      else this.#image.setAttribute("href", imagePath(this.#book, id));
      for (const sheet of [this.#image, this.#paper]) {
        sheet.setAttribute("width", String(page.width));
        sheet.setAttribute("height", String(page.height));
      }
      this.view.size(page.width, page.height);
    }
    this.#state = state;
    this.#drawOver();
    this.#drawHandles();
  }

  /** @type {State} */
  #state = { doubted: new Set(), starts: new Map() };
  #boost = 1;

  #drawOver() {
    if (!this.#page) return;
    this.#boost = this.#wantedBoost();
    this.#overlay.draw(this.#page, this.#bars, { ...this.#state, selected: this.#selected?.id, boost: this.#boost });
    const { region } = this.#state;
    this.#region.replaceChildren(...(region ? [svg("polygon", { class: "region", points: points(taller(region, 12)) })] : []));
  }

  /** Letters grow on a small screen until they can be read, but not over their neighbours. */
  #wantedBoost() {
    const space = this.#page?.systems[0]?.staffSpace ?? 20;
    return Math.min(2.1, Math.max(0.5, 12 / (1.25 * space * this.view.scale)));
  }

  #rescaled() {
    if (Math.abs(this.#wantedBoost() / this.#boost - 1) > 0.12) this.#drawOver();
    this.#drawHandles();
  }

  /** @param {boolean} [close] */
  reveal(close = false) {
    const o = this.#selected?.outline ?? this.#state.region;
    if (!o) return;
    const space = this.#space(this.#selected);
    const [left, right] = [Math.min(o[0][0], o[3][0]), Math.max(o[1][0], o[2][0])];
    this.view.reveal(left, Math.min(o[0][1], o[1][1]) - space * 3, right, Math.max(o[2][1], o[3][1]) + space * 3, close);
  }

  /** @param {Bar} [bar] */
  #space(bar) {
    return this.#page?.systems.find((s) => s.index === bar?.system)?.staffSpace ?? 20;
  }

  /** @param {Point} p @returns {Bar|undefined} */
  #at(p) {
    const hit = this.#bars.filter((b) => holds(taller(b.outline, this.#space(b) * 2.5), p));
    return hit.sort((a, b) => Math.abs(centre(a.outline)[1] - p[1]) - Math.abs(centre(b.outline)[1] - p[1]))[0];
  }

  /**
   * @param {Point} p
   * @param {PointerEvent} [event]
   */
  #tap(p, event) {
    this.focus();
    const bar = this.#at(p);
    if (this.#adding && bar) this.#bus.emit("cut-at", { bar, p });
    else if (bar && (event?.shiftKey || event?.ctrlKey || event?.metaKey)) this.#bus.emit("pick-also", { bar, through: event.shiftKey });
    else this.#bus.emit("pick", bar);
  }

  /** @param {Point} p */
  #hover(p) {
    if (!this.#adding) return;
    const bar = this.#at(p);
    this.#line(bar ? crossing(bar.outline, p[0]) : undefined, bar);
  }

  /**
   * @param {[Point, Point]|undefined} ends
   * @param {Bar|undefined} bar
   */
  #line(ends, bar) {
    this.#ghost.setAttribute("visibility", ends ? "visible" : "hidden");
    if (!ends) return;
    const s = this.#space(bar);
    const [a, b] = ends;
    for (const [k, v] of Object.entries({ x1: a[0], y1: a[1] - s, x2: b[0], y2: b[1] + s, "stroke-width": s * 0.35 })) {
      this.#ghost.setAttribute(k, String(v));
    }
  }

  /** Handles keep their size on the screen, whatever the zoom. */
  #drawHandles() {
    this.#handles.replaceChildren();
    const bar = this.#selected;
    if (!bar || !mayCorrect()) return;
    const o = bar.outline;
    // on a phone a large knob would hide the bar it belongs to; the reach of a finger stays
    const r = (this.view.narrow ? 9 : 15) / this.view.scale;
    const reach = 24 / this.view.scale;
    const first = !this.#bars.some((b) => b.system === bar.system && b.id !== bar.id && centre(b.outline)[0] < centre(o)[0]);
    /** @type {[string, Point, Point][]} */
    const sides = [["end", o[1], o[2]]];
    if (first) sides.push(["start", o[0], o[3]]);
    for (const [side, top, low] of sides) {
      const x = top[0];
      const y = Math.min(top[1], low[1]) - r * 1.5;
      this.#handles.append(
        svg(
          "g",
          { class: "handle", "data-side": side },
          svg("circle", { class: "handle-reach", cx: x, cy: y, r: reach }),
          svg("circle", { class: "handle-knob", cx: x, cy: y, r }),
          svg("path", { class: "handle-arrows", "stroke-width": r * 0.16, d: `M${x - r * 0.2} ${y - r * 0.35} L${x - r * 0.6} ${y} L${x - r * 0.2} ${y + r * 0.35} M${x + r * 0.2} ${y - r * 0.35} L${x + r * 0.6} ${y} L${x + r * 0.2} ${y + r * 0.35}` }),
        ),
      );
    }
  }

  /**
   * A rehearsal mark is dragged to the bar it stands over.
   *
   * @param {PointerEvent} event
   */
  #grabMark(event) {
    const plate = event.target instanceof Element ? event.target.closest(".pill-mark") : null;
    const id = plate?.closest("[data-bar]")?.getAttribute("data-bar");
    const bar = this.#bars.find((b) => b.id === id);
    if (!plate || !bar) return undefined;
    return (/** @type {Point} */ p, /** @type {PointerEvent} */ _event, /** @type {boolean} */ end) => {
      const to = this.#at(p);
      const far = to !== undefined && to.id !== bar.id;
      this.#line(far ? [to.outline[0], to.outline[3]] : undefined, to);
      if (!end) return;
      this.#line(undefined, undefined);
      if (far) this.#bus.emit("mark-moved", { bar, to });
      else this.#bus.emit("pick", bar);
    };
  }

  /**
   * @param {PointerEvent} event
   * @param {Point} from
   */
  #grab(event, from) {
    const target = event.target instanceof Element ? event.target.closest(".handle") : null;
    const bar = this.#selected;
    if (!target || !bar) return undefined;
    const side = target.getAttribute("data-side") === "start" ? "start" : "end";
    let moved = false;
    return (/** @type {Point} */ p, /** @type {PointerEvent} */ now, /** @type {boolean} */ end) => {
      moved ||= Math.hypot(p[0] - from[0], p[1] - from[1]) * this.view.scale > (event.pointerType === "mouse" ? STEADY : TAP);
      // a finger reaches farther than the knob: it may mean the bar that lies there
      if (!moved) return void (end && this.#tap(p, now));
      const edge = side === "end" ? [bar.outline[1], bar.outline[2]] : [bar.outline[0], bar.outline[3]];
      const dx = p[0] - edge[1][0];
      this.#line([[edge[0][0] + dx, edge[0][1]], [edge[1][0] + dx, edge[1][1]]], bar);
      if (!end) return;
      this.#line(undefined, bar);
      const y = (edge[0][1] + edge[1][1]) / 2;
      if (Math.abs(dx) > 1) this.#bus.emit("drag-end", { bar, side, p: [(edge[0][0] + edge[1][0]) / 2 + dx, y] });
    };
  }
}

