/**
 * Keeps an answer that comes late from being shown over one that was asked for after it, as when two live events and a click make a room
 * ask three times at once.
 */
export class Newest {
  #asked = 0;
  #shown = 0;

  /**
   * Notes that something is asked for now.
   *
   * @returns {() => boolean} whether the answer may be shown, to be asked when it is there: no later question has been answered
   */
  ask() {
    const mine = ++this.#asked;
    return () => {
      if (mine < this.#shown) return false;
      this.#shown = mine;
      return true;
    };
  }
}
