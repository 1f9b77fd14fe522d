import type { ReportCaution } from '#core/post/report.ts';

/** The cautions that the page shows for a node, in their order, as a post tells them; empty where the page does not show the node. */
export function readCautions(node: string): readonly ReportCaution[] {
  const article = [...document.querySelectorAll<HTMLElement>('article.node')].find(
    ({ dataset }) => dataset['node'] === node,
  );
  return [...(article?.querySelectorAll('.caution:not([hidden])') ?? [])].map((box) => ({
    title: box.getAttribute('aria-label') ?? '',
    text: `${box.querySelector('summary > :last-child')?.textContent ?? ''} Its page says all of it, before the step.`,
  }));
}
