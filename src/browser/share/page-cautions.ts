import { severities } from '#core/model/library.ts';
import type { ReportCaution } from '#core/post/report.ts';

/** The cautions that the page shows for a node, wherever on the page each stands by now. Empty where the page does not show the node. */
export function readCautions(node: string): readonly ReportCaution[] {
  const article = [...document.querySelectorAll<HTMLElement>('article.node')].find(
    ({ dataset }) => dataset['node'] === node,
  );
  return [...(article?.querySelectorAll('.caution:not([hidden])') ?? [])].map((box) => ({
    // Every box has the class `caution`; the level called so has no other.
    severity: severities.find((one) => one !== 'caution' && box.classList.contains(one)) ?? 'caution',
    // Its name is the signal word and the title.
    title: box.getAttribute('aria-label')?.replace(/^[^:]*: /u, '') ?? '',
    line: box.querySelector('summary > :last-child')?.textContent ?? '',
  }));
}
