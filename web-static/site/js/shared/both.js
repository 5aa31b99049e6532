import { ask } from "../core/dialog.js";
import { el } from "../core/dom.js";
import { when } from "../core/words.js";

/** @typedef {import("../core/types.js").Clash} Clash */

/**
 * Shows what somebody else did and what was wanted here at the same time. Neither is lost: theirs is made, ours is made
 * after it where the player says so.
 *
 * @param {Clash} clash
 */
export async function chooseBoth({ mine, theirs, again }) {
  const answer = await ask(
    "Somebody else was faster",
    [
      el("h3", { text: "They did" }),
      theirs.length
        ? el("ul", { class: "both-theirs" }, theirs.map((e) => el("li", {}, el("span", { text: e.text }), el("span", { class: "soft small", text: ` ${[e.who || "without a name", when(e.when)].join(" · ")}` }))))
        : el("p", { class: "both-theirs", text: "The book is not as you saw it any more." }),
      el("h3", { text: "You wanted" }),
      el("p", { class: "both-mine", text: mine }),
      el("p", { class: "soft small", text: "Theirs is made and stands in the book; look at it behind this window. Yours is not made yet." }),
    ],
    { yes: "Make mine too", no: "Leave it as theirs" },
  );
  if (answer) await again();
}
