type Say = (text: string) => void;

/** Does what a control of `<bench-aids>` was pressed for. */
export async function pressAid(control: HTMLElement, aids: HTMLElement): Promise<void> {
  const sayIn =
    (name: string): Say =>
    (text) =>
      aids.querySelector(name)?.replaceChildren(text);
  const say = sayIn('[data-said-aids]');
  if (control instanceof HTMLInputElement) {
    if (await keepAwake(control.checked)) return;
    control.checked = false;
    say('The browser does not allow it now; a low battery is the usual reason.');
  } else if (control.dataset['wait'] !== undefined) {
    const minutes = Number(control.dataset['wait']);
    const rest = `Start the timer: ${minutes} min`;
    const isRunning = toggleTimer(minutes, sayIn('[data-left]'), () => {
      control.textContent = rest;
      say('Time is up: take the reading now.');
    });
    control.textContent = isRunning ? 'Stop the timer' : rest;
    say(isRunning ? `Timer started: ${minutes} min.` : '');
  } else {
    const rest = 'Read aloud';
    const isReading = toggleReading(() => {
      control.textContent = rest;
    });
    control.textContent = isReading ? 'Stop reading' : rest;
  }
}

let lock: WakeLockSentinel | undefined;

/** Keeps the screen awake until the page is left, or no longer; false where the browser does not allow it now. */
async function keepAwake(isAwake: boolean): Promise<boolean> {
  try {
    if (!isAwake) await lock?.release();
    else if (lock?.released !== false) lock = await navigator.wakeLock.request('screen');
    return true;
  } catch {
    return !isAwake;
  }
}

let timer: number | undefined;

/**
 * Counts the minutes that a check says to wait, or stops. Counted by the clock: a page that slept catches up. `onTick` gets what is left
 * as `4:59`, and an empty text at the end. True where it now runs.
 */
function toggleTimer(minutes: number, onTick: Say, onOver: () => void): boolean {
  const stop = (): void => {
    clearInterval(timer);
    timer = undefined;
    onTick('');
  };
  if (timer !== undefined) {
    stop();
    return false;
  }
  const end = Date.now() + minutes * 60_000;
  const show = (): void => {
    const seconds = Math.max(0, Math.ceil((end - Date.now()) / 1000));
    onTick(`${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`);
    if (seconds > 0) return;
    stop();
    if ('vibrate' in navigator) navigator.vibrate([300, 150, 300]);
    onOver();
  };
  timer = window.setInterval(show, 500);
  show();
  return true;
}

/** What stands on the sheet, in its order: open cautions, question, set-ups, instruction, target, answers. */
const spoken =
  '.caution:not([hidden]) summary, .caution:not([hidden]) .text, .heading, .setups li, .prose p, .prose li, .target h2, .target .reading, .outcome';

/** Reads the sheet aloud, or stops; `onEnd` is called when the last sentence was said. True where it now reads. */
function toggleReading(onEnd: () => void): boolean {
  const isReading = speechSynthesis.speaking || speechSynthesis.pending;
  speechSynthesis.cancel();
  if (isReading) return false;
  // Sentence by sentence: some browsers break off after a quarter of a minute.
  const sentences = [...document.querySelectorAll(spoken)]
    .filter((place) => place.checkVisibility())
    .flatMap((place) =>
      (place.textContent ?? '')
        .replaceAll(/\s+/gu, ' ')
        .trim()
        .split(/(?<=[.?!:]) /u),
    )
    .filter((text) => text !== '')
    .map((text) => new SpeechSynthesisUtterance(text));
  for (const sentence of sentences) {
    sentence.lang = 'en';
    speechSynthesis.speak(sentence);
  }
  sentences.at(-1)?.addEventListener('end', onEnd);
  return sentences.length > 0;
}
