import { ask, field } from "../core/dialog.js";
import { complain, toast } from "../core/toast.js";
import { keepSettings } from "../shared/settings.js";
import { select } from "./kind-fields.js";

/** @typedef {import("./model.js").RoadModel} RoadModel */
/** @typedef {import("../core/types.js").PagePlace} PagePlace */

/**
 * Lays the first page on the other side, and all others with it.
 *
 * @param {string} book
 * @param {RoadModel} model
 */
export async function flipSides(book, model) {
  const side = model.plan?.pages?.find((p) => p.leaf === "bound")?.side === "left" ? "right" : "left";
  const before = await keepSettings(book, () => ({ firstPage: side }));
  if (!before) return;
  await model.load().catch(complain);
  const back = () => void keepSettings(book, () => ({ firstPage: before.firstPage ?? null })).then(() => model.load()).catch(complain);
  toast(`The first page lies on the ${side} now.`, { kind: "good", key: "flip", action: { label: "Take back", run: back } });
}

/**
 * Says of a page whether it is bound as the others, laid in, or loose.
 *
 * @param {string} book
 * @param {RoadModel} model
 * @param {PagePlace} page
 */
export async function sayLeaf(book, model, page) {
  const info = model.pages.find((p) => p.index === page.page);
  const kind = select("leaf", [["bound", "in the book"], ["inserted", "laid in, with a front and a back of its own"], ["loose", "a loose copy beside the book"]], page.leaf);
  const answer = info && (await ask(`Page ${page.page}`, [field("It is", kind)], { yes: "Keep it so" }));
  if (!answer) return;
  const leaf = String(answer.get("leaf"));
  const values = (/** @type {import("../core/types.js").Settings} */ now) => {
    const leaves = { ...now.leaves };
    if (leaf === "bound") delete leaves[info.id];
    else leaves[info.id] = leaf;
    return { leaves };
  };
  if (await keepSettings(book, values)) await model.load().catch(complain);
}
