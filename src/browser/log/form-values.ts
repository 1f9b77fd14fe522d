import type { EventDraft } from '#core/bench-log/event.ts';
import type { Job } from '#core/bench-log/job.ts';

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
