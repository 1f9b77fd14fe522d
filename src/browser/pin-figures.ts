import { type PartData, renderFigure } from '#core/page/render-figure.ts';
import { makeButton, makeElement, makeNodes } from './kit/elements.ts';
import { fetchOnce } from './kit/fetch-once.ts';
import { chipsHere, rememberChip } from './job-memory.ts';
import { basePath } from './page-data.ts';

function fetchParts(): Promise<PartData | undefined> {
  return fetchOnce(`${basePath()}data/parts.json`, (value) => value as PartData);
}

/** Draws the pins at every figure whose chip is known, from the sheet of the unit or from its reader. */
export async function showFigures(root: ParentNode, ofUnit: Readonly<Record<string, string>>): Promise<void> {
  const known = { ...chipsHere(), ...ofUnit };
  const places = [...root.querySelectorAll<HTMLElement>('figure[data-chip]')].filter(({ dataset }) =>
    Object.hasOwn(known, dataset['chip'] ?? ''),
  );
  if (places.length === 0) return;
  // The place is kept while the parts are fetched, so that nothing below moves twice.
  for (const figure of places) figure.classList.add('known');
  const data = await fetchParts();
  if (data === undefined) return;
  for (const figure of places) {
    const chip = figure.dataset['chip'] ?? '';
    drawInto(figure, known[chip] ?? '', data, Object.hasOwn(ofUnit, chip));
  }
}

/** The figure with a part drawn in it, and the ways to turn it over and to name another part. */
function drawInto(
  figure: HTMLElement,
  slug: string,
  data: PartData,
  isOfUnit: boolean,
  turned?: 'component' | 'solder',
): void {
  const part = data.parts.find((candidate) => candidate.slug === slug);
  const at = data.points[figure.dataset['on'] ?? ''];
  if (part === undefined || at === undefined) return;
  const side = turned ?? at.side;
  const other = side === 'solder' ? 'component' : 'solder';
  const turn = makeButton(`From the ${other} side`, 'press plain small', () => {
    drawInto(figure, slug, data, isOfUnit, other);
    figure.querySelector('button')?.focus();
  });
  const choose = makeButton('Another part', 'press plain small', () => void askChip(figure));
  figure.replaceChildren(
    ...makeNodes(...renderFigure(part, at, figure.dataset['with'] ?? 'multimeter', side)),
    makeElement('p', { class: 'moves' }, turn, ...(isOfUnit ? [] : [choose])),
  );
}

/** Opens the list of the parts that the chip of this figure can be, with a field that narrows it. */
export async function askChip(figure: HTMLElement): Promise<void> {
  const data = await fetchParts();
  const chip = figure.dataset['chip'] ?? '';
  const sheet = data?.chips[chip];
  if (data === undefined || sheet === undefined) {
    figure.querySelector('[role="status"]')?.remove();
    figure.append(makeElement('p', { role: 'status' }, 'The list of parts could not be fetched. Press again.'));
    return;
  }
  const choices = sheet.parts.flatMap((slug) => data.parts.find((part) => part.slug === slug) ?? []);
  const list = makeElement('div', { class: 'choices', role: 'group', 'aria-label': sheet.ask });
  const fill = (words: string): void => {
    const wanted = plain(words);
    const found = choices.filter(({ title, aliases }) =>
      [title, ...aliases].some((name) => plain(name).includes(wanted)),
    );
    list.replaceChildren(
      ...found.map((part) =>
        makeButton([part.title, ...part.aliases].join(', '), 'press plain', () => {
          rememberChip(chip, part.slug);
          for (const place of document.querySelectorAll<HTMLElement>(`figure[data-chip="${chip}"]`))
            drawInto(place, part.slug, data, false);
          figure.querySelector('button')?.focus();
        }),
      ),
    );
    if (found.length === 0)
      list.textContent = 'None of these. Use its own sheet, or the words below: never a pin that you guessed.';
  };
  const field = makeElement('input', {
    type: 'search',
    autocomplete: 'off',
    spellcheck: 'false',
    enterkeyhint: 'search',
  });
  field.addEventListener('input', () => fill(field.value));
  fill('');
  const giveUp = makeButton('I cannot read its number', 'press plain', () => {
    figure.replaceChildren(
      makeElement(
        'p',
        {},
        `${sheet.tell} Until you know it, go by the words below, and clip nothing that you guessed.`,
      ),
      makeElement(
        'p',
        { class: 'moves' },
        makeButton('Choose the chip', 'press plain', () => void askChip(figure)),
      ),
    );
    figure.querySelector('button')?.focus();
  });
  figure.replaceChildren(
    makeElement('p', {}, makeElement('strong', {}, sheet.ask), ` ${sheet.tell}`),
    makeElement(
      'p',
      { class: 'moves' },
      ...(choices.length > 6 ? [makeElement('label', {}, 'Number ', field)] : []),
      giveUp,
    ),
    list,
  );
  figure.querySelector<HTMLElement>(choices.length > 6 ? 'input' : '.choices button')?.focus();
}

/** Small letters and digits alone: `74LS04` is found by `ls04` and by `7404` alike. */
function plain(words: string): string {
  return words
    .toLowerCase()
    .replace(/[^a-z0-9]/g, '')
    .replace(/^(74|40)(?:ls|hct?|als|s|f|c)(?=\d)/, '$1');
}
