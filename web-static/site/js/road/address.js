/** Turns chosen bars into the words a change uses. */

/** @typedef {import("../core/types.js").RoadBar} RoadBar */

/** @param {RoadBar} bar where a number occurs twice, its ending is said */
export function firstAddress(bar) {
  return inEnding(bar, bar.label ?? String(bar.number));
}

/** @param {RoadBar} bar the last bar of a multi-bar rest is its end */
export function lastAddress(bar) {
  return inEnding(bar, bar.label ?? String(bar.number + bar.count - 1));
}

/**
 * @param {RoadBar} bar
 * @param {string} name
 */
function inEnding(bar, name) {
  return bar.within ? `${name} in the ${bar.within}` : name;
}
