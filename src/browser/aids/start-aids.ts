import { toggleReading } from './read-aloud.ts';
import { ScreenLock } from './screen-lock.ts';
import { WaitTimer } from './wait-timer.ts';

const lock = new ScreenLock();
const timer = new WaitTimer();

/** Does what a control of `<bench-aids>` was pressed for. */
export async function pressAid(control: HTMLElement, aids: HTMLElement): Promise<void> {
  const say = (text: string): void => {
    const said = aids.querySelector('[data-said-aids]');
    if (said !== null) said.textContent = text;
  };
  if (control instanceof HTMLInputElement) {
    if (await lock.keep(control.checked)) return;
    control.checked = false;
    say('The browser does not allow it now; a low battery is the usual reason.');
  } else if (control.dataset['wait'] !== undefined) {
    const minutes = Number(control.dataset['wait']);
    const rest = `Start the timer: ${minutes} min`;
    const left = aids.querySelector('[data-left]');
    const show = (text: string): void => {
      if (left !== null) left.textContent = text;
    };
    const isRunning = timer.toggle(minutes, show, () => {
      control.textContent = rest;
      say('The time is over: take the reading now.');
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
