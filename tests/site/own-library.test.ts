import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PNG } from 'pngjs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { compileContent } from '#compiler/compile-content.ts';
import { type Edit, makeContent } from '../compiler/make-content.ts';
import { findViolations, phone, useBench } from '../journeys/open-browser.ts';
import { buildSite, copyProgram, hashFiles } from '../support/build-site.ts';
import { environmentElsewhere, ownEnvironment } from '../support/own-environment.ts';
import { putFile } from '../support/plant-code.ts';
import { startStaticSite, type StaticSite } from '../support/static-site.ts';

// A group publishes its own two trees under its own name and colours: a folder beside the project and three settings. Nothing of src,
// public or the configuration is another for it.
const root = mkdtempSync(join(tmpdir(), 'halfsplit-own-library-'));
const folder = join(root, 'organs');
const dist = join(root, 'dist');
/** The same library once more: another folder, another machine. */
const again = join(root, 'elsewhere', 'under another name');
const named: Edit = {
  file: 'content/site.yaml',
  from: 'name: Sample\nsummary: Trees made for a test.\n',
  to: `name: Organ Bench
summary: Organ Bench helps you repair a transistor organ, one check at a time.
colours:
  light: { paper: '#f2f5f3', card: '#ffffff', ink: '#14201a', signal: '#0b5d3b' }
  dark: { signal: '#7fd6a8' }
`,
};
let site: StaticSite;
const bench = useBench();

beforeAll(async () => {
  for (const { file, text } of makeContent([named])) putFile(folder, file.replace(/^content\//, ''), text);
  const SITE_URL = 'https://organs.example';
  buildSite('.', { ...ownEnvironment(), CONTENT_DIR: folder, SITE_URL }, '--outDir', dist);
  copyProgram(again);
  cpSync(folder, join(again, 'content'), { recursive: true });
  buildSite(again, { ...environmentElsewhere(), SITE_URL });
  site = await startStaticSite(dist);
  // Two builds, on a machine that may be busy with others.
}, 600_000);
afterAll(async () => {
  await site?.goDown();
  rmSync(root, { recursive: true, force: true });
});

function filesEndingIn(ending: string): readonly string[] {
  return readdirSync(dist, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith(ending));
}

function read(file: string): string {
  return readFileSync(join(dist, file), 'utf8');
}

describe('a library of one’s own', () => {
  it('has its name in the title of every page, and ours nowhere that anyone reads', () => {
    const pages = filesEndingIn('.html');
    expect(pages.length).toBeGreaterThan(50);
    const titles = pages.map((page) => [page, /<title>([^<]*)/.exec(read(page))?.[1]] as const);
    const astray = titles.filter(
      ([page, title]) =>
        title !== (page === 'index.html' ? 'Organ Bench: from a symptom to a proven repair' : title) ||
        !(title?.endsWith(' · Organ Bench') === true || page === 'index.html'),
    );

    expect(astray).toEqual([]);
    const readable = ['.html', '.json', '.xml', '.webmanifest', '.svg'].flatMap(filesEndingIn);
    expect(readable.filter((file) => read(file).includes('Halfsplit'))).toEqual([]);
  });

  it('has the pages of its own trees, and none of ours', () => {
    const trees = readdirSync(join(dist, 'trees'), { withFileTypes: true }).filter((entry) => entry.isDirectory());

    expect(trees.map(({ name }) => name).toSorted()).toEqual(['old-sample', 'other-tree', 'sample-tree']);
    expect(read('trees/sample-tree/rail/index.html')).toContain('Is the rail in range?');
    expect(filesEndingIn('.html').filter((file) => /psu-5v-low|quillon|tarn-8/.test(read(file)))).toEqual([]);
  });

  it('is installed and previewed under its name and in its colours', () => {
    expect(JSON.parse(read('manifest.webmanifest'))).toMatchObject({
      name: 'Organ Bench: from a symptom to a proven repair',
      short_name: 'Organ Bench',
      theme_color: '#f2f5f3',
      background_color: '#f2f5f3',
    });
    expect(JSON.parse(read('data/trees/sample-tree.json'))).toMatchObject({ attribution: 'Organ Bench contributors' });
    // The paper at the rim of a preview.
    const { data } = PNG.sync.read(readFileSync(join(dist, 'previews/sample-tree.png')));
    expect([...data.subarray(0, 3)]).toEqual([0xf2, 0xf5, 0xf3]);
  });

  it('stands in its colours, which axe finds readable, and its icon too', async () => {
    const { page, open } = await bench.visit({ ...phone, baseURL: site.address });
    await open('/');

    expect(await page.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe('rgb(242, 245, 243)');
    expect(await findViolations(page)).toEqual([]);
    expect(read('icon.svg')).toContain('#0b5d3b');
  });

  it('finds its trees by their words, misspelt or not, though the search was taught with others; what fits nothing says so', async () => {
    const { page, open } = await bench.visit({ ...phone, baseURL: site.address });
    await open('/');
    const box = page.getByRole('combobox');
    await box.fill('joystick goes only left');
    await page
      .getByText(/No tree fits these words|Not in these pages/u)
      .first()
      .waitFor();
    await box.fill('suply whistels');
    await page.locator('[role="option"]:first-child[href^="/trees/other-tree/"]').waitFor();
    await box.fill('lamp is dim');
    await page.locator('[role="option"]:first-child[href^="/trees/sample-tree/"]').tap();

    await page.waitForURL('**/trees/sample-tree/**');
  });

  it('signs a post with its name', async () => {
    const { page, open } = await bench.visit({
      baseURL: site.address,
      permissions: ['clipboard-read', 'clipboard-write'],
    });
    await open('/trees/sample-tree/lamp/');
    await page.getByRole('button', { name: 'Copy as post' }).click();
    await page.getByText('Post copied:').waitFor();

    expect(await page.evaluate(() => navigator.clipboard.readText())).toContain('The whole diagnosis, on Organ Bench:');
  });
});

describe('a build of the same library elsewhere', () => {
  it('has another clock', () => {
    const said = execFileSync(
      process.execPath,
      ['--eval', 'console.log(Date.now(), new Date().getTime(), new Date(0).getHours())'],
      { env: environmentElsewhere(), encoding: 'utf8' },
    );
    const [now = 0, made = 0, hours] = said.split(' ').map(Number);

    expect(now - Date.now()).toBeGreaterThan(4 * 365 * 86_400_000);
    expect(made - Date.now()).toBeGreaterThan(4 * 365 * 86_400_000);
    // Kiritimati kept 10 hours 40 minutes behind Greenwich in 1970: IANA Time Zone Database, Pacific/Kiritimati.
    expect(hours).toBe(13);
  });

  it('is the first, byte for byte, with no file more or less', () => {
    const first = hashFiles(dist);
    const second = hashFiles(join(again, 'dist'));
    const others = [...new Set([...first.keys(), ...second.keys()])].filter(
      (path) => first.get(path) !== second.get(path),
    );

    expect(first.size).toBeGreaterThan(150);
    expect(others).toEqual([]);
  });
});

// By the check, which stops the build.
describe('the file of a library’s name and colours', () => {
  it.each([
    ['a script in the name', 'name: Sample', 'name: <script>alert(1)</script>'],
    ['marks of a post in the name', 'name: Sample', 'name: "[url=//x]"'],
    ['letters that the font of the pictures lacks', 'name: Sample', 'name: Örgel'],
    ['style in a colour', '\n', "\ncolours: { light: { ink: '#000;}body{display:none' } }\n"],
    ['an address in a colour', '\n', "\ncolours: { dark: { paper: 'url(//x)' } }\n"],
    ['a colour that pages do not have', '\n', "\ncolours: { light: { link: '#000000' } }\n"],
    ['a setting that does not exist', '\n', '\nscript: x.js\n'],
  ])('is refused with %s', (_name, from, to) => {
    const text = 'name: Sample\nsummary: Trees made for a test.\n';
    const edit = { file: named.file ?? '', from: text, to: text.replace(from, to) };
    const problems = compileContent(makeContent([edit])).problems.filter(({ severity }) => severity === 'error');

    expect(problems.map(({ file }) => file)).toContain('content/site.yaml');
  });
});
