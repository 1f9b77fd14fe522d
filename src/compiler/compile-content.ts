import { computeRows } from '#core/circuit/rows.ts';
import type { Circuit } from '#core/model/circuit.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import type { InstrumentClass } from '#core/model/instrument-class.ts';
import type { InstrumentFamily, Library } from '#core/model/library.ts';
import { completeColours, emptySite, type Site } from '#core/model/site.ts';
import { emptyThesaurus, type Thesaurus } from '#core/model/thesaurus.ts';
import type * as v from 'valibot';
import { compileInstrumentClasses } from './compile-instrument-classes.ts';
import { compileCircuit, compileModel } from './compile-circuit.ts';
import { compileCaution, compilePart, compilePicture, compileTarget, compileUnit } from './compile-reference.ts';
import { type CompiledTree, compileTree, slugOf } from './compile-tree.ts';
import { findLength } from './find-excess.ts';
import { inspectText } from './inspect-text.ts';
import { Positions } from './position.ts';
import { collectInto, compareProblems, type Finding, type Problem, type ReadContext, type Report } from './problem.ts';
import { idPattern, longestSlug } from './read-attributes.ts';
import { readYaml } from './read-yaml.ts';
import { type Keep, keepBeside, makeAnew } from './keep.ts';
import { allRules } from './rules/all.ts';
import { runRules, type SoundTree } from './rules/rule.ts';
import {
  blocksSchema,
  hazardsSchema,
  instrumentsSchema,
  nextDoorSchema,
  chipsSchema,
  pointsSchema,
  setupsSchema,
  signsSchema,
  siteSchema,
  sourcesSchema,
  thesaurusSchema,
} from './schemas.ts';

/** A content file as it lies on disk: path from the project's root with forward slashes, and its text. */
export interface ContentFile {
  readonly file: string;
  readonly text: string;
  /** It is a link to somewhere else, which is refused unread. */
  readonly isLink?: boolean;
}

export interface CompiledContent {
  readonly library: Library;
  readonly problems: readonly Problem[];
  /** Every tree whose structure holds, in the order of the files. */
  readonly trees: readonly SoundTree[];
  /** Where each part of each file stands. */
  readonly positionsOf: ReadonlyMap<string, Positions>;
}

/**
 * Compiles everything under content/, then runs every rule over it. Pure: files come in as text.
 * @param keep remembers what was read and found file by file
 */
export function compileContent(entries: readonly ContentFile[], keep: Keep = makeAnew): CompiledContent {
  const problems: Problem[] = [];
  const files = entries.filter(({ isLink = false }) => !isLink);
  for (const { file, isLink = false } of entries) reportPlace(file, isLink, collectInto(problems, file));
  const positionsOf = new Map<string, Positions>();
  const refused = new Set<string>();
  for (const entry of files) {
    for (const finding of inspectTable(entry)) {
      refused.add(entry.file);
      collectInto(problems, entry.file)(finding);
    }
  }
  const within = (folder: string): readonly ContentFile[] =>
    files.filter(({ file }) => file.startsWith(`content/${folder}/`) && file.endsWith(endingIn(folder)));

  const openFile = (file: string): ReadContext => {
    const positions = new Positions();
    positionsOf.set(file, positions);
    return { positions, report: collectInto(problems, file) };
  };

  const readFiles = <Item>(folder: string, read: (entry: ContentFile) => ReadFile<Item>): ReadonlyMap<string, Item> => {
    const items = new Map<string, Item>();
    for (const entry of within(folder)) {
      const { file } = entry;
      if (refused.has(file)) continue;
      const { item, positions, problems: found } = keepPlain(keep, folder, entry, read);
      positionsOf.set(file, positions);
      problems.push(...found);
      if (item !== undefined) items.set(slugOf(file), item);
    }
    return items;
  };

  const readTable = <Schema extends v.GenericSchema, Item>(
    name: string,
    schema: Schema,
    make: (output: v.InferOutput<Schema>, context: ReadContext) => Iterable<readonly [string, Item]>,
  ): ReadonlyMap<string, Item> => {
    const file = `content/${name}.yaml`;
    const table = files.find((candidate) => candidate.file === file);
    if (table === undefined) {
      openFile(file).report({
        rule: 'missing-file',
        position: 'unavailable',
        message: `Unexpected absence of ${file}.`,
        help: 'Put it back.',
      });
      return new Map();
    }
    if (refused.has(file)) return new Map();
    const { item: output, positions, problems: found } = keepPlain(keep, name, table, () => readTableOf(table, schema));
    positionsOf.set(file, positions);
    problems.push(...found);
    return new Map(output === undefined ? [] : make(output, { positions, report: collectInto(problems, file) }));
  };

  /** Circuits with their models and results: each hangs on several files, so none is remembered. */
  const readCircuits = (): ReadonlyMap<string, Circuit> => {
    const netlists = within('circuits').filter(({ file }) => !refused.has(file));
    const isModel = ({ file }: ContentFile): boolean => file.startsWith('content/circuits/models/');
    const models = new Map<string, readonly string[]>();
    for (const { file, text } of netlists.filter(isModel)) {
      const lines = compileModel(text, openFile(file));
      if (lines !== undefined) models.set(slugOf(file), lines);
    }
    return new Map(
      netlists
        .filter((entry) => !isModel(entry))
        .flatMap(({ file, text }) => {
          const results = files.find((each) => each.file === file.replace(/cir$/, 'json'))?.text;
          const circuit = compileCircuit(text, slugOf(file), openFile(file), models, results);
          return circuit === undefined ? [] : [[circuit.slug, circuit] as const];
        }),
    );
  };

  const withSlug = <Row extends object>(table: Record<string, Row>): [string, Row & { slug: string }][] =>
    Object.entries(table).map(([slug, row]) => [slug, { slug, ...row }]);

  const compiledTrees = within('trees').map((entry) => keepPlain(keep, 'trees', entry, readTree));
  const trees = new Map<string, FaultTree>();
  for (const { file, tree, positions, problems: found } of compiledTrees) {
    problems.push(...found);
    positionsOf.set(file, positions);
    if (tree !== undefined) trees.set(tree.slug, tree);
  }

  let instrumentClasses: ReadonlyMap<string, InstrumentClass> = new Map();
  const instruments = readTable('instruments', instrumentsSchema, (front, context): [string, InstrumentFamily][] => {
    instrumentClasses = compileInstrumentClasses(front, context);
    return withSlug(front.families);
  });

  const circuits = readCircuits();
  const library: Library = {
    site:
      readTable('site', siteSchema, ({ colours, ...site }): [string, Site][] => [
        ['all', { ...site, colours: completeColours(colours) }],
      ]).get('all') ?? emptySite,
    trees,
    circuits,
    targets: readFiles('targets', readTarget),
    cautions: readFiles('cautions', readCaution),
    units: readFiles('units', readUnit),
    parts: readFiles('parts', readPart),
    pictures: readFiles('figures', readPicture),
    blocks: readTable('blocks', blocksSchema, withSlug),
    chips: readTable('chips', chipsSchema, withSlug),
    points: readTable('points', pointsSchema, (table) =>
      withSlug(table).map(([slug, { pins, ...row }]) => [
        slug,
        { ...row, pins: pins && { ...pins, chip: pins.chip, part: pins.part, never: pins.never } },
      ]),
    ),
    setups: readTable('setups', setupsSchema, (table) =>
      withSlug(table).map(([slug, { ends, ...row }]) => [slug, { ...row, endedBy: ends }]),
    ),
    hazards: readTable('hazards', hazardsSchema, (table) =>
      withSlug(table).map(([slug, row]) => [slug, { ...row, setup: row.setup }]),
    ),
    instruments,
    instrumentClasses,
    signs: readTable('signs', signsSchema, withSlug),
    sources: readTable('sources', sourcesSchema, withSlug),
    thesaurus:
      readTable('thesaurus', thesaurusSchema, (table): [string, Thesaurus][] => [['all', table]]).get('all') ??
      emptyThesaurus,
    nextDoor: readTable('next-door', nextDoorSchema, (table) =>
      withSlug(table).map(([slug, { lethal, apart, caution, ...row }]) => [
        slug,
        { ...row, isLethal: lethal, isApart: apart, caution },
      ]),
    ),
  };
  const keepHere = keepBeside(keep, files);
  const sound = compiledTrees.filter(hasTree).map((compiled) => {
    const { file, tree: told } = compiled;
    const computed = keepHere('rows', file, () => computeRows(told, library));
    const tree = { ...told, computed };
    trees.set(tree.slug, tree);
    return { ...compiled, tree };
  });
  problems.push(...runRules(allRules, { library, trees: sound, files, positionsOf, keep: keepHere }));
  return { library, problems: problems.toSorted(compareProblems), trees: sound, positionsOf };
}

/** Keeps what reading a file of this folder gave; positions are kept as plain data. */
function keepPlain<Result extends { readonly positions: Positions }>(
  keep: Keep,
  folder: string,
  entry: ContentFile,
  read: (entry: ContentFile) => Result,
): Result {
  const plain = keep(
    folder,
    () => [entry.file, entry.text],
    () => {
      const { positions, ...rest } = read(entry);
      return { rest, positions: positions.plain };
    },
  );
  return { ...plain.rest, positions: new Positions(plain.positions) } as Result;
}

/** What one file holds, with all that was wrong with it. */
interface ReadFile<Item> {
  readonly item: Item | undefined;
  readonly positions: Positions;
  readonly problems: readonly Problem[];
}

/** Reading one file is most of the work and depends on nothing else: a file that was read before, the same object, is not read again. */
function remember<Result extends object>(read: (entry: ContentFile) => Result): (entry: ContentFile) => Result {
  const known = new WeakMap<ContentFile, Result>();
  return (entry) => {
    const result = known.get(entry) ?? read(entry);
    known.set(entry, result);
    return result;
  };
}

function rememberFile<Item>(
  compile: (text: string, slug: string, context: ReadContext) => Item | undefined,
): (entry: ContentFile) => ReadFile<Item> {
  return remember((entry) => readFile(entry, compile));
}

function readFile<Item>(
  { file, text }: ContentFile,
  compile: (text: string, slug: string, context: ReadContext) => Item | undefined,
): ReadFile<Item> {
  const positions = new Positions();
  const problems: Problem[] = [];
  const item = compile(text, slugOf(file), { positions, report: collectInto(problems, file) });
  return { item, positions, problems };
}

const tablesRead = new WeakMap<ContentFile, ReadFile<unknown>>();

/** What a table of content holds; each has one schema. */
function readTableOf<Schema extends v.GenericSchema>(
  entry: ContentFile,
  schema: Schema,
): ReadFile<v.InferOutput<Schema>> {
  const read =
    tablesRead.get(entry) ??
    readFile(entry, (text, _slug, context) => readYaml(text, { firstLine: 1, key: 'front' }, schema, context));
  tablesRead.set(entry, read);
  return read as ReadFile<v.InferOutput<Schema>>;
}

// Pure, so that the drafting page, which reads trees alone, leaves out the readers of all other files.
const readTree = /* @__PURE__ */ remember(({ file, text }) => compileTree(text, file));
const readTarget = /* @__PURE__ */ rememberFile(compileTarget);
const readCaution = /* @__PURE__ */ rememberFile(compileCaution);
const readUnit = /* @__PURE__ */ rememberFile(compileUnit);
const readPart = /* @__PURE__ */ rememberFile(compilePart);
const readPicture = /* @__PURE__ */ rememberFile(compilePicture);

/** What forbids to read a table or a list; files of words and elements are looked at where they are parsed. */
function inspectTable({ file, text }: ContentFile): readonly Finding[] {
  if (file.endsWith('.mdx')) return [];
  const long = /\.(?:ya?ml|cir)$/.test(file) ? findLength(text) : undefined;
  return long === undefined ? inspectText(text) : [long];
}

function hasTree(compiled: CompiledTree): compiled is SoundTree {
  return compiled.tree !== undefined;
}

const folders = ['trees', 'targets', 'cautions', 'units', 'parts', 'figures', 'circuits'];

/** A part or a picture is a table, a circuit a netlist; what has prose is MDX. */
function endingIn(folder: string): string {
  if (folder === 'circuits') return '.cir';
  return folder === 'parts' || folder === 'figures' ? '.yaml' : '.mdx';
}

const tables = [
  ...[
    'blocks',
    'chips',
    'points',
    'setups',
    'hazards',
    'instruments',
    'signs',
    'site',
    'sources',
    'thesaurus',
    'next-door',
  ],
];

/** Lists that machines read and that no page shows. */
const lists = ['content/addresses.txt', 'content/queries.tsv'];

/**
 * Reports a file under content/ that no page would ever come from: in the wrong folder, with the wrong ending, or a name no address
 * can hold; and one that is only a link to another.
 */
function reportPlace(file: string, isLink: boolean, report: Report): void {
  const [, folder = '', ...rest] = file.split('/');
  const name = rest.at(-1) ?? folder;
  const say = (message: string, help: string): void =>
    report({ rule: 'file-place', position: 'unavailable', message, help });
  if (isLink) {
    say(`Unexpected link \`${name}\` to another place, expected a file.`, 'Put the file itself there.');
    return;
  }
  if (rest.length === 0) {
    if (lists.includes(file) || tables.some((table) => `${table}.yaml` === folder)) return;
    say(`Unexpected file \`${folder}\` in content/, expected one of its tables.`, `Tables: ${tables.join(', ')}.`);
    return;
  }
  if (!folders.includes(folder)) {
    say(`Unexpected folder \`${folder}\`, expected ${folders.join(', ')}.`, 'Move the file to where its kind lies.');
    return;
  }
  const ending = endingIn(folder);
  const isResult = folder === 'circuits' && name.endsWith('.json');
  if (!name.endsWith(ending) && !isResult) {
    say(
      `Unexpected file \`${name}\`, expected one that ends in ${ending}.`,
      'Rename it, or take it out: nothing else is read here.',
    );
    return;
  }
  const slug = slugOf(name);
  if (!idPattern.test(slug) || slug.length > longestSlug) {
    say(
      `Unexpected name \`${slug}\`, expected small letters, digits and single hyphens, at most ${longestSlug} characters.`,
      'The name becomes the address of the page.',
    );
  }
  const depth = folder === 'trees' || (folder === 'circuits' && rest[0] === 'models' && !isResult) ? 2 : 1;
  if (rest.length !== depth) {
    const place = folder === 'trees' ? 'content/trees/<block>/' : `content/${folder}/`;
    say(`Unexpected place of \`${name}\`, expected it in ${place}.`, 'Move the file there.');
  }
}
