import { ask, field } from "../core/dialog.js";
import { el } from "../core/dom.js";
import { barName, count } from "../core/words.js";

/**
 * A barline in a rest of several bars: nobody can see how many of them come before it.
 *
 * @param {import("../core/types.js").Bar} bar the rest
 * @param {number} x where the line goes, page pixels
 * @returns {Promise<{before: number}|undefined>} nothing when it was left
 */
export async function askSplit(bar, x) {
  const [left, right] = [bar.outline[0][0], bar.outline[1][0]];
  const share = Math.round((bar.count * (x - left)) / Math.max(1, right - left));
  const guess = Math.min(bar.count - 1, Math.max(1, share));
  const before = el("input", { name: "before", type: "number", min: 1, max: bar.count, value: String(guess), required: true });
  const then = el("p", { class: "field-hint", "aria-live": "polite" });
  const say = () => {
    const rest = bar.count - Number(before.value);
    then.textContent = rest > 0 ? `Then ${count(rest, "bar")} of rest after the line.` : "Then a bar of music after the line: one bar more than before.";
  };
  before.addEventListener("input", say);
  say();
  const answer = await ask(`A barline in the rest ${barName(bar)}`, [field(`Bars of rest before the line, of ${bar.count}`, before), then], { yes: "Put it there" });
  return answer ? { before: Number(answer.get("before")) } : undefined;
}
