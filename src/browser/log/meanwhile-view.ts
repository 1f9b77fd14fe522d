import type { Job } from '#core/bench-log/job.ts';
import { measureMeanwhile } from '#core/bench-log/measure-meanwhile.ts';
import { makeElement } from '../kit/elements.ts';
import { loadWalk } from '../walk/load-bench.ts';
import { addressWithin, treesOf } from './ways-on.ts';

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
