/** @typedef {import("../core/types.js").RoadBar} RoadBar */
/** @typedef {import("../core/types.js").RoadTurn} Turn */
/** @typedef {import("../core/types.js").PagePlace} PagePlace */

const WORST = ["none", "unknown", "quick", "time"];

/** @type {Record<string, string>} */
const TIME = { none: "no time", unknown: "time not known", quick: "be quick", time: "there is time" };

/**
 * Where one page ends and the next begins: to be turned, or lying beside it.
 *
 * @param {RoadBar} bar
 * @param {RoadBar|undefined} before the bar before it, of its number or the one played before
 * @param {PagePlace[]} pages
 * @param {Turn[]} turns
 * @returns {import("./lay.js").Fold|undefined}
 */
export function foldAt(bar, before, pages, turns) {
  if (!before || before.page === bar.page) return undefined;
  const opening = (/** @type {number} */ page) => pages.find((p) => p.page === page)?.opening ?? page;
  const loose = pages.find((p) => p.page === bar.page)?.leaf === "loose";
  const way = `page ${before.page} to ${bar.page}`;
  if (loose || opening(bar.page) === opening(before.page)) {
    return { page: bar.page, turned: false, word: "", verdict: "", says: loose ? `Page ${bar.page}, a loose copy, lies ready` : `Page ${bar.page} lies beside page ${before.page}` };
  }
  const here = turns.filter((t) => t.fromPage === before.page && t.toPage === bar.page).sort((a, b) => WORST.indexOf(a.verdict) - WORST.indexOf(b.verdict))[0];
  return {
    page: bar.page,
    turned: true,
    word: here?.mark ?? "",
    verdict: here?.verdict ?? "",
    says: here ? `Turn from ${way}: ${TIME[here.verdict] ?? here.verdict}` : `Turn from ${way}: not needed as the show is played`,
  };
}
