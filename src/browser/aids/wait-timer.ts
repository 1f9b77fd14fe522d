/** Counts the minutes that a check says to wait. Counted by the clock: a page that slept catches up. */
export class WaitTimer {
  #timer: number | undefined;

  /** Starts, or stops a timer that runs. `onTick` gets what is left as `4:59`, and an empty text at the end. True where it now runs. */
  toggle(minutes: number, onTick: (left: string) => void, onOver: () => void): boolean {
    if (this.#timer !== undefined) {
      this.#stop(onTick);
      return false;
    }
    const end = Date.now() + minutes * 60_000;
    const show = (): void => {
      const seconds = Math.max(0, Math.ceil((end - Date.now()) / 1000));
      onTick(`${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`);
      if (seconds > 0) return;
      this.#stop(onTick);
      if ('vibrate' in navigator) navigator.vibrate([300, 150, 300]);
      onOver();
    };
    this.#timer = window.setInterval(show, 500);
    show();
    return true;
  }

  #stop(onTick: (left: string) => void): void {
    clearInterval(this.#timer);
    this.#timer = undefined;
    onTick('');
  }
}
