/** Puts the text of a file into each place that names one: what is shown is what the tests run. */

import { el, show } from "../core/dom.js";

for (const place of document.querySelectorAll("pre[data-file]")) {
  const address = place instanceof HTMLElement ? (place.dataset.file ?? "") : "";
  const answer = await fetch(address);
  show(place, el("code", { text: answer.ok ? await answer.text() : `${address} could not be loaded.` }));
}
