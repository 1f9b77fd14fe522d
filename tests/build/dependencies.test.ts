import { existsSync, readdirSync, readFileSync } from 'node:fs';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

interface Manifest {
  readonly license?: string;
  readonly licenses?: readonly { readonly type: string }[];
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly hasInstallScript?: boolean;
}

const readJson = <T>(file: string): T => JSON.parse(readFileSync(file, 'utf8')) as T;
const project = readJson<{
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
  readonly allowScripts: Readonly<Record<string, boolean>>;
}>('package.json');
const packagesOfProject = { ...project.dependencies, ...project.devDependencies };
const { packages } = readJson<{ readonly packages: Readonly<Record<string, Manifest>> }>('package-lock.json');
const locked = Object.entries(packages).filter(([place]) => place !== '');
const nameOf = (place: string): string => place.slice(place.lastIndexOf('node_modules/') + 'node_modules/'.length);

const [named = '', more = ''] = readFileSync('.github/DEPENDENCIES.md', 'utf8').split('## Other licences');
const rowsOf = (table: string): readonly (readonly string[])[] =>
  [...table.matchAll(/^\| `.*$/gmu)].map(([row]) =>
    row
      .split('|')
      .slice(1, -1)
      .map((cell) => cell.trim().replaceAll('`', '')),
  );
const others = rowsOf(more);

// The identifiers of the SPDX licence list.
const permissive = [
  'MIT',
  'MIT-0',
  'ISC',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'Apache-2.0',
  '0BSD',
  'BlueOak-1.0.0',
  'CC0-1.0',
];
/** Whether every licence that holds at once is permissive, or one of those to choose from. */
function isPermissive(licence: string | undefined): boolean {
  const choices = (licence ?? '').replace(/^\(|\)$/gu, '').split(' OR ');
  return choices.some((choice) => choice.split(' AND ').every((one) => permissive.includes(one)));
}
/** The row of a package among those with another licence; a star stands for a kind of machine. */
function otherRowOf(name: string): readonly string[] | undefined {
  return others.find(([row = '']) => (row.endsWith('*') ? name.startsWith(row.slice(0, -1)) : row === name));
}

describe('the table of packages', () => {
  it('has one row for each package that the project names, in order, and no other', () => {
    expect(rowsOf(named).map(([name]) => name)).toEqual(Object.keys(packagesOfProject).sort());
    for (const row of rowsOf(named)) expect(row.filter((cell) => cell === '')).toEqual([]);
  });

  it('says of each the licence that the installed package says', () => {
    const said = rowsOf(named).map(([name = '', , licence]) => [name, licence]);
    const installed = said.map(([name]) => [name, readJson<Manifest>(`node_modules/${name}/package.json`).license]);

    expect(said).toEqual(installed);
  });

  it('names every package of the lock file whose licence is not a permissive one, with that licence, and no other', () => {
    const found = locked
      .filter(([, { license }]) => !isPermissive(license))
      .map(([place, { license }]) => [nameOf(place), license] as const);

    expect(found.length).toBeGreaterThan(10);
    for (const [name, licence] of found) {
      const [, said] = otherRowOf(name) ?? [];
      expect(said?.startsWith('none in the field') === true ? undefined : said, name).toBe(licence);
    }
    expect(others.filter((row) => !found.some(([name]) => otherRowOf(name) === row))).toEqual([]);
  });

  it('is right about the two that have no licence in its field', () => {
    expect(readJson<Manifest>('node_modules/format/package.json').licenses?.map(({ type }) => type)).toEqual(['MIT']);
    expect(readFileSync('node_modules/khroma/license', 'utf8')).toContain('The MIT License (MIT)');
  });
});

/** The lock file's place of a package as one at `from` sees it: the nearest folder upwards that has it. */
function findPlace(name: string, from: string): string | undefined {
  const folders = from.split('/node_modules/');
  return folders
    .map((_, index) => `${folders.slice(0, folders.length - index).join('/node_modules/')}/node_modules/${name}`)
    .concat(`node_modules/${name}`)
    .find((place) => place in packages);
}

/** Every package that script of a page, of a worker or of the drafting page may bring along: those it imports, and all below them. */
function findShippable(): ReadonlySet<string> {
  const todo = readdirSync('src', { recursive: true, encoding: 'utf8' })
    .filter((file) => /^(?:browser|core|offline|compiler)\/.*\.ts$/u.test(file))
    .flatMap((file) => ts.preProcessFile(readFileSync(`src/${file}`, 'utf8')).importedFiles)
    .map(({ fileName }) => /^(?:@[^/]+\/)?[^/]+/u.exec(fileName)?.[0] ?? '')
    .filter((name) => name in packagesOfProject)
    .map((name) => `node_modules/${name}`);
  const found = new Set<string>();
  for (let place = todo.pop(); place !== undefined; place = todo.pop()) {
    if (found.has(place)) continue;
    found.add(place);
    for (const name of Object.keys(packages[place]?.dependencies ?? {})) {
      const below = findPlace(name, place);
      if (below !== undefined) todo.push(below);
    }
  }
  return found;
}

describe('what reaches a reader', () => {
  it('can come from permissive packages alone, but for two whose rows say why', () => {
    const shippable = [...findShippable()];
    const strange = shippable.filter((place) => !isPermissive(packages[place]?.license)).map(nameOf);

    expect(shippable.length).toBeGreaterThan(100);
    expect(strange.sort()).toEqual(['format', 'robust-predicates']);
  });

  it('is said to be shipped, exactly where page, worker or compiler imports it', () => {
    const imported = [...findShippable()].map(nameOf);
    const said = rowsOf(named)
      .filter(([, use]) => use?.startsWith('shipped') === true)
      .map(([name = '']) => name);

    expect(said.length).toBeGreaterThan(10);
    expect(said.filter((name) => !imported.includes(name))).toEqual([]);
  });
});

describe('install scripts', () => {
  it('are allowed to none but node; each package that has one is decided on', () => {
    const having = locked
      .filter(([, { hasInstallScript }]) => hasInstallScript === true)
      .map(([place]) => nameOf(place));

    expect(having.sort()).toEqual(Object.keys(project.allowScripts).sort());
    expect(project.allowScripts).toEqual({ node: true, esbuild: false });
    // The program that esbuild works with, where npm puts it without any script.
    expect(existsSync('node_modules/@esbuild')).toBe(true);
  });
});
