import { countBenchHours } from '#core/bench-log/count-bench-hours.ts';
import { sayEventAnswer } from '#core/bench-log/say-event-answer.ts';
import { sayLimit } from '#core/bench-log/say-limit.ts';
import {
  describeEvent,
  describeResult,
  describeTouched,
  exposureWords,
  partWords,
} from '#core/bench-log/describe-event.ts';
import type { EventOf } from '#core/bench-log/event.ts';
import type { Job } from '#core/bench-log/job.ts';
import { nameJob, nameState } from '#core/bench-log/name-job.ts';
import { hasProof, isProved, planProof, printHours } from '#core/bench-log/plan-proof.ts';
import { findDisturbance, sayProposal } from '#core/bench-log/propose-proof.ts';
import { addressOf } from '#core/link/address.ts';
import { makeElement } from '../kit/elements.ts';
import { basePath } from '../page-data.ts';
import { fillUnitForm } from './form-values.ts';
import { showMeanwhile } from './meanwhile-view.ts';
import { nameUnit } from './name-unit.ts';
import { makeWaysOn, treesOf } from './ways-on.ts';

/** Shows a job in the view of the page; everything a person typed goes in as text. */
export function renderJob(view: HTMLElement, job: Job): void {
  const put = (name: string, ...children: readonly (Node | string)[]): void =>
    view.querySelector(`[data-${name}]`)?.replaceChildren(...children);
  const show = (name: string, isShown: boolean): void => {
    view.querySelector(`[data-${name}]`)?.toggleAttribute('hidden', !isShown);
  };

  put('job-name', nameJob(job));
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
  put('parts', ...job.parts.map(makePart));
  put('notes', ...job.notes.map((note) => makeElement('li', {}, makeTime(note.at), ` ${note.text}`)));
  put(
    'own-points',
    ...Object.entries(job.points).map(([point, name]) =>
      makeElement('li', {}, `${point.replaceAll('-', ' ')}: `, makeElement('b', {}, name)),
    ),
  );
  put('proof-known', describeProofs(job));
  put('timeline', ...job.timeline.map(makeEntry));
  show('waiting', job.state.kind === 'waiting');
  show('closed', job.state.kind === 'closed');
  put('close-hint', describeClosing(job));
  put('close-said', job.state.kind === 'closed' ? `${nameState(job)}.` : '');
  const place = view.querySelector('[data-meanwhile]');
  if (place !== null) void showMeanwhile(place, job);
}

/** Time of an event as this browser writes times. */
export function makeTime(at: string): HTMLElement {
  const text = new Date(at).toLocaleString(undefined, { dateStyle: 'short', timeStyle: 'short' });
  return makeElement('time', { datetime: at }, text);
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
    ['Known unit', unit.slug === undefined ? undefined : nameUnit(unit.slug)],
    ['Mains', intake.mains === undefined ? undefined : exposureWords[intake.mains]],
  ];
  return facts.flatMap(([name, text]) =>
    text === undefined || text === ''
      ? []
      : [makeElement('div', {}, makeElement('dt', {}, name), makeElement('dd', {}, text))],
  );
}

function describeMeter(job: Job): string {
  if (job.meter.length === 0) return 'Not checked in this job yet.';
  const bad = job.meter.filter(({ isGood }) => !isGood).length;
  return bad > 0
    ? 'The meter failed a check: readings taken with it do not count. Change its battery or leads, and check again.'
    : `${job.meter.length} of 3 checks done, all as they should be.`;
}

function makeReadings(job: Job): readonly Node[] {
  if (job.answers.length === 0) return [makeElement('p', {}, 'None yet. They come by themselves as you walk a tree.')];
  return treesOf(job).map(({ tree, title }) => {
    const answers = job.answers.filter((answer) => answer.tree === tree);
    const list = makeElement('ol', { class: 'log-list' }, ...answers.map((answer) => makeAnswer(answer)));
    return makeElement('section', {}, makeElement('h3', {}, title), list);
  });
}

function makeAnswer(answer: EventOf<'answer'>): Node {
  const { tree, node, question, instrument, at } = answer;
  const { said, verdict } = sayEventAnswer(answer);
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
    makeElement('b', {}, said),
    rest === '' ? '' : ` (${rest})`,
    ' ',
    makeTime(at),
  );
}

function makeRepairs(job: Job): readonly Node[] {
  if (job.repairs.length === 0) return [makeElement('p', {}, 'None yet. A cause’s sheet has the place for it.')];
  return [
    makeElement(
      'ol',
      { class: 'log-list' },
      ...job.repairs.map(({ event, result }) => {
        const address = addressOf({ kind: 'node', tree: event.tree, node: event.cause }, basePath());
        const link = makeElement('a', { href: address }, event.title ?? event.cause.replaceAll('-', ' '));
        const fitted =
          event.part === undefined
            ? ''
            : ` Fitted: ${event.part}${event.tested === 'yes' ? ', tested first' : ', not tested first'}.`;
        const came = result === undefined ? 'not proved yet' : describeResult(result);
        return makeElement('li', {}, link, `.${fitted} `, makeElement('b', {}, came), ' ', makeTime(event.at));
      }),
    ),
  ];
}

function makePart({ id, name, status }: Job['parts'][number]): Node {
  const select = makeElement('select', {
    'data-part-status': id,
    'aria-label': `State of ${name}`,
    autocomplete: 'off',
  });
  for (const [value, text] of Object.entries(partWords)) select.append(makeElement('option', { value }, text));
  select.value = status;
  return makeElement('li', {}, makeElement('b', {}, name), ' ', select);
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
    ? 'No proof is in the log yet. “Cured” is a claim until it is proved.'
    : `Cured by disturbance (${describeTouched(disturbed)}): the cause is not proved. ${sayProposal(job)}`;
}

function makeEntry({ event, isRevoked }: Job['timeline'][number]): Node {
  const { what, detail } = describeEvent(event, nameUnit);
  const text = makeElement(
    isRevoked ? 'del' : 'span',
    {},
    makeElement('b', {}, what),
    detail === '' ? '' : `: ${detail}`,
  );
  return makeElement('li', {}, makeTime(event.at), ' ', text, isRevoked ? ' (taken back)' : '');
}
