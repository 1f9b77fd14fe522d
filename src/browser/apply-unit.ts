import { combineTargets } from '#core/model/limits.ts';
import { makeElement } from './kit/elements.ts';
import type { UnitSheet } from './unit-sheet.ts';

// Fetched with it, when the first unit is chosen.
export { fetchUnitSheet } from './unit-sheet.ts';

/** General texts, kept so that taking the unit away brings them back. */
const general = new WeakMap<Element, string>();

/**
 * Puts a unit's own points and limits into the sheet, or the general ones back where `unit` is undefined. `mains` are targets under
 * the limits for this bench's mains.
 */
export function applyUnit(
  root: ParentNode,
  unit: UnitSheet | undefined,
  tree: string,
  mains: UnitSheet['targets'] = {},
): void {
  for (const place of root.querySelectorAll<HTMLElement>('[data-point]')) {
    const own = unit?.points[place.dataset['point'] ?? ''];
    replaceText(place.querySelector('[data-place]'), own === undefined ? undefined : `On the ${unit?.title}: ${own}`);
    const details = place.querySelector('details.place');
    if (details instanceof HTMLDetailsElement) details.open = own !== undefined;
  }
  const targets = combineTargets(unit?.targets ?? {}, mains);
  for (const card of root.querySelectorAll<HTMLElement>('[data-target]')) {
    const target = card.dataset['target'] ?? '';
    const own = Object.hasOwn(targets, target) ? targets[target] : undefined;
    const nominal = card.querySelector('.nominal');
    const limits = card.querySelector('[data-limits]');
    replaceText(nominal, limits === null ? own?.healthy : own?.nominal);
    replaceText(limits, own?.healthy);
    card.classList.toggle('of-unit', own !== undefined);
    for (const outcome of card.closest('article')?.querySelectorAll<HTMLElement>('.outcome[data-answers]') ?? []) {
      const words = (outcome.dataset['answers'] ?? '').split(' ');
      const names = Object.keys(own?.bands ?? {}).filter((name) => words.includes(name));
      // Bands that touch have one text; bands apart have one each.
      const details = own?.bands[names.join(' ')] ?? names.map((name) => own?.bands[name]).join(', or ');
      replaceText(outcome.querySelector('.detail'), details === '' ? undefined : details);
    }
  }
  for (const outcome of root.querySelectorAll<HTMLElement>('.outcome[data-supply]')) {
    outcome.querySelector('.of-file')?.remove();
    if (unit !== undefined && (outcome.dataset['supply'] ?? '').split(' ').includes(unit.supplyKind))
      outcome.append(
        makeElement('span', { class: 'detail of-file' }, 'The file of this unit says so. Look, then confirm.'),
      );
  }
  const differs = root.querySelector<HTMLElement>('[data-differs]');
  if (differs !== null) {
    const text = unit?.differs[tree];
    differs.textContent = text ?? '';
    differs.hidden = text === undefined;
  }
}

function replaceText(element: Element | null, text: string | undefined): void {
  if (element === null) return;
  const kept = general.get(element) ?? element.textContent;
  general.set(element, kept);
  element.textContent = text ?? kept;
}
