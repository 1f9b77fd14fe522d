import type { EventDraft } from '#core/log/event.ts';
import { readTexts } from '#core/log/job-brief.ts';
import type { MainsExposure } from '#core/model/library.ts';
import { readRecord } from '#core/model/read-record.ts';
import { read, write } from './kit/storage.ts';
import { findOpenJob, isJobHere, isUnitInDoubt } from './open-job.ts';
import { readTreeMap } from './page-data.ts';

// What is remembered while one unit is on the bench: in this tab, and what its job must know in the job.

/** What is known of this unit, chosen or not: marks as caution-gate.ts writes them, and set-ups that were told. */
export function readMarks(unit: string | undefined): ReadonlySet<string> {
  const owner = `${nameUnitHere()} ${unit ?? ''}`;
  return new Set((read('marksOf') ?? owner) === owner ? (read('marks') ?? '').split(' ') : []);
}

/** Another unit’s marks are forgotten. */
export function rememberMarks(unit: string | undefined, marks: readonly string[]): void {
  write('marks', [...new Set([...readMarks(unit), ...marks])].join(' '));
  write('marksOf', `${nameUnitHere()} ${unit ?? ''}`);
  if (marks.includes(plugMark)) tellJob({ kind: 'intake', plugged: unit ?? '' });
}

/** The marks of the unit that this page is about go into the job that was begun for it; `before` is what the unit was named. */
export function giveMarks(before: string, job: string): void {
  const owner = read('marksOf');
  if (owner?.startsWith(`${before} `) === true) write('marksOf', job + owner.slice(before.length));
}

/** The mark of what is asked before a plug goes in for the first time: the caution `first-plug`. */
export const plugMark = 'first-plug';

/** The mark of a reader who said that the mains lead goes into the case, be its parts covered or not. */
export const insideMark = 'mains:inside';

/** Slug of the unit for which that was answered in this tab, empty where it has no file; undefined where it was not. */
export function pluggedHere(): string | undefined {
  const [, unit] = (read('marksOf') ?? '').split(' ');
  return unit !== undefined && readMarks(unit).has(plugMark) ? unit : undefined;
}

/** Whether the job of this unit holds the answer, be it from another day: the same unit is not asked twice. */
export function isPluggedInJob(unit: string | undefined): boolean {
  const job = findOpenJob();
  return job !== undefined && isJobHere(job.id) && nameUnitHere() === job.id && job.plugged === (unit ?? '');
}

/**
 * Folds the set-ups of a step to their line where each was told in full at a step that the reader has answered in this tab; a touch
 * opens them again. Call it once, when the page of the step begins.
 */
export function foldToldSetups(step: ParentNode, findUnit: () => string | undefined): void {
  const setups = step.querySelector<HTMLDetailsElement>('.step > .setups');
  if (setups === null) return;
  const marks = [...setups.querySelectorAll<HTMLElement>('[data-setup]')].map(
    ({ dataset }) => `set:${dataset['setup']}`,
  );
  const told = readMarks(findUnit());
  if (marks.every((mark) => told.has(mark))) setups.open = false;
  step.addEventListener('click', ({ target }) => {
    if (setups.open && target instanceof Element && target.closest('a.outcome') !== null)
      rememberMarks(findUnit(), marks);
  });
}

/** Where the mains of the unit that this page is about is, as its reader said; what was said of another unit says nothing here. */
export function mainsExposure(): MainsExposure {
  const [kept, unit] = (read('mains') ?? '').split(' ');
  if (unit !== nameUnitHere()) return 'unknown';
  return kept === 'outside' || kept === 'inside-covered' || kept === 'inside-bare' ? kept : 'unknown';
}

/** The job of the unit that this page is about, or where it has none yet its tree. */
export function nameUnitHere(): string {
  const tree = readTreeMap()?.slug;
  const job = findOpenJob();
  return job === undefined || (tree !== undefined && isUnitInDoubt(tree)) ? `tree:${tree ?? ''}` : job.id;
}

/** Remembers it in this tab; `<job-recorder>` hears of it and writes it into the open job. */
export function rememberMainsExposure(exposure: MainsExposure): void {
  write('mains', `${exposure} ${nameUnitHere()}`);
  tellJob({ kind: 'intake', mains: exposure });
}

/** The chips of the unit that this page is about, as its reader named them: slug of chips.yaml to slug of a part. */
export function chipsHere(): Readonly<Record<string, string>> {
  const job = findOpenJob();
  const isOfJob = job !== undefined && nameUnitHere() === job.id;
  return { ...(isOfJob ? job.chips : {}), ...chipsKept() };
}

/** The boards of the unit that this page is about, as its reader drew them: JSON for `readPlacement`. */
export function drawingHere(): string | undefined {
  const job = findOpenJob();
  return job !== undefined && nameUnitHere() === job.id ? job.placement : undefined;
}

function chipsKept(): Readonly<Record<string, string>> {
  const kept = readRecord(read('chips') ?? '');
  return kept?.['unit'] === nameUnitHere() ? readTexts(kept['chips']) : {};
}

/** Remembers it in this tab; `<job-recorder>` hears of it and writes it into the open job. */
export function rememberChip(chip: string, part: string): void {
  write('chips', JSON.stringify({ unit: nameUnitHere(), chips: { ...chipsKept(), [chip]: part } }));
  tellJob({ kind: 'chip', chip, part });
}

/** What the reader said of the unit, and nothing else that this tab remembers: another tab may have said something newer. */
export type UnitFact = Extract<EventDraft, { readonly kind: 'intake' | 'chip' }>;

function tellJob(fact: UnitFact): void {
  window.dispatchEvent(new CustomEvent<UnitFact>('job-unit', { detail: fact }));
}
