import type { JobBrief } from '#core/bench-log/job-brief.ts';
import { addressOf } from '#core/link/address.ts';
import { makeElement } from '../kit/elements.ts';
import { showOwnName } from './own-name.ts';

/** Puts into a check or cause what the open job says of it: the person's own name of the point, and what must not be lost. */
export function showOfJob(job: JobBrief, base: string): void {
  for (const place of document.querySelectorAll<HTMLElement>('[data-point]')) showOwnName(place, job);
  const step = document.querySelector('.node.alone[data-risky] > .step');
  document.querySelector('.keep-note')?.remove();
  if (step === null || job.keep === undefined) return;
  step.prepend(
    makeElement(
      'section',
      { class: 'keep-note', 'aria-label': 'Must not be lost' },
      makeElement('p', {}, makeElement('b', {}, 'Must not be lost: '), job.keep),
      makeElement(
        'p',
        {},
        'Is it saved? This step can lose it for ever. ',
        makeElement(
          'a',
          { href: addressOf({ kind: 'caution', slug: 'irreplaceable-data' }, base) },
          'How to save it first',
        ),
      ),
    ),
  );
}
