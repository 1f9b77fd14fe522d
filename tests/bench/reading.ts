/**
 * How much has to be read before a check is answered, on a phone of 390 by 844, measured on the built site: npm run bench:reading.
 * With `--each` a line for every check and screen; with names of trees only theirs; with `--one-in=5` every fifth check.
 *
 * Words are what stands between blanks in text that can be seen inside `<main>`. Above the question: everything before the heading
 * of the step. First view: in a new tab. Later view: loaded again after each caution was confirmed and one answer was pressed.
 * The journey goes where the page leads: a suggestion that names another page is followed. Words on a screen are those from the top of
 * `<main>` to what is pressed: on the first page the tree's title, on the tree's page its start, on a step the last of its answers; on a
 * gate the end of its caution, whose buttons stand above its text. Its reader has a meter and no scope. What stands behind a touch, the
 * menu, the foot and what lies below the last answer are not counted; lines of known cautions, drawings and units are. Minutes are those words at 180 a minute, taps and measuring not counted.
 */
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { loadLibrary } from '#build/library.ts';
import { addressOf } from '#core/link/address.ts';
import { chromiumArguments, findChromium } from '../find-chromium.ts';
import { startStaticSite } from '../support/static-site.ts';

const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true } as const;
const wordsPerMinute = 180;

/** Answers of a unit whose reservoir capacitor has dried out, as the texts of content/trees/audio/audio-hum.mdx have them. */
const humAnswers: Readonly<Record<string, string>> = {
  'lead-look': 'whole',
  'earth-path': 'in',
  'outside-try': 'stays',
  character: 'hum',
  'brick-swap': 'stays',
  'outside-look': 'plain',
  'supply-look': 'clean',
  knob: 'stays',
  'speaker-dc': 'in',
  'ripple-rate': 'in',
  'rail-ripple': 'high',
  'helper-bypass': 'same',
  'helper-reservoir': 'falls',
  'ground-mv': 'in',
  'amp-fuzz': 'clean',
  'damping-ohms': 'good',
};
/** Safe to plug in, not yet about the complaint. */
const beforeComplaint: ReadonlySet<string> = new Set(['lead-look', 'earth-path']);

interface View {
  readonly aboveQuestion: number;
  readonly instruction: number;
  readonly differs: number;
  /** Lower edge of question, figure, instruction, target and first answer, and where the bar covers the page. */
  readonly lowest: number;
  readonly barTop: number;
}

/** Runs in the page. */
function measureView(): View {
  const count = (text: string): number => text.split(/\s+/u).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
  const main = document.querySelector('main');
  const gate = document.querySelector('.gate-now .question');
  const question = gate ?? document.querySelector('.node .heading');
  let [aboveQuestion, whole] = [0, ''];
  const walker = document.createTreeWalker(main ?? document.body, NodeFilter.SHOW_TEXT);
  for (let text = walker.nextNode(); text !== null; text = walker.nextNode()) {
    if (text.parentElement?.checkVisibility({ visibilityProperty: true }) !== true) continue;
    whole += ` ${text.textContent ?? ''}`;
    const place = question?.compareDocumentPosition(text) ?? 0;
    if ((place & Node.DOCUMENT_POSITION_PRECEDING) !== 0) aboveQuestion += count(text.textContent ?? '');
  }
  const lowest = ['.node .heading', '.step > figure', '.step > .prose', '.target', 'a.outcome'].map(
    (selector) => (document.querySelector(selector)?.getBoundingClientRect().bottom ?? 0) + scrollY,
  );
  const prose = document.querySelector<HTMLElement>('.step > .prose');
  return {
    aboveQuestion,
    instruction: count(prose?.textContent ?? ''),
    differs: whole.split(/Local electrical codes and workplace rules/u).length - 1,
    lowest: Math.max(...lowest),
    barTop: document.querySelector('.bar')?.getBoundingClientRect().top ?? 844,
  };
}

/** Answers what stands in the way, as a reader does who has a meter, no scope, and covered mains parts; says how often something was pressed. */
async function passGates(page: Page, onScreen: () => Promise<void> = async () => undefined): Promise<number> {
  const gate = page.locator('.gate-now');
  for (let taps = 0; ; taps += 1) {
    if ((await gate.count()) === 0) return taps;
    await onScreen();
    const own = gate.locator('[data-acknowledge="inside-covered"], [data-acknowledge="scope-ground:unused"]');
    await ((await own.count()) > 0 ? own : gate.locator('[data-acknowledge]')).first().tap();
  }
}

async function openPage(context: BrowserContext, address: string): Promise<Page> {
  const page = await context.newPage();
  await page.goto(address, { waitUntil: 'load' });
  return page;
}

const site = await startStaticSite('dist');
const browser = await chromium.launch({ executablePath: findChromium(), args: [...chromiumArguments] });
const newContext = async (): Promise<BrowserContext> => {
  const context = await browser.newContext({ ...phone, baseURL: site.address });
  await context.addInitScript(() => Reflect.deleteProperty(Navigator.prototype, 'serviceWorker'));
  return context;
};

function sayRange(name: string, numbers: readonly number[]): void {
  const sorted = numbers.toSorted((one, other) => one - other);
  console.log(
    `${name.padEnd(58)} median ${sorted[Math.floor(sorted.length / 2)] ?? '–'}, worst ${sorted.at(-1) ?? '–'}, of ${sorted.length}`,
  );
}

try {
  const wanted = process.argv.slice(2).filter((word) => !word.startsWith('--'));
  const trees = [...loadLibrary().trees.values()].filter(({ slug }) => wanted.length === 0 || wanted.includes(slug));
  const checks = trees.flatMap((tree) =>
    tree.nodes.filter(({ kind }) => kind === 'check').map((node) => ({ tree: tree.slug, node: node.id })),
  );
  const seen: { readonly name: string; readonly first: View; readonly later: View; readonly isGated: boolean }[] = [];
  const measure = async (place: { tree: string; node: string }): Promise<void> => {
    const context = await newContext();
    const page = await openPage(context, addressOf({ kind: 'node', ...place }, '/'));
    const first = await page.evaluate(measureView);
    const isGated = (await page.locator('.gate-now').count()) > 0;
    await passGates(page);
    const address = page.url();
    await Promise.all([page.waitForURL((url) => url.href !== address), page.locator('a.outcome').first().tap()]);
    await page.goto(addressOf({ kind: 'node', ...place }, '/'), { waitUntil: 'load' });
    await passGates(page);
    const later = await page.evaluate(measureView);
    seen.push({ name: `${place.tree}/${place.node}`, first, later, isGated });
    await context.close();
  };
  const oneIn = Number(process.argv.find((word) => word.startsWith('--one-in='))?.split('=')[1] ?? 1);
  const queue = checks.filter((_, place) => place % oneIn === 0);
  const takeAll = async (): Promise<void> => {
    for (let place = queue.shift(); place !== undefined; place = queue.shift()) await measure(place);
  };
  await Promise.all([takeAll(), takeAll(), takeAll()]);

  if (process.argv.includes('--each')) {
    for (const { name, first, later, isGated } of seen.toSorted((one, other) => (one.name < other.name ? -1 : 1))) {
      console.log(
        `${name.padEnd(42)} above ${first.aboveQuestion}${isGated ? ' (gate)' : ''}, later ${later.aboveQuestion}; instruction ${later.instruction}; ends at ${Math.round(later.lowest)}`,
      );
    }
  }
  console.log(`\nReading on ${seen.length} checks, phone of 390 by 844`);
  const words = (views: typeof seen, when: 'first' | 'later'): readonly number[] =>
    views.map((view) => view[when].aboveQuestion);
  const [gated, open] = [seen.filter(({ isGated }) => isGated), seen.filter(({ isGated }) => !isGated)];
  sayRange('words above the question, first view with a gate', words(gated, 'first'));
  sayRange('words above the question, first view without a gate', words(open, 'first'));
  sayRange('words above the question, later view', words(seen, 'later'));
  sayRange(
    'words of the instruction',
    seen.map(({ later }) => later.instruction),
  );
  sayRange(
    '“Local electrical codes and workplace rules”, times on a page at first view',
    seen.map(({ first }) => first.differs),
  );
  const sayShare = (name: string, isWithin: (view: View) => boolean): void => {
    const share = seen.filter(({ later }) => isWithin(later)).length / seen.length;
    console.log(`${name.padEnd(58)} ${(share * 100).toFixed(1)} %`);
  };
  sayShare('question to first answer within 844 px, later view', ({ lowest }) => lowest <= 844);
  sayShare('the same, and not under the bar of moves', ({ lowest, barTop }) => lowest <= barTop);

  if (wanted.length === 0 || wanted.includes('audio-hum')) await walkHum();
} finally {
  await browser.close();
  await site.goDown();
}

/** From “hum” typed on the first page to the cause. */
async function walkHum(): Promise<void> {
  const context = await newContext();
  const page = await openPage(context, '/');
  let [taps, screens, words] = [0, 0, 0];
  const read = async (pressed = 'a.outcome'): Promise<void> => {
    screens += 1;
    const shown = await page.evaluate((selector) => {
      const main = document.querySelector('main');
      const end = document.querySelector('.gate-now') ?? [...document.querySelectorAll(selector)].at(-1);
      let count = 0;
      const walker = document.createTreeWalker(main ?? document.body, NodeFilter.SHOW_TEXT);
      for (let text = walker.nextNode(); text !== null; text = walker.nextNode()) {
        const place = end?.compareDocumentPosition(text) ?? 0;
        const isBehind =
          (place & Node.DOCUMENT_POSITION_FOLLOWING) !== 0 && (place & Node.DOCUMENT_POSITION_CONTAINED_BY) === 0;
        if (isBehind || text.parentElement?.checkVisibility({ visibilityProperty: true }) !== true) continue;
        count += (text.textContent ?? '').split(/\s+/u).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
      }
      return count;
    }, pressed);
    words += shown;
    if (process.argv.includes('--each'))
      console.log(`  ${String(shown).padStart(5)} words ${new URL(page.url()).pathname}`);
  };
  const say = (name: string): void => {
    console.log(
      `${name.padEnd(58)} ${taps} taps, ${screens} screens, ${words} words, ${(words / wordsPerMinute).toFixed(1)} min`,
    );
  };
  const go = async (press: () => Promise<void>): Promise<void> => {
    const before = await page.evaluate(() => performance.timeOrigin);
    await press();
    await page.waitForFunction(
      (origin) => performance.timeOrigin !== origin && document.readyState === 'complete',
      before,
      { timeout: 10_000 },
    );
    taps += 1;
  };
  const box = page.getByRole('combobox');
  await box.tap();
  taps += 1;
  await box.pressSequentially('hum');
  await page.locator('[data-results] a').first().waitFor();
  await read('[data-results] a[href*="/trees/audio-hum/"]');
  await go(async () => page.locator('[data-results] a[href*="/trees/audio-hum/"]').first().tap());
  if (!/\/trees\/audio-hum\/[a-z]/u.test(page.url())) {
    await read('[data-start]');
    await go(async () => page.locator('[data-start]').first().tap());
  }
  const path: string[] = [];
  for (let step = 0; step < 40; step += 1) {
    taps += await passGates(page, () => read());
    const { node = '', kind = '' } = await page
      .locator('.node.alone')
      .evaluate((element) => ({ ...(element as HTMLElement).dataset }));
    if (kind === 'cause') break;
    // Where the page suggests another step, that is what a reader presses.
    if (path.length > 0) await page.locator('[data-likely]:not([hidden])').waitFor();
    const next = page.locator('[data-likely] a.press:not(.plain).step-on');
    if ((await next.count()) > 0) {
      await go(async () => next.tap());
      continue;
    }
    await read();
    const word = humAnswers[node];
    if (word === undefined) throw new Error(`No answer is known for ${node}; so far ${path.join(' ')}`);
    await go(async () => page.locator(`a.outcome[data-answers~="${word}"]`).tap());
    if (!beforeComplaint.has(node) && path.every((one) => beforeComplaint.has(one.split('=')[0] ?? '')))
      say('hum: search to the first answer about the complaint');
    path.push(`${node}=${word}`);
  }
  say('hum: search to the cause');
  console.log(`  ${path.join(' ')} → ${new URL(page.url()).pathname}`);
  await context.close();
}
