import type { EventDraft, Showing } from '#core/bench-log/event.ts';
import { planProof } from '#core/bench-log/plan-proof.ts';

/** Keeps the form of the proof in step with what is chosen in it: which numbers are asked, and what proof they call for. */
export function updateProofForm(form: HTMLFormElement): void {
  const how = new FormData(form).get('how');
  for (const part of form.querySelectorAll<HTMLElement>('[data-for="hours"], [data-for="starts"]')) {
    part.hidden = part.dataset['for'] !== how;
  }
  const done = form.querySelector<HTMLElement>('[data-for="done"]');
  if (done !== null) done.hidden = how === 'always';
  const label = form.querySelector('[data-done-label]');
  if (label !== null)
    label.textContent = how === 'starts' ? 'Clean starts in a row so far' : 'Hours run without it so far';
  const showing = readShowing(form);
  const planned = form.querySelector('[data-planned]');
  if (planned === null) return;
  planned.textContent =
    showing === undefined
      ? 'The numbers are still missing.'
      : (planProof(showing)?.text ?? 'It cannot have failed in more starts than there were.');
}

/** Sets the form to how the fault was said to show last time. */
export function fillProofForm(form: HTMLFormElement, showing: Showing): void {
  const values = { meanHours: '', seen: '', starts: '', ...showing };
  for (const field of form.querySelectorAll<HTMLInputElement>('input')) {
    if (field.type === 'radio') field.checked = field.value === showing.how;
    else if (field.name === 'meanHours' || field.name === 'seen' || field.name === 'starts')
      field.value = String(values[field.name]);
  }
  updateProofForm(form);
}

/** What the form says, as a draft; a text where something is missing. */
export function readProofForm(form: HTMLFormElement, isClean: boolean): EventDraft | string {
  const showing = readShowing(form);
  if (showing === undefined || planProof(showing) === undefined) return 'Say first how often the fault showed.';
  const done = showing.how === 'always' ? 1 : numberOf(form, 'done');
  if (done === undefined) return showing.how === 'starts' ? 'How many starts?' : 'How many hours?';
  return { kind: 'proof', showing, done, isClean };
}

function readShowing(form: HTMLFormElement): Showing | undefined {
  const how = new FormData(form).get('how');
  if (how === 'always') return { how };
  if (how === 'hours') {
    const meanHours = numberOf(form, 'meanHours');
    return meanHours === undefined || meanHours <= 0 || meanHours > 100_000 ? undefined : { how, meanHours };
  }
  const [seen, starts] = [numberOf(form, 'seen'), numberOf(form, 'starts')];
  const isCount = (count: number | undefined): count is number => Number.isInteger(count) && (count ?? 0) >= 1;
  return isCount(seen) && isCount(starts) ? { how: 'starts', seen, starts } : undefined;
}

function numberOf(form: HTMLFormElement, name: string): number | undefined {
  const text = String(new FormData(form).get(name) ?? '').trim();
  const value = Number(text.replace(',', '.'));
  return text === '' || !Number.isFinite(value) || value < 0 || value > 1_000_000 ? undefined : value;
}
