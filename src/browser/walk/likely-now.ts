import { sayLimit } from '#core/log/job-brief.ts';
import { markSuggested } from './stage-list.ts';
import type { Assessment, NextStep } from '#core/diagnosis/tree/assess-tree.ts';
import { addressOf } from '#core/link/address.ts';
import { basePath } from '../page-data.ts';
import type { MappedNode } from '#core/link/tree-map.ts';
import { carryInto, printLinkState } from '#core/link/fragment.ts';
import { reworkRepair } from '#core/answer/answer.ts';
import { makeButton, makeDrawn, makeElement } from '../kit/elements.ts';
import { findOpenJob, isJobHere } from '../open-job.ts';
import type { Assessed } from './assess-page.ts';
import type { WalkPage } from './walk-page.ts';

/** How many causes are named before “and so many more”. */
const mostNamed = 5;

/** Where the answers lead. */
interface Road {
  /** The hand-over for safety that one of them leads to. */
  readonly end?: MappedNode | undefined;
  /** One of them leads to the page shown. */
  readonly isLedHere?: boolean;
}

/**
 * “Most likely now”: causes in words and bars, and what to do next: the engine's step and the tree's own, both named.
 * On the sheet of a hand-over, and where an answer leads to one for safety, neither step nor minutes go on from there.
 */
export function showLikely(root: ParentNode, page: WalkPage, assessed: Assessed | undefined, road: Road = {}): void {
  const section = root.querySelector<HTMLElement>('[data-likely]');
  if (section === null) return;
  // Once it is cured there is nothing to plan but the proof.
  const isCured = root.querySelector('repair-result[data-cured]') !== null;
  section.hidden = assessed === undefined || isCured;
  if (assessed === undefined || isCured) return;
  const { assessment, countMinutes } = assessed;
  const ending = makeEnding(page, road, assessment);
  const steps = makeElement('div', {}, ...(ending ?? makeSteps(assessment, page)));
  const time = makeElement('div', { class: 'hint', 'data-minutes': true });
  section.replaceChildren(
    makeElement('h2', {}, 'Most likely now'),
    ...(assessment.conflict === undefined
      ? []
      : [makeElement('p', { class: 'conflict', role: 'status' }, assessment.conflict)]),
    ...listCauses(assessed, page),
    makeElement('h2', {}, 'What next'),
    steps,
    time,
  );
  markSuggested(root, ending === undefined ? assessment.next : undefined);
  if (ending !== undefined) return;
  void countMinutes().then((counted) => {
    if (counted === undefined || !Number.isFinite(counted.suggested)) return;
    const [suggested, written] = [Math.round(counted.suggested), Math.round(counted.written)];
    const isStop = counted.better.next.kind === 'stop';
    const own = Number.isFinite(counted.written) ? `, about ${written} as the tree is written` : '';
    time.replaceChildren(
      makeElement(
        'p',
        {},
        isStop
          ? `Going on would take about ${suggested} minutes to a proven repair${own}.`
          : `About ${suggested} minutes to a proven repair this way${own}.`,
      ),
      ...(counted.rise === undefined ? [] : [makeElement('p', {}, counted.rise)]),
      ...sayOpenLimit(suggested),
      ...counted.savings
        .slice(0, 2)
        .map(({ title, savedMinutes }) =>
          makeElement(
            'p',
            {},
            `Not on your bench: ${title}. Here it would save about ${Math.round(savedMinutes)} minutes.`,
          ),
        ),
    );
    // Thought over for longer, another step may be better; a reader about to press it, or led here by an answer, keeps what they see.
    const isBetter = JSON.stringify(counted.better.next) !== JSON.stringify(assessment.next);
    if (!isBetter || isHere(assessment.next) || steps.matches(':hover, :focus-within')) return;
    steps.replaceChildren(...makeSteps(counted.better, page));
    markSuggested(root, counted.better.next);
  });
}

/** What the limit of the job on this bench says to so many minutes. */
function sayOpenLimit(minutes: number): readonly HTMLElement[] {
  const job = findOpenJob();
  const said = job !== undefined && isJobHere(job.id) ? sayLimit(job, minutes) : undefined;
  return said === undefined ? [] : [makeElement('p', { 'data-limit': true }, said)];
}

function listCauses({ assessment: { causes }, open }: Assessed, page: WalkPage): readonly HTMLElement[] {
  const named = causes.filter(({ words }, index) => index < mostNamed && (index < 2 || words !== 'unlikely'));
  const rest = open.filter((cause) => !named.includes(cause)).length;
  // Beside ends that hand over or lead to another tree a count of causes alone would seem wrong.
  const isOfCauses = named.every((cause) => open.includes(cause));
  const count = open.length === 1 ? 'One cause is' : `${open.length} causes are`;
  const list = makeElement(
    'ol',
    { class: 'likely-causes' },
    ...named.map((cause) => {
      const isNode = page.map.nodes.some(({ id }) => id === cause.id);
      const title = isNode
        ? makeElement('a', { href: page.addressIn(cause.id, page.state) }, cause.title)
        : makeElement('span', {}, cause.title);
      return makeElement('li', {}, title, makeElement('b', {}, ` ${cause.words}`), drawBar(cause.probability));
    }),
    ...(rest > 0
      ? [
          makeElement(
            'li',
            { class: 'rest' },
            rest === 1 ? 'One more is less likely.' : `${rest} more are less likely.`,
          ),
        ]
      : []),
  );
  return [
    list,
    makeElement(
      'p',
      { class: 'hint' },
      `${isOfCauses ? `${count} still open. ` : ''}Weighed from experience, not from statistics.`,
    ),
  ];
}

/** The words beside it say it; no figure stands anywhere. */
function drawBar(probability: number): SVGElement {
  const long = Math.max(1, Math.round(probability * 200));
  return makeDrawn(
    'svg',
    { class: 'likely-bar', viewBox: '0 0 200 8', preserveAspectRatio: 'none', 'aria-hidden': 'true' },
    makeDrawn('path', { class: 'ground', d: 'M0 4H200' }),
    makeDrawn('path', { class: 'length', d: `M0 4H${long}` }),
  );
}

function makeSteps(
  { next, why, written }: Pick<Assessment, 'next' | 'why' | 'written'>,
  page: WalkPage,
): readonly HTMLElement[] {
  const isSame = 'node' in next && next.node === written.node;
  return [
    ...makeSuggestion(next, isSame, isHere(next), page),
    makeElement('p', { class: 'why' }, why),
    ...(isSame ? [] : makeOwnStep({ written }, page)),
  ];
}

/** Whether a step is that of the page shown. */
function isHere(next: NextStep): boolean {
  return 'node' in next && next.node === document.querySelector<HTMLElement>('.node.alone')?.dataset['node'];
}

/** The tree's own next, where that is another sheet, and not a repair that did not cure. */
function makeOwnStep({ written }: Pick<Assessment, 'written'>, page: WalkPage): readonly HTMLElement[] {
  const here = document.querySelector<HTMLElement>('.node.alone')?.dataset['node'];
  return written.node === '' || written.node === here || page.state.did.includes(written.node)
    ? []
    : [makeStep('press plain', 'Next in the tree', written.title, page.addressIn(written.node, page.state))];
}

/** What stands under “What next” where the road ends; undefined where it goes on. */
function makeEnding(
  page: WalkPage,
  { end, isLedHere = false }: Road,
  assessment: Pick<Assessment, 'written'>,
): readonly HTMLElement[] | undefined {
  const here = document.querySelector<HTMLElement>('.node.alone')?.dataset;
  if (here?.['kind'] === 'hand-over') {
    return [
      makeElement('p', {}, 'The tree ends here. The link keeps your answers.'),
      handOver(page),
      // A reader who took back the answer that led here is shown the way on.
      ...(isLedHere ? [] : makeOwnStep(assessment, page)),
    ];
  }
  if (end === undefined) return undefined;
  return [makeStep('press', 'The tree ends here', end.title, page.addressIn(end.id, page.state))];
}

function makeSuggestion(next: NextStep, isSame: boolean, isHere: boolean, page: WalkPage): readonly HTMLElement[] {
  switch (next.kind) {
    case 'stop':
      return [handOver(page)];
    case 'rework':
      return [
        makeElement(
          'p',
          {},
          'First check your last repair: a part the wrong way round, a leg bent under, a bridge of solder, a plug one pin off.',
        ),
        makeButton('Checked: nothing wrong', 'press', () =>
          page.put({ ...page.state, did: [...page.state.did, reworkRepair] }),
        ),
      ];
    default: {
      if (isHere) {
        const stage = next.kind === 'check' && next.stage !== undefined ? `: ${next.title}` : '';
        return [
          makeElement(
            'p',
            {},
            `${next.kind === 'check' ? 'The check on this page' : 'The repair on this page'}${stage}.`,
          ),
        ];
      }
      const name = next.kind === 'repair' ? 'Suggested: repair this' : isSame ? 'Next' : 'Suggested next';
      return [makeStep('press', name, next.title, page.addressIn(next.node, page.state))];
    }
  }
}

function handOver({ map, state }: WalkPage): HTMLElement {
  const fragment = printLinkState(carryInto(state, map.slug, ''));
  return makeStep(
    'press plain',
    'Hand over well',
    'What to write down, how to leave the unit safe.',
    `${addressOf({ kind: 'hand-over' }, basePath())}#${fragment}`,
  );
}

function makeStep(className: string, name: string, title: string, href: string): HTMLElement {
  return makeElement(
    'a',
    { class: `${className} step-on`, href },
    makeElement('span', { class: 'label' }, name),
    makeElement('span', { class: 'detail' }, title),
  );
}
