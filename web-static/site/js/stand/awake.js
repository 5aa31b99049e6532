/** Keeps the screen from going dark by itself, where the browser can. */
export class Awake {
  /** @type {WakeLockSentinel|undefined} */
  #lock;
  #wanted = false;
  /** @type {(text: string) => void} */
  #say;

  /** @param {(text: string) => void} say told how it stands, each time that changes */
  constructor(say) {
    this.#say = say;
    // the lock goes when the page is hidden, and has to be asked for again
    document.addEventListener("visibilitychange", () => {
      if (this.#wanted && document.visibilityState === "visible") void this.hold();
    });
  }

  async hold() {
    this.#wanted = true;
    if (!("wakeLock" in navigator)) return this.#say(WITHOUT);
    try {
      const lock = await navigator.wakeLock.request("screen");
      this.#lock = lock;
      lock.addEventListener("release", () => this.#wanted && this.#say(WITHOUT));
      this.#say("The screen is kept awake.");
    } catch {
      this.#say(WITHOUT);
    }
  }

  async let() {
    this.#wanted = false;
    await this.#lock?.release().catch(() => undefined);
    this.#lock = undefined;
  }
}

const WITHOUT = "Here the screen can't be kept awake from the page: let the device's own settings do it.";
