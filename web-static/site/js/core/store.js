/** Small things this browser remembers; works, forgetting, where storage is switched off. */

/**
 * @template T
 * @param {string} key
 * @param {T} fallback
 * @returns {T}
 */
export function recall(key, fallback) {
  try {
    const text = localStorage.getItem(`barmap.${key}`);
    return text === null ? fallback : JSON.parse(text);
  } catch {
    return fallback;
  }
}

/**
 * @param {string} key
 * @param {unknown} value
 */
export function remember(key, value) {
  try {
    localStorage.setItem(`barmap.${key}`, JSON.stringify(value));
  } catch {
    // Nothing depends on it.
  }
}

/** @returns {string} the name that goes with this player's corrections */
export function who() {
  return String(recall("who", "")).trim();
}
