/**
 * The parts of a long list, each drawn anew only when what it is drawn from is different: a book of many numbers is not drawn again for one
 * change, and what has the focus keeps it.
 */
export class KeptNodes {
  #into;
  /** @type {{of: unknown[], node: Element}[]} */
  #shown = [];

  /** @param {Element} into what the parts stand in */
  constructor(into) {
    this.#into = into;
  }

  /** @param {{of: unknown[], draw: () => Element}[]} parts in order; `of` is all that one is drawn from */
  show(parts) {
    this.#shown = parts.map(({ of, draw }, i) => {
      const before = this.#shown[i];
      return before && same(before.of, of) ? { of, node: before.node } : { of, node: draw() };
    });
    const { children } = this.#into;
    this.#shown.forEach(({ node }, i) => {
      if (i >= children.length) this.#into.append(node);
      else if (children[i] !== node) children[i].replaceWith(node);
    });
    while (children.length > parts.length) this.#into.lastElementChild?.remove();
  }
}

/**
 * Tells whether two things say the same; those of a long list are mostly the very same.
 *
 * @param {unknown[]} before
 * @param {unknown[]} now
 */
function same(before, now) {
  return now.every((one, i) => one === before[i] || JSON.stringify(one) === JSON.stringify(before[i]));
}
