import { makeButton, makeElement } from '../kit/elements.ts';

/** Rows that are drawn at once: a browser takes many seconds over fifty thousand. */
const mostRows = 200;

/**
 * Fills a list with the newest of its rows, and where there are older ones with a button that draws as many more. `rows` are in the
 * order of the list; the newest come last, or first where `isNewestFirst`.
 */
export function fillLong<Row>(
  list: HTMLElement,
  rows: readonly Row[],
  make: (row: Row) => Node,
  isNewestFirst = false,
  most = mostRows,
): void {
  const left = Math.max(0, rows.length - most);
  const shown = (isNewestFirst ? rows.slice(0, most) : rows.slice(left)).map(make);
  if (left === 0) {
    list.replaceChildren(...shown);
    return;
  }
  const more = makeButton(`Show ${Math.min(mostRows, left)} of ${left} earlier ones`, 'press plain', () => {
    fillLong(list, rows, make, isNewestFirst, most + mostRows);
    const next = list.querySelector('button') ?? list;
    next.setAttribute('tabindex', '-1');
    next.focus();
  });
  const item = makeElement('li', { class: 'more' }, more);
  list.replaceChildren(...(isNewestFirst ? [...shown, item] : [item, ...shown]));
}

const times = new Intl.DateTimeFormat(undefined, { dateStyle: 'short', timeStyle: 'short' });

/** Time of an event as this browser writes times. */
export function makeTime(at: string): HTMLElement {
  return makeElement('time', { datetime: at }, times.format(new Date(at)));
}
