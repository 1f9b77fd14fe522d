import type { Answer } from '#core/answer/answer.ts';
import { makeElement } from '../kit/elements.ts';
import type { Assessed } from './assess-page.ts';
import { nameAnswer, sayRepair } from './path-so-far.ts';
import type { EngineWords, WalkPage } from './walk-page.ts';

/** More answers than this are counted; the path so far lists them all. */
const mostShown = 8;

/**
 * Above the step, on a page that somebody's link has opened half done: what was found so far, and what is likeliest. A wide screen has
 * both beside the step. Drawn once: what its reader answers then stands in the path so far.
 */
export function showFound(
  root: ParentNode,
  page: WalkPage,
  words: Pick<EngineWords, 'say' | 'titleOf'>,
  { open }: Pick<Assessed, 'open'>,
): void {
  const { answers, did, unit, ask } = page.state;
  const step = root.querySelector('.node.alone');
  if (isDone || page.isTouched || step === null || ask.length > 0 || !isOpenedByLink()) return;
  isDone = true;
  const lines = [
    ...answers.map((answer: Answer) => [nameAnswer(answer, page, words.titleOf), words.say(answer)] as const),
    ...did.map((id) => sayRepair(id, page)),
  ];
  const earlier = Math.max(0, lines.length - mostShown);
  const named = page.map.units.find(({ slug }) => slug === unit)?.title;
  const [first, second] = open;
  const said = [
    makeElement('h2', {}, named === undefined ? 'Found so far' : `Found so far: ${named}`),
    ...(earlier === 0 ? [] : [makeElement('p', { class: 'hint' }, `${earlier} more before, in the path so far.`)]),
    makeElement(
      'ul',
      {},
      ...lines.slice(earlier).map(([title, found]) => makeElement('li', {}, title, ' ', makeElement('b', {}, found))),
    ),
    ...(first === undefined
      ? []
      : [
          makeElement('p', {}, `Likeliest now: ${first.title}${second === undefined ? '' : `; then ${second.title}`}.`),
        ]),
  ];
  step.before(makeElement('section', { class: 'so-far' }, ...said));
}

let isDone = false;

/** Whether the page was opened from elsewhere, and not by a link or press of this site, or again. */
function isOpenedByLink(): boolean {
  const [entry] = performance.getEntriesByType('navigation');
  const isNew = entry instanceof PerformanceNavigationTiming && entry.type === 'navigate';
  return isNew && !document.referrer.startsWith(`${location.origin}/`);
}
