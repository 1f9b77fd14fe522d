import type { EventOf } from '#core/bench-log/event.ts';
import type { Job } from '#core/bench-log/job.ts';
import { linkOfJob } from '#core/bench-log/link-of-job.ts';
import { nextOfAnswer } from '#core/bench-log/next-of-answer.ts';
import { addressOf } from '#core/link/address.ts';
import { printLinkState } from '#core/link/fragment.ts';
import { makeElement } from '../kit/elements.ts';
import { basePath } from '../page-data.ts';
import { loadWalk } from '../walk/load-bench.ts';

/** Links that take a job up again, one for each tree of it, the last walked first. */
export function makeWaysOn(job: Job): readonly HTMLAnchorElement[] {
  return treesOf(job).map(({ tree, title, last }) => {
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
