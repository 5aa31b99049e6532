import { ApiError, bookPath, upload } from "../core/api.js";
import { CORRECTORS } from "../core/may.js";
import { button, el, show } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { complain, toast } from "../core/toast.js";
import { count } from "../core/words.js";

const TYPES = "image/png,image/jpeg,image/tiff,application/pdf,.png,.jpg,.jpeg,.tif,.tiff,.pdf";
/** Files sent in one request: a broken line then costs little. */
const AT_ONCE = 4;

const DROP = "Or drop them here: PNG, JPEG, TIFF or PDF, in the order of the book.";

/** Where they are kept, by the machine that runs barmap and by where it was told to keep pictures. */
const STAY = {
  this: { folder: "They stay on this machine.", elsewhere: "They leave this machine: barmap was started so that it keeps pictures in a picture store." },
  other: { folder: "They are sent to the machine that runs barmap, and kept there.", elsewhere: "They are sent to the machine that runs barmap, and kept in its picture store." },
};

/** Takes files by dropping, choosing or the camera, and sends them. */
export class Uploader {
  #book;
  #bus;
  #progress = el("div", { "aria-live": "polite" });
  #first = button("Choose files", () => this.#choose.click(), { class: "btn btn-main" }, icon("plus"));
  #stay = el("p", { class: "soft small", text: DROP });
  #choose = el("input", { type: "file", multiple: true, accept: TYPES, class: "visually-hidden", id: "choose-files", tabindex: -1, "aria-label": "Choose files" });
  #camera = el("input", { type: "file", accept: "image/*", capture: "environment", class: "visually-hidden", id: "use-camera", tabindex: -1, "aria-label": "Use the camera" });
  node;

  /**
   * @param {string} book
   * @param {import("../core/bus.js").EventBus<import("../core/types.js").BookEvents>} bus
   */
  constructor(book, bus) {
    this.#book = book;
    this.#bus = bus;
    this.node = el(
      "section",
      { class: "drop", "aria-label": "Add pages", ...CORRECTORS },
      el(
        "div",
        { class: "row" },
        this.#first,
        button("Use the camera", () => this.#camera.click(), {}, icon("camera")),
      ),
      this.#choose,
      this.#camera,
      this.#stay,
      this.#progress,
    );
    for (const input of [this.#choose, this.#camera]) {
      input.addEventListener("change", () => {
        const files = [...(input.files ?? [])];
        input.value = "";
        void this.send(files);
      });
    }
    this.#dropping();
  }

  /**
   * Says where the files go, and takes less room where pages are there already.
   *
   * @param {import("../core/types.js").Book["keeps"]} keeps
   * @param {boolean} filled
   */
  show(keeps, filled) {
    this.#stay.textContent = [DROP, keeps ? STAY[keeps.machine][keeps.pictures] : ""].filter(Boolean).join(" ");
    this.node.classList.toggle("drop-slim", filled);
    // pages are there: what comes next is elsewhere
    this.#first.classList.toggle("btn-main", !filled);
  }

  #dropping() {
    addEventListener("dragover", (event) => {
      if (!event.dataTransfer?.types.includes("Files")) return;
      event.preventDefault();
      this.node.classList.add("over");
    });
    addEventListener("dragleave", (event) => {
      if (event.relatedTarget === null) this.node.classList.remove("over");
    });
    addEventListener("drop", (event) => {
      this.node.classList.remove("over");
      const files = [...(event.dataTransfer?.files ?? [])];
      if (files.length === 0) return;
      event.preventDefault();
      files.sort((a, b) => a.name.localeCompare(b.name, undefined, { numeric: true }));
      void this.send(files);
    });
  }

  /**
   * @param {File[]} files
   * @returns {Promise<string[]>} the names of those that were taken
   */
  async send(files) {
    if (files.length === 0) return [];
    const fill = el("span");
    const text = el("p", { text: `Taking ${count(files.length, "file")} …` });
    show(this.#progress, text, el("div", { class: "meterbar" }, fill));
    /** @type {import("../core/types.js").Refused[]} */
    const refused = [];
    /** @type {string[]} */
    const taken = [];
    for (let start = 0; start < files.length; start += AT_ONCE) {
      const part = files.slice(start, start + AT_ONCE);
      if (start) text.textContent = `Taking ${count(files.length, "file")}, ${start} are there …`;
      try {
        /** @type {import("../core/types.js").UploadAnswer} */
        const answer = await upload(bookPath(this.#book, "/pages"), part, (share) => {
          fill.style.width = `${Math.round((100 * (start + share * part.length)) / files.length)}%`;
        });
        taken.push(...answer.accepted);
        refused.push(...answer.refused);
        this.#bus.emit("live:job", answer.job);
      } catch (error) {
        const list = error instanceof ApiError ? refusedIn(error.body) : [];
        if (list.length) refused.push(...list);
        else complain(error);
      }
    }
    this.#report(taken.length, refused);
    this.#bus.emit("uploaded");
    return taken;
  }

  /**
   * @param {number} taken
   * @param {import("../core/types.js").Refused[]} refused
   */
  #report(taken, refused) {
    if (taken) toast(`${count(taken, "file")} taken; reading begins.`, { kind: "good", key: "upload" });
    show(
      this.#progress,
      refused.length
        ? el("ul", { class: "refused" }, refused.map((r) => el("li", { text: `${r.name}: ${r.detail}` })))
        : null,
    );
  }
}

/**
 * @param {unknown} problem what came with an answer that says no
 * @returns {import("../core/types.js").Refused[]}
 */
function refusedIn(problem) {
  const list = typeof problem === "object" && problem !== null && "refused" in problem ? problem.refused : [];
  return Array.isArray(list) ? list : [];
}
