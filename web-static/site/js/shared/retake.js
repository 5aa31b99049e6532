/** @typedef {import("../core/types.js").PageInfo} PageInfo */

/**
 * What is to be done about a page that was photographed again. The old page stays where it is until
 * the new picture has been read.
 *
 * @param {PageInfo[]} pages as they are now
 * @param {{page: PageInfo, before: Set<string>, names: string[]}} retaken the old page, the ids of
 *   all pages before, the names of the new files
 * @param {boolean} reading whether pages are being read
 * @returns {{kind: "wait"}|{kind: "refuse", fresh: PageInfo[], why: string}|{kind: "replace", fresh: PageInfo[], order: string[]}}
 */
export function retakeStep(pages, { page, before, names }, reading) {
  const fresh = pages.filter((p) => !before.has(p.id) && names.some((n) => p.source === n || p.source.startsWith(`${n}, page `)));
  const unread = fresh.some((p) => p.state === "waiting" || p.state === "reading");
  if (reading || unread || fresh.length === 0) return { kind: "wait" };
  const bad = fresh.find((p) => p.expectedWrong === undefined);
  if (bad) return { kind: "refuse", fresh, why: bad.finding ?? "No music was found on it." };
  const ids = fresh.map((p) => p.id);
  const kept = pages.map((p) => p.id).filter((id) => !ids.includes(id));
  return { kind: "replace", fresh, order: kept.flatMap((id) => (id === page.id ? [id, ...ids] : [id])) };
}
