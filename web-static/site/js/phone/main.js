import { bookPath, call, upload, write } from "../core/api.js";
import { EventBus } from "../core/bus.js";
import { once } from "../core/clock.js";
import { button, el, need, show } from "../core/dom.js";
import { brandSign, icon } from "../core/icons.js";
import { LiveBook } from "../core/live.js";
import { newKey } from "../core/outbox.js";
import { bookInAddress, deadEnd, recall, remember } from "../core/shell.js";
import { complain, toast } from "../core/toast.js";
import { count } from "../core/words.js";
import { retakeStep } from "../shared/retake.js";
import { look, pixelsOf, SAYS } from "./look.js";

/** @typedef {import("../core/types.js").PageInfo} PageInfo */
/** @typedef {{page: PageInfo, before: string[], names: string[]}} Retaken a page whose new picture was sent */
/** @typedef {{file: File, page: PageInfo|undefined}} Shot a picture, of a new page or again of one */

const STATES = /** @type {Record<string, string>} */ ({ waiting: "waiting", reading: "being read", read: "read", verified: "read and checked", failed: "not read" });

/** The phone: photographs one page after the other and sends them to the desk. */
class PhoneRoom {
  #book = bookInAddress();
  /** @type {EventBus<import("../core/types.js").LiveEvents>} */
  #bus = new EventBus();
  #title = el("h1", { text: "Photograph pages" });
  #camera = el("input", { type: "file", accept: "image/jpeg,image/png", capture: "environment", class: "visually-hidden", id: "shoot", tabindex: -1, "aria-label": "The picture of a page" });
  #label = el("span", { text: "Photograph a page" });
  #go = button("", () => this.#shoot(undefined), { class: "btn btn-main phone-go", id: "phone-go" }, icon("camera"), this.#label);
  #shot = el("section", { class: "phone-shot", "aria-label": "The picture", "aria-live": "polite", tabindex: -1 });
  #list = el("ol", { class: "phone-pages", "aria-label": "Pages of the book" });
  /** @type {PageInfo[]} */
  #pages = [];
  #revision = "";
  /** Many events in a row lead to one reload. */
  #soon = once(150, () => void this.#load());
  #sending = 0;
  /** The page that is photographed again. @type {PageInfo|undefined} */
  #again;
  /** Of pictures being sent one after the other. @type {Promise<void>} */
  #queue = Promise.resolve();

  async start() {
    if (!this.#book) return deadEnd("Which book?", "Scan the code in barmap's window again.");
    show(need("header"), el("span", { class: "brand" }, brandSign(), el("span", { text: "barmap" })));
    show(need("main"), el("div", { class: "wide phone" }, this.#title, this.#go, this.#camera, this.#shot, this.#list, care()));
    this.#camera.addEventListener("change", () => {
      const file = this.#camera.files?.[0];
      this.#camera.value = "";
      if (file) void this.#seen({ file, page: this.#again });
    });
    for (const name of /** @type {const} */ (["live:page", "live:map", "live:job", "live:found", "live:lost"])) this.#bus.on(name, () => this.#soon());
    await this.#load();
    new LiveBook(bookPath(this.#book, "/events"), this.#bus);
  }

  async #load() {
    try {
      /** @type {import("../core/api.js").Answered<import("../core/types.js").Book>} */
      const { data: book, revision } = await call("GET", bookPath(this.#book));
      this.#pages = book.pages;
      this.#revision = revision;
      this.#title.textContent = `${book.title}, ${book.part}`;
      document.title = `${book.title} · barmap`;
      this.#draw();
      await this.#putInPlace(book.job !== undefined);
    } catch (error) {
      const status = error instanceof Error && "status" in error ? error.status : undefined;
      if (status === 401 || status === 403 || status === 404) deadEnd("This book isn't shared any more", "Sharing was ended at the machine barmap runs on. What you sent is there.", { href: location.href, text: "Look again" });
      else complain(error);
    }
  }

  #draw() {
    this.#label.textContent = `Photograph page ${this.#pages.length + this.#sending + 1}`;
    const focused = document.activeElement?.closest("[data-page]")?.getAttribute("data-page");
    show(this.#list, [...this.#pages].reverse().map((page) => this.#item(page)));
    if (focused) /** @type {HTMLElement|null} */ (this.#list.querySelector(`[data-page="${focused}"] button`))?.focus();
  }

  /** @param {PageInfo} page */
  #item(page) {
    const trouble = page.finding ?? "";
    return el(
      "li",
      { "data-page": page.id, "data-state": page.state },
      el("span", {}, el("b", { text: `Page ${page.index}` }), `: ${page.score ? "from a score file, no picture" : STATES[page.state] ?? page.state}`, trouble ? el("span", { class: "block small soft", text: trouble }) : null),
      button("Again", () => this.#shoot(page), { class: "btn phone-again", "aria-label": `Photograph page ${page.index} again` }, icon("camera")),
    );
  }

  /** @param {PageInfo|undefined} page to be taken again */
  #shoot(page) {
    this.#again = page;
    this.#camera.click();
  }

  /**
   * A picture without a fault is sent at once; of another one the player decides.
   *
   * @param {Shot} shot
   */
  async #seen(shot) {
    show(this.#shot, el("p", { class: "soft", text: "Looking at the picture …" }));
    const faults = await faultsOf(shot.file);
    if (faults.length === 0) {
      show(this.#shot);
      return this.#send(shot);
    }
    const picture = el("img", { src: URL.createObjectURL(shot.file), alt: "The picture just taken" });
    const done = (/** @type {boolean} */ send) => {
      URL.revokeObjectURL(picture.src);
      show(this.#shot);
      this.#go.focus();
      if (send) this.#send(shot);
      else this.#shoot(shot.page);
    };
    show(
      this.#shot,
      picture,
      el("ul", { class: "phone-faults" }, faults.map((fault) => el("li", { "data-fault": fault }, icon("warn"), el("span", { text: SAYS[fault] })))),
      el(
        "div",
        { class: "row" },
        button("Take it again", () => done(false), { class: "btn btn-main", id: "phone-retry" }),
        button("Send it all the same", () => done(true), { class: "btn", id: "phone-anyway" }),
      ),
    );
    this.#shot.focus();
  }

  /** @param {Shot} shot */
  #send({ file, page }) {
    this.#sending += page ? 0 : 1;
    this.#draw();
    const place = page ? page.index : this.#pages.length + this.#sending;
    const name = `phone-${String(place).padStart(3, "0")}-${newKey().slice(0, 6)}${file.type === "image/png" ? ".png" : ".jpg"}`;
    toast(page ? `The new picture of page ${place} is being sent.` : `Page ${place} is being sent.`, { key: "send" });
    this.#queue = this.#queue.then(async () => {
      try {
        const before = this.#pages.map((p) => p.id);
        await upload(bookPath(this.#book, "/pages"), [new File([file], name, { type: file.type })], () => {});
        if (page) remember(`retaken.${this.#book}`, [...this.#retaken(), { page, before, names: [name] }]);
        toast(page ? `Sent. Page ${place} stays until the new picture has been read; its corrections are kept.` : `Page ${place} is there.`, { kind: "good", key: "send" });
      } catch (error) {
        complain(error);
        show(this.#shot, el("p", { class: "refused" }, `Page ${place} was not sent. `, button("Send it again", () => { show(this.#shot); this.#send({ file, page }); }, { class: "btn" })));
      }
      this.#sending -= page ? 0 : 1;
      await this.#load();
    });
  }

  /** What waits to take a page's place; kept, in case the phone falls asleep. @returns {Retaken[]} */
  #retaken() {
    return recall(`retaken.${this.#book}`, /** @type {Retaken[]} */ ([]));
  }

  /** @param {boolean} reading whether pages are being read */
  async #putInPlace(reading) {
    for (const retaken of this.#retaken()) {
      const step = retakeStep(this.#pages, { ...retaken, before: new Set(retaken.before) }, reading);
      if (step.kind === "wait") continue;
      remember(`retaken.${this.#book}`, this.#retaken().filter((r) => r.names[0] !== retaken.names[0]));
      const { page } = retaken;
      if (step.kind === "refuse" || step.fresh.length > 1) {
        const why = step.kind === "refuse" ? step.why : `There are ${count(step.fresh.length, "page")} in it.`;
        toast(`Page ${page.index} stays as it was: ${why} The new picture is at the end of the book; look at it at the desk.`, { kind: "bad", key: "retake" });
        continue;
      }
      const place = `/pages/${encodeURIComponent(page.id)}/retake`;
      try {
        await write(
          this.#revision,
          (match) => call("POST", bookPath(this.#book, place), { body: { with: step.fresh[0].id }, match }),
          async () => (await call("GET", bookPath(this.#book))).revision,
        );
        toast(`The new picture of page ${page.index} is in its place, with its corrections. It can be taken back at the desk.`, { kind: "good", key: "retake" });
      } catch (error) {
        complain(error);
      }
    }
  }
}

/**
 * @param {File} file
 * @returns {Promise<import("./look.js").Fault[]>} none where this browser can't open the picture: the reader says what is wrong then
 */
async function faultsOf(file) {
  try {
    const picture = await createImageBitmap(file);
    const { faults } = look(pixelsOf(picture));
    picture.close();
    return faults;
  } catch {
    return [];
  }
}

function care() {
  return el(
    "aside",
    { class: "care", "aria-label": "Care" },
    el("p", { text: "Of a rented book a photograph is a copy. Whether you may make it and keep it is decided by the hire agreement, local rules and the people in charge: ask them first." }),
    el("p", { text: "Your phone keeps no picture that was taken here unless its camera does. On this net others could see what is sent: use one you trust, and end sharing when you are done." }),
  );
}

void new PhoneRoom().start();
