import {
  describeEvent,
  describeResult,
  describeTouched,
  exposureWords,
  partWords,
  sayEventAnswer,
} from '#core/log/describe-event.ts';
import type { EventOf } from '#core/log/event.ts';
import { sayLimit } from '#core/log/job-brief.ts';
import { linkOfJob, measureMeanwhile, nextOfAnswer } from '#core/log/job-in-tree.ts';
import type { Job } from '#core/log/job.ts';
import { countBenchHours, nameJob, nameState } from '#core/log/name-job.ts';
import { findDisturbance, hasProof, isProved, planProof, printHours, sayProposal } from '#core/log/proof.ts';
import type { MainsExposure } from '#core/model/library.ts';
import { addressOf } from '#core/link/address.ts';
import { printLinkState } from '#core/link/fragment.ts';
import { makeElement } from '../kit/elements.ts';
import { basePath } from '../page-data.ts';
import { fillUnitForm } from './job-forms.ts';
import { fillLong, makeTime } from './long-list.ts';
import { loadWalk } from '../walk/load-bench.ts';

/** Shows a job in the view of the page; everything a person typed goes in as text. */
export function renderJob(view: HTMLElement, job: Job): void {
  const put = (name: string, ...children: readonly (Node | string)[]): void =>
    view.querySelector(`[data-${name}]`)?.replaceChildren(...children);
  const fill = <Row>(name: string, rows: readonly Row[], make: (row: Row) => Node): void => {
    const list = view.querySelector<HTMLElement>(`[data-${name}]`);
    if (list !== null) fillLong(list, rows, make);
  };
  const show = (name: string, isShown: boolean): void => {
    view.querySelector(`[data-${name}]`)?.toggleAttribute('hidden', !isShown);
  };

  put('job-name', makeElement('bdi', {}, nameJob(job)));
  put('job-state', nameState(job));
  show('job-keep', job.intake.keep !== undefined);
  put('job-keep-text', job.intake.keep ?? '');
  put('job-spent', describeLimits(job));
  put('go-on', ...(job.state.kind === 'closed' ? [] : makeWaysOn(job)));
  put('facts', ...makeFacts(job));
  const form = view.querySelector<HTMLFormElement>('[data-form="unit"]');
  if (form !== null) fillUnitForm(form, job);
  put('meter-said', describeMeter(job));
  put('readings', ...makeReadings(job));
  show('carry', job.answers.length > 0);
  put('repairs', ...makeRepairs(job));
  fill('parts', job.parts, makePart);
  fill('notes', job.notes, (note) => makeElement('li', {}, makeTime(note.at), ' ', makeElement('bdi', {}, note.text)));
  fill('own-points', Object.entries(job.points), ([point, name]) =>
    makeElement('li', {}, `${nameSlug(point)}: `, makeElement('b', { dir: 'auto' }, name)),
  );
  put('proof-known', describeProofs(job));
  fill('timeline', job.timeline, makeEntry);
  show('waiting', job.state.kind === 'waiting');
  show('closed', job.state.kind === 'closed');
  put('close-hint', describeClosing(job));
  put('close-said', job.state.kind === 'closed' ? `${nameState(job)}.` : '');
  const place = view.querySelector('[data-meanwhile]');
  if (place !== null) void showMeanwhile(place, job);
}

function describeLimits(job: Job): string {
  const hours = countBenchHours(job);
  const { limitHours, limitMoney } = job.intake;
  const spent = `At the bench so far, as logged: ${printHours(hours)}.`;
  const limits = [limitHours === undefined ? '' : `${limitHours} h`, limitMoney ?? ''].filter((text) => text !== '');
  if (limits.length === 0) return spent;
  const over = sayLimit({ limitHours, benchHours: hours });
  return `${spent} Limit: ${limits.join(', ')}.${over === undefined ? '' : ` ${over}`}`;
}

function makeFacts(job: Job): readonly Node[] {
  const { unit, intake } = job;
  const facts: readonly (readonly [string, string | undefined])[] = [
    ['Symptom', job.symptom],
    ['Unit', [unit.maker, unit.model].filter((text) => text !== undefined).join(' ')],
    ['Serial number', unit.serial],
    ['Revision', unit.revision],
    ['Known unit', unit.slug === undefined ? undefined : nameSlug(unit.slug)],
    ['Mains', intake.mains === undefined ? undefined : exposureWords[intake.mains]],
  ];
  return facts.flatMap(([name, text]) =>
    text === undefined || text === ''
      ? []
      : [makeElement('div', {}, makeElement('dt', {}, name), makeElement('dd', {}, makeElement('bdi', {}, text)))],
  );
}

function describeMeter(job: Job): string {
  if (job.meter.length === 0) return 'Not checked in this job yet.';
  const bad = job.meter.filter(({ isGood }) => !isGood).length;
  return bad > 0
    ? 'The meter failed a check: readings taken with it do not count. Change its battery or leads, and check again.'
    : `${job.meter.length} of 3 checks done, all passed.`;
}

function makeReadings(job: Job): readonly Node[] {
  if (job.answers.length === 0) return [makeElement('p', {}, 'None yet. They come by themselves as you walk a tree.')];
  return treesOf(job).map(({ tree, title }) => {
    const answers = job.answers.filter((answer) => answer.tree === tree);
    const list = makeElement('ol', { class: 'log-list' });
    fillLong(list, answers, makeAnswer);
    return makeElement('section', {}, makeElement('h3', {}, title), list);
  });
}

function makeAnswer(answer: EventOf<'answer'>): Node {
  const { tree, node, question, instrument, verdict, at } = answer;
  const link = makeElement(
    'a',
    { href: addressOf({ kind: 'node', tree, node }, basePath()) },
    question ?? node.replaceAll('-', ' '),
  );
  const rest = [verdict, instrument?.replaceAll('-', ' ')]
    .filter((part) => part !== undefined && part !== '')
    .join(', ');
  return makeElement(
    'li',
    {},
    link,
    ' ',
    makeElement('b', {}, sayEventAnswer(answer)),
    rest === '' ? '' : ` (${rest})`,
    ' ',
    makeTime(at),
  );
}

function makeRepairs(job: Job): readonly Node[] {
  if (job.repairs.length === 0) return [makeElement('p', {}, 'None yet. A cause’s sheet has the place for it.')];
  const list = makeElement('ol', { class: 'log-list' });
  fillLong(list, job.repairs, makeRepair);
  return [list];
}

function makeRepair({ event, result }: Job['repairs'][number]): Node {
  const address = addressOf({ kind: 'node', tree: event.tree, node: event.cause }, basePath());
  const link = makeElement('a', { href: address }, event.title ?? event.cause.replaceAll('-', ' '));
  const tested = event.tested === 'yes' ? ', tested first' : ', not tested first';
  const fitted = event.part === undefined ? [] : [' Fitted: ', makeElement('bdi', {}, event.part), `${tested}.`];
  const came = result === undefined ? 'not proved yet' : describeResult(result);
  return makeElement(
    'li',
    {},
    link,
    '.',
    ...fitted,
    ' ',
    makeElement('b', { dir: 'auto' }, came),
    ' ',
    makeTime(event.at),
  );
}

function makePart({ id, name, status }: Job['parts'][number]): Node {
  const select = makeElement('select', {
    'data-part-status': id,
    'aria-label': `State of ${name}`,
    autocomplete: 'off',
  });
  for (const [value, text] of Object.entries(partWords)) select.append(makeElement('option', { value }, text));
  select.value = status;
  return makeElement('li', {}, makeElement('b', { dir: 'auto' }, name), ' ', select);
}

function describeProofs(job: Job): string {
  const last = job.proofs.at(-1);
  if (last === undefined) return findDisturbance(job) === undefined ? '' : sayProposal(job);
  const { what, detail } = describeEvent(last);
  const isEnough = isProved(last.showing, last.done, last.isClean);
  return `${what}: ${detail}. ${isEnough ? 'That is enough: proved.' : `Not enough yet. ${planProof(last.showing)?.text ?? ''}`}`;
}

function describeClosing(job: Job): string {
  if (job.repairs.length === 0 || hasProof(job)) return '';
  const disturbed = findDisturbance(job);
  return disturbed === undefined
    ? 'No proof is in the log yet. “Repaired” is a claim until it is proved.'
    : `Works after a disturbance (${describeTouched(disturbed)}): the cause is not proved. ${sayProposal(job)}`;
}

function makeEntry({ event, isRevoked }: Job['timeline'][number]): Node {
  const { what, detail } = describeEvent(event, nameSlug);
  const text = makeElement(
    isRevoked ? 'del' : 'span',
    {},
    makeElement('b', {}, what),
    ...(detail === '' ? [] : [': ', makeElement('bdi', {}, detail)]),
  );
  const entry = makeElement('li', {}, makeTime(event.at), ' ', text, isRevoked ? ' (undone) ' : '');
  if (isRevoked && event.kind !== 'undo') {
    const marks = { type: 'button', class: 'press plain', 'data-restore': event.id, 'aria-label': `Restore: ${what}` };
    entry.append(makeElement('button', marks, 'Restore'));
  }
  return entry;
}

/** While a job waits: the checks of its last tree that can be done without the part. */
export async function showMeanwhile(place: Element, job: Job): Promise<void> {
  const last = treesOf(job)[0];
  const walk = job.state.kind === 'waiting' && last !== undefined ? await loadWalk(last.tree) : undefined;
  const tree = walk?.tree;
  if (tree === undefined) {
    place.replaceChildren();
    return;
  }
  const answered = new Set(job.answers.filter((answer) => answer.tree === tree.slug).map(({ node }) => node));
  const { unpowered, powered } = measureMeanwhile(tree, answered);
  const list = (checks: typeof unpowered): Node =>
    makeElement(
      'ul',
      { class: 'log-list' },
      ...checks.slice(0, 6).map(({ id, title, minutes }) => {
        const link = makeElement('a', { href: addressWithin(job, tree.slug, id) }, title);
        return makeElement('li', {}, link, ` ${minutes} min`);
      }),
    );
  place.replaceChildren(
    ...(unpowered.length === 0
      ? []
      : [makeElement('h3', {}, 'What can be measured meanwhile, power off'), list(unpowered)]),
    ...(powered.length === 0
      ? []
      : [makeElement('h3', {}, 'Under power, only if nothing has been taken out'), list(powered)]),
  );
}

/** Links that take a job up again, one for each tree of it, the last walked first. */
export function makeWaysOn(job: Job): readonly HTMLAnchorElement[] {
  const trees = treesOf(job);
  if (trees.length === 0) {
    const { symptom = '' } = job;
    const href = addressOf(symptom === '' ? { kind: 'home' } : { kind: 'search', query: symptom }, basePath());
    return [makeElement('a', { class: 'press', href }, 'Search its symptom')];
  }
  return trees.map(({ tree, title, last }) => {
    const link = makeElement('a', { class: 'press', href: addressWithin(job, tree, last.node) }, `Go on: ${title}`);
    void leadOn(link, last, job);
    return link;
  });
}

/** Once the tree is at hand, the link leads past the answer given last. */
async function leadOn(link: HTMLAnchorElement, last: EventOf<'answer'>, job: Job): Promise<void> {
  const tree = (await loadWalk(last.tree))?.tree;
  const next = tree === undefined ? undefined : nextOfAnswer(tree, last);
  if (next !== undefined) link.href = addressWithin(job, last.tree, next);
}

/** Address of a node with all that the job knows of its tree. */
export function addressWithin(job: Job, tree: string, node: string): string {
  const fragment = printLinkState(linkOfJob(job, tree));
  return `${addressOf({ kind: 'node', tree, node }, basePath())}${fragment === '' ? '' : `#${fragment}`}`;
}

/** Trees of the job, the last walked first, with the node answered last. */
export function treesOf(
  job: Job,
): readonly { readonly tree: string; readonly title: string; readonly last: EventOf<'answer'> }[] {
  const trees = new Map<string, { tree: string; title: string; last: EventOf<'answer'> }>();
  for (const answer of job.answers) {
    const { tree, treeTitle } = answer;
    trees.delete(tree);
    trees.set(tree, { tree, title: treeTitle ?? tree.replaceAll('-', ' '), last: answer });
  }
  return [...trees.values()].reverse();
}

/** What a unit or a test point is called: as the forms of this page list it, or its slug where it is not listed. */
export function nameSlug(slug: string): string {
  const points = document.querySelectorAll<HTMLOptionElement>('select[name="point"] option');
  return findUnit(slug)?.dataset['title'] ?? [...points].find(({ value }) => value === slug)?.text ?? slug;
}

/** The job with what the file of its unit declares: where the mains is, unless somebody has seen bare parts. */
export function declareUnit(job: Job): Job {
  const mains = findUnit(job.unit.slug)?.dataset['mains'] as MainsExposure | undefined;
  if (mains === undefined || job.intake.mains === 'inside-bare') return job;
  return { ...job, intake: { ...job.intake, mains } };
}

function findUnit(slug: string | undefined): HTMLOptionElement | undefined {
  const options = document.querySelectorAll<HTMLOptionElement>('select[name="unit.slug"] option[data-mains]');
  return [...options].find(({ value }) => value === slug);
}
