/**
 * Carries named events between parts of a page that don't know each other.
 *
 * @template {object} E what each event carries, by its name; undefined for nothing
 */
export class EventBus {
  /** @type {Map<PropertyKey, Set<(data: never) => void>>} */
  #listeners = new Map();

  /**
   * Listens; the returned function stops listening.
   *
   * @template {keyof E} K
   * @param {K} name
   * @param {(data: E[K]) => void} listener
   * @returns {() => void}
   */
  on(name, listener) {
    let set = this.#listeners.get(name);
    if (!set) {
      set = new Set();
      this.#listeners.set(name, set);
    }
    set.add(listener);
    return () => set.delete(listener);
  }

  /**
   * Tells every listener; one that fails doesn't keep the others from hearing it.
   *
   * @template {keyof E} K
   * @param {K} name
   * @param {E[K] extends undefined ? [] : [E[K]]} data
   */
  emit(name, ...[data]) {
    for (const listener of [...(this.#listeners.get(name) ?? [])]) {
      try {
        listener(/** @type {never} */ (data));
      } catch (error) {
        console.error(error);
      }
    }
  }
}
