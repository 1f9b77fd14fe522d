import type { TargetUse } from '#core/model/fault-tree.ts';
import { substituteRoles } from '#core/model/substitute-roles.ts';
import { suggestName } from '../nearest-name.ts';
import { fileSlugs } from './file-slugs.ts';
import type { Rule, RuleContext, RuleFinding, SoundTree } from './rule.ts';

/** A place that names something, and the names there are. */
interface Naming {
  readonly file: string;
  readonly key: string;
  readonly name: string;
  readonly what: string;
  readonly known: Iterable<string>;
}

export const knownSlugs: Rule = {
  id: 'known-slugs',
  group: 'measurement',
  says: 'Every target, test point, caution, set-up, hazard, instrument, sign, source, block and role that is named exists.',
  why: 'A target, caution or set-up that does not exist cannot be shown, and the reader gets the step without its number or its warning.',
  wrong: '<Target use="rail-5" point="regulator-out" />',
  right: '<Target use="rail-5v" point="regulator-out" />',
  severity: 'error',
  *find(context) {
    for (const compiled of context.trees) yield* unknownAmong(namesInTree(compiled, context));
    yield* unknownAmong(namesInLibrary(context));
  },
};

function* unknownAmong(namings: Iterable<Naming>): Iterable<RuleFinding> {
  for (const { file, key, name, what, known } of namings) {
    const names = new Set(known);
    // An empty table could not be read, which has been said already.
    if (names.size === 0 || names.has(name)) continue;
    yield {
      file,
      key,
      message: `Unexpected ${what} \`${name}\`, expected one that exists.`,
      help: `Name an existing ${what}, or add it first.${suggestName(name, names) || listNames(names)}`,
    };
  }
}

/** All names where none is near and they are few enough to be read; longer lists have a folder or a page of their own. */
function listNames(names: ReadonlySet<string>): string {
  return names.size > 40 ? '' : ` There are ${[...names].join(', ')}.`;
}

function* namesInTree({ tree, file }: SoundTree, { library, files }: RuleContext): Iterable<Naming> {
  const knownTargets = fileSlugs({ files }, 'targets');
  const knownCautions = fileSlugs({ files }, 'cautions');
  const name = (key: string, what: string, known: Iterable<string>, names: readonly string[]): Naming[] => {
    const all = [...known];
    return names.map((each) => ({ file, key, name: each, what, known: all }));
  };
  const uses = (key: string, used: readonly TargetUse[]): Naming[] =>
    used.flatMap(({ target, point }, index) => [
      ...name(`${key}/target/${index}@use`, 'target', knownTargets, [target]),
      ...name(`${key}/target/${index}@point`, 'test point', library.points.keys(), point === undefined ? [] : [point]),
    ]);

  yield* name('front/block', 'block', library.blocks.keys(), [tree.block]);
  yield* name('front/hazards', 'hazard', library.hazards.keys(), tree.hazards);
  yield* name('front/signs', 'sign', library.signs.keys(), Object.keys(tree.signs));
  for (const node of tree.nodes) {
    const key = `node/${node.id}`;
    for (const [index, caution] of node.cautions.entries()) {
      yield* name(`${key}/caution/${index}@use`, 'caution', knownCautions, [caution]);
    }
    if (node.kind === 'check' || node.kind === 'path') {
      yield* name(`${key}@needs`, 'set-up', library.setups.keys(), node.needs);
      yield* name(`${key}@instrument`, 'instrument', library.instruments.keys(), node.instruments);
    }
    if (node.kind === 'check') {
      yield* name(`${key}@sign`, 'sign', library.signs.keys(), node.sign === undefined ? [] : [node.sign]);
      yield* uses(key, node.target === undefined ? [] : [node.target]);
    }
    if (node.kind === 'path') {
      for (const { id, target, point } of node.stages) {
        const stage = `${key}/stage/${id}`;
        yield* name(`${stage}@target`, 'target', knownTargets, target === undefined ? [] : [target]);
        yield* name(`${stage}@point`, 'test point', library.points.keys(), point === undefined ? [] : [point]);
      }
    }
    if (node.kind === 'cause') {
      yield* uses(`${key}/confirm`, node.confirm?.targets ?? []);
      yield* uses(`${key}/prove`, node.prove?.targets ?? []);
      yield* uses(`${key}/repair`, node.repair?.targets ?? []);
      yield* name(`${key}/repair@needs`, 'set-up', library.setups.keys(), node.repair?.needs ?? []);
      for (const [index, { role }] of (node.repair?.substitutes ?? []).entries()) {
        yield* name(`${key}/repair/substitute/${index}@role`, 'role', Object.keys(substituteRoles), [role]);
      }
    }
  }
}

function* namesInLibrary({ library, files }: RuleContext): Iterable<Naming> {
  const knownTargets = fileSlugs({ files }, 'targets');
  const knownCautions = fileSlugs({ files }, 'cautions');
  const knownTrees = fileSlugs({ files }, 'trees');
  for (const target of library.targets.values()) {
    const file = `content/targets/${target.slug}.mdx`;
    yield { file, key: 'front/source', name: target.source, what: 'source', known: library.sources.keys() };
    for (const name of target.instruments) {
      yield { file, key: 'front/instrument', name, what: 'instrument', known: library.instruments.keys() };
    }
    for (const [index, { instrument: name }] of target.misreads.entries()) {
      yield {
        file,
        key: `front/misreads/${index}/instrument`,
        name,
        what: 'instrument',
        known: library.instruments.keys(),
      };
    }
  }
  for (const { slug, source } of library.cautions.values()) {
    const file = `content/cautions/${slug}.mdx`;
    yield { file, key: 'front/source', name: source, what: 'source', known: library.sources.keys() };
  }
  for (const unit of library.units.values()) {
    const file = `content/units/${unit.slug}.mdx`;
    for (const name of Object.keys(unit.points)) {
      yield { file, key: `front/points/${name}`, name, what: 'test point', known: library.points.keys() };
    }
    for (const name of Object.keys(unit.targets)) {
      yield { file, key: `front/targets/${name}`, name, what: 'target', known: knownTargets };
    }
    for (const name of Object.keys(unit.differs)) {
      yield { file, key: `front/differs/${name}`, name, what: 'tree', known: knownTrees };
    }
  }
  for (const [table, rows] of [
    ['setups', library.setups],
    ['hazards', library.hazards],
  ] as const) {
    const file = `content/${table}.yaml`;
    for (const { slug, cautions } of rows.values()) {
      for (const name of cautions) {
        yield { file, key: `front/${slug}/cautions`, name, what: 'caution', known: knownCautions };
      }
    }
  }
  for (const { slug, setup } of library.hazards.values()) {
    if (setup === undefined) continue;
    yield {
      file: 'content/hazards.yaml',
      key: `front/${slug}/setup`,
      name: setup,
      what: 'set-up',
      known: library.setups.keys(),
    };
  }
}
