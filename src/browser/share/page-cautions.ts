import { severities } from '#core/model/library.ts';
import type { ReportCaution } from '#core/post/report.ts';

/**
 * The cautions that the page shows for a node, the gravest first, as a post tells them; wherever on the page each stands by now. Empty
 * where the page does not show the node.
 */
export function readCautions(node: string): readonly ReportCaution[] {
  const article = [...document.querySelectorAll<HTMLElement>('article.node')].find(
    ({ dataset }) => dataset['node'] === node,
  );
  const boxes = severities.flatMap((severity) => [
    ...(article?.querySelectorAll(`.caution.${severity}:not([hidden])`) ?? []),
  ]);
  return boxes.map((box) => ({
    title: box.getAttribute('aria-label') ?? '',
    text: `${box.querySelector('summary > :last-child')?.textContent ?? ''} Its page says all of it, before the step.`,
  }));
}
