import { whenAnswered } from "./api.js";
import { every } from "./clock.js";
import { ask, confirm } from "./dialog.js";
import { button, el, show } from "./dom.js";
import { drop, isMeant, newKey, put, send, waiting, whenDifferent } from "./outbox.js";
import { saidOf } from "./said-of.js";
import { complain, toast } from "./toast.js";
import { count, when } from "./words.js";

/** @typedef {import("./outbox.js").Waiting} Waiting */

/** How often what waits is tried again while a page is open. */
const AGAIN_MS = 10_000;

const kept = el("span", { class: "net-kept", hidden: true });
const edits = button("", () => void showWaiting(), { class: "btn btn-quiet net-edits", id: "net-edits", hidden: true });
const line = el("div", { class: "net", role: "status" }, kept, edits);

/** @type {Waiting[]} */
let now = [];
let listening = false;

/** Says in the header what is shown from the browser's own store, and what waits to be sent. */
export function netLine() {
  if (!listening) {
    listening = true;
    whenAnswered((at) => {
      if (!at && kept.hidden) return;
      kept.hidden = at === undefined;
      kept.textContent = at ? `barmap is not answering: shown as it was ${when(at.toISOString())}` : "";
    });
    whenDifferent(() => void draw());
    addEventListener("online", () => void tryNow());
    every(AGAIN_MS, () => {
      if (now.some((edit) => edit.state === "waiting")) void tryNow();
    });
    void draw().then(() => (now.length ? tryNow() : undefined));
  }
  return line;
}

async function draw() {
  now = await waiting().catch(() => []);
  const stuck = now.filter((edit) => edit.state !== "waiting").length;
  const meant = now.filter(isMeant).length;
  edits.hidden = now.length === 0;
  edits.textContent = stuck ? `${count(stuck, "edit")} could not be made` : meant ? `${count(meant, "edit")} to be sent` : `${count(now.length, "step")} back to be sent`;
  edits.classList.toggle("net-stuck", stuck > 0);
}

async function tryNow() {
  try {
    const made = await send();
    if (made) toast(`${count(made, "edit")} kept in this browser ${made === 1 ? "is" : "are"} made now.`, { kind: "good", key: "outbox" });
  } catch (error) {
    complain(error);
  }
  await draw();
}

async function showWaiting() {
  const list = el("ul", { class: "net-list" });
  const again = async (/** @type {Waiting} */ edit) => {
    await put({ ...edit, key: newKey(), match: edit.now ?? edit.match, state: "waiting", why: undefined });
    await drop(edit.key);
    await tryNow();
    await fill();
  };
  const fill = async () => {
    await draw();
    show(list, now.length ? now.map((edit) => item(edit, again, fill)) : el("li", { text: "Nothing waits any more." }));
  };
  // one after the other: each is meant for what the one before it makes
  const all = async () => {
    /** @type {Set<number>} */
    const tried = new Set();
    for (;;) {
      const next = (await waiting()).find((edit) => edit.state === "clash" && !tried.has(edit.seq ?? edit.at));
      if (!next) return;
      tried.add(next.seq ?? next.at);
      await again(next);
    }
  };
  await fill();
  await ask("Edits kept in this browser", [
    el("p", { class: "soft", text: "They were made while barmap didn't answer. None is lost: each is sent, or stays until you drop it." }),
    list,
    now.filter((edit) => edit.state === "clash").length > 1 ? button("Make all of them all the same", () => void all(), { class: "btn", id: "net-again-all" }) : el("span"),
    now.some((edit) => edit.state === "waiting") ? button("Send now", () => void tryNow().then(fill), { class: "btn btn-main", id: "net-send" }) : el("span"),
  ]);
}

/**
 * @param {Waiting} edit
 * @param {(edit: Waiting) => Promise<void>} again
 * @param {() => Promise<void>} fill
 */
function item(edit, again, fill) {
  const sure = async () => {
    const [title, what, yes] = edit.takenBack ? ["Leave this edit made?", "If barmap had made it, it stays made.", "Leave it"] : ["Drop this edit?", "It was never made, and it can't be brought back.", "Drop it"];
    if (await confirm(title, `${saidOf(edit)}. ${what}`, yes)) await drop(edit.key);
    await fill();
  };
  const waits = edit.takenBack ? "taken back; it waits to hear whether barmap had made it" : "waits";
  const text = edit.state === "clash" ? "Someone changed the book meanwhile; look at it, then make it all the same or drop it." : (edit.why ?? "");
  return el(
    "li",
    { "data-state": edit.state },
    el("span", { text: saidOf(edit) }),
    el("span", { class: "soft small block", text: [when(new Date(edit.at).toISOString()), edit.state === "waiting" ? waits : text].join(": ") }),
    el(
      "span",
      { class: "row" },
      edit.state === "waiting" || edit.takenBack ? null : button(edit.state === "clash" ? "Make it all the same" : "Try again", () => void again(edit), { class: "btn net-again" }),
      button(edit.takenBack ? "Leave it as it is" : "Drop it", () => void sure(), { class: "btn net-drop" }),
    ),
  );
}
