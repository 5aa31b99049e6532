/**
 * Remembers the last steps that can be taken back on this page, up to a limit.
 *
 * Corrections of the map are not kept here: their history lies with the service, where every
 * player's steps are. This holds what only this page knows, such as the order of thumbnails.
 *
 * @typedef {{text: string, run: () => Promise<void>|void, undo: () => Promise<void>|void}} Command
 */
export class CommandStack {
  /** @type {Command[]} */
  #done = [];
  /** @type {Command[]} */
  #undone = [];
  #limit;

  /** @param {number} [limit] how many steps are kept */
  constructor(limit = 100) {
    this.#limit = limit;
  }

  get canUndo() {
    return this.#done.length > 0;
  }

  get canRedo() {
    return this.#undone.length > 0;
  }

  /** @param {Command} command runs it, and keeps it only if it did not fail */
  async run(command) {
    await command.run();
    this.#done.push(command);
    if (this.#done.length > this.#limit) this.#done.shift();
    this.#undone = [];
  }

  /** @returns {Promise<string|undefined>} what was taken back */
  async undo() {
    const command = this.#done.pop();
    if (!command) return undefined;
    await command.undo();
    this.#undone.push(command);
    return command.text;
  }

  /** @returns {Promise<string|undefined>} what was done again */
  async redo() {
    const command = this.#undone.pop();
    if (!command) return undefined;
    await command.run();
    this.#done.push(command);
    return command.text;
  }
}
