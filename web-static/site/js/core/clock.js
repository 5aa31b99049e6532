/**
 * The clock, for what really is a matter of time: a message that goes, figures typed in a row, a
 * shelf looked at now and then. Nothing is waited for with it; events and answers are.
 */

/**
 * Does something once, after a while.
 *
 * @param {number} ms
 * @param {() => void} run
 * @returns {() => void} calls it off
 */
export function later(ms, run) {
  const timer = setTimeout(run, ms);
  return () => clearTimeout(timer);
}

/**
 * Lets many calls in a row lead to one, a while after the first.
 *
 * @param {number} ms
 * @param {() => void} run
 * @returns {() => void} asks for it
 */
export function once(ms, run) {
  let asked = false;
  return () => {
    if (asked) return;
    asked = true;
    later(ms, () => {
      asked = false;
      run();
    });
  };
}

/**
 * Does something again and again.
 *
 * @param {number} ms
 * @param {() => void} run
 * @returns {() => void} ends it
 */
export function every(ms, run) {
  const timer = setInterval(run, ms);
  return () => clearInterval(timer);
}

/**
 * Does something once what was changed on the page is shown.
 *
 * @param {() => void} run
 */
export function whenShown(run) {
  // the first comes before the page is painted, the second after
  requestAnimationFrame(() => requestAnimationFrame(run));
}
