import { keepBench, readBench } from '../bench.ts';

/** Fills the form of the bench from what is kept. */
export function fillBench(root: HTMLElement): void {
  const bench = readBench();
  for (const box of root.querySelectorAll<HTMLInputElement>('[name="instrument"]')) {
    box.checked = bench.instruments?.includes(box.value) ?? false;
  }
  for (const radio of root.querySelectorAll<HTMLInputElement>('[name="hertz"]')) {
    radio.checked = Number(radio.value) === bench.mainsHertz;
  }
}

/** Keeps what the form says, and says whether that was possible. */
export function takeBench(form: HTMLFormElement): string {
  const fields = new FormData(form);
  const hertz = fields.get('hertz');
  const instruments = fields.getAll('instrument').filter((slug) => typeof slug === 'string');
  const isKept = keepBench({
    // No box ticked is nothing said: nobody who measures owns nothing.
    instruments: instruments.length === 0 ? undefined : instruments,
    mainsHertz: hertz === '50' ? 50 : hertz === '60' ? 60 : undefined,
  });
  return isKept
    ? 'Kept. Checks and plans follow your bench.'
    : 'The browser keeps nothing here; it holds until this page is left.';
}
