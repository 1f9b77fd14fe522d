import { partWords } from '#core/log/describe-event.ts';
import type { EventDraft, PartStatus, Showing } from '#core/log/event.ts';
import type { Job } from '#core/log/job.ts';
import { planProof } from '#core/log/proof.ts';

/**
 * What a form of the job's view says when it is sent, as drafts; a text where something is missing. `pressed` is the button.
 * Forms that do more than write (photo, carry, bench, unit) are not among these.
 */
export function readJobForm(form: HTMLFormElement, pressed: HTMLElement | null): readonly EventDraft[] | string {
  const fields = new FormData(form);
  const isYes = pressed?.getAttribute('value') === 'yes';
  switch (form.dataset['form']) {
    case 'meter': {
      const reading = textOf(fields, 'reading');
      const check = meterChecks.find((name) => name === form.dataset['check']);
      return check === undefined
        ? []
        : [{ kind: 'meter', check, isGood: isYes, ...(reading === '' ? {} : { reading }) }];
    }
    case 'part': {
      const name = textOf(fields, 'name');
      const status = readPartStatus(textOf(fields, 'status'));
      return name === '' || status === undefined ? 'Name the part.' : [{ kind: 'part', name, status }];
    }
    case 'waiting': {
      const what = textOf(fields, 'what');
      return what === '' ? 'What is the job waiting for?' : [{ kind: 'waiting', what }];
    }
    case 'note': {
      const text = textOf(fields, 'text');
      return text === '' ? 'The note is empty.' : [{ kind: 'note', text }];
    }
    case 'point': {
      const name = textOf(fields, 'name');
      return [{ kind: 'point', point: textOf(fields, 'point'), ...(name === '' ? {} : { name }) }];
    }
    case 'proof': {
      const proof = readProofForm(form, isYes);
      return typeof proof === 'string' ? proof : [proof];
    }
    case 'close': {
      const summary = textOf(fields, 'summary');
      const how = endings.find((name) => name === textOf(fields, 'how'));
      return how === undefined
        ? 'Say how it ended.'
        : [{ kind: 'closed', how, ...(summary === '' ? {} : { summary }) }];
    }
    default:
      return [];
  }
}

/** The state of a part that a select names. */
export function readPartStatus(value: string): PartStatus | undefined {
  return partStatuses.find((status) => status === value);
}

const meterChecks = ['leads-shorted', 'fresh-cell', 'known-part'] as const;
const endings = ['cured', 'cured-by-disturbance', 'handed-over', 'stopped'] as const;
// `partWords` has every state as a key: a parsed boundary.
const partStatuses = Object.keys(partWords) as readonly PartStatus[];

type Field = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

/** Fills the form of the unit from a job, field by field; what a person is typing into stays. */
export function fillUnitForm(form: HTMLFormElement, job: Job): void {
  const values: Readonly<Record<string, string | number | undefined>> = {
    'intake.symptom': job.symptom,
    ...Object.fromEntries(Object.entries(job.unit).map(([key, value]) => [`unit.${key}`, value])),
    ...Object.fromEntries(Object.entries(job.intake).map(([key, value]) => [`intake.${key}`, value])),
  };
  for (const field of fieldsOf(form)) {
    if (field === document.activeElement) continue;
    const before = field.dataset['saved'];
    // Typed and not kept yet: another tab's change must not take it away.
    if (before !== undefined && field.value !== before) continue;
    field.value = String(values[field.name] ?? '');
    field.dataset['saved'] = field.value;
  }
}

/** What was changed in the form of the unit since it was filled, as drafts; fields left alone are left out. */
export function readUnitForm(form: HTMLFormElement): readonly EventDraft[] {
  const changed = new Map<string, string>();
  for (const field of fieldsOf(form)) {
    const value = field.value.trim();
    if (value !== (field.dataset['saved'] ?? '').trim()) changed.set(field.name, value);
    field.dataset['saved'] = field.value;
  }
  const unit = pick(changed, 'unit.', ['maker', 'model', 'serial', 'revision', 'slug', 'description']);
  const texts = pick(changed, 'intake.', ['symptom', 'said', 'changed', 'before', 'keep', 'limitMoney']);
  const hours = changed.get('intake.limitHours');
  const said = changed.get('intake.mains');
  const mains =
    said === undefined ? undefined : (exposures.find((exposure) => exposure === said) ?? ('unknown' as const));
  const intake = {
    ...texts,
    ...(hours === undefined || !(Number(hours) >= 0 && Number(hours) <= 10_000) ? {} : { limitHours: Number(hours) }),
    ...(mains === undefined ? {} : { mains }),
  };
  return [
    ...(Object.keys(unit).length === 0 ? [] : [{ kind: 'unit' as const, ...unit }]),
    ...(Object.keys(intake).length === 0 ? [] : [{ kind: 'intake' as const, ...intake }]),
  ];
}

const exposures = ['outside', 'inside-covered', 'inside-bare'] as const;

function pick<Name extends string>(
  changed: ReadonlyMap<string, string>,
  prefix: string,
  names: readonly Name[],
): Partial<Record<Name, string>> {
  const picked: Partial<Record<Name, string>> = {};
  for (const name of names) {
    const value = changed.get(`${prefix}${name}`);
    if (value !== undefined) picked[name] = value;
  }
  return picked;
}

/** Empties a form of what was typed, and of what it remembers of the job it was filled from. */
export function clearForm(form: HTMLFormElement): void {
  form.reset();
  for (const field of fieldsOf(form)) delete field.dataset['saved'];
}

/** The text of a field, without white space around it. */
export function textOf(fields: FormData, name: string): string {
  const value = fields.get(name);
  return typeof value === 'string' ? value.trim() : '';
}

function fieldsOf(form: HTMLFormElement): readonly Field[] {
  return [...form.querySelectorAll<Field>('input, select, textarea')].filter(({ name }) => name.includes('.'));
}

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
