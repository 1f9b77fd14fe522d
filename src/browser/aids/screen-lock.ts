/** Keeps the screen awake while a switch is on, until the page is left. */
export class ScreenLock {
  #lock: WakeLockSentinel | undefined;

  /** Takes or releases it; false where the browser does not allow it now. */
  async keep(isAwake: boolean): Promise<boolean> {
    if (!isAwake) {
      await this.#lock?.release().catch(() => undefined);
      this.#lock = undefined;
      return true;
    }
    if (this.#lock?.released === false) return true;
    try {
      this.#lock = await navigator.wakeLock.request('screen');
      return true;
    } catch {
      return false;
    }
  }
}
