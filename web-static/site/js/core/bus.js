/** Carries named events between parts of a page that don't know each other. */
export class EventBus {
  /** @type {Map<string, Set<(data: any) => void>>} */
  #listeners = new Map();

  /**
   * Listens; the returned function stops listening.
   *
   * @param {string} name
   * @param {(data: any) => void} listener
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
   * @param {string} name
   * @param {any} [data]
   */
  emit(name, data) {
    for (const listener of [...(this.#listeners.get(name) ?? [])]) {
      try {
        listener(data);
      } catch (error) {
        console.error(error);
      }
    }
  }
}
