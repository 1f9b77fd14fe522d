import { findPins, type Part, partsAt } from '#core/model/part.ts';
import type { FaultTree, Shows } from '#core/model/fault-tree.ts';
import { findNode, wordsOfCheck, isStep } from '#core/model/node.ts';
import { substituteRoles } from '#core/model/substitute-roles.ts';
import { slugOf } from '../compile-tree.ts';
import { suggestName } from '../nearest-name.ts';
import type { NameKind } from '../position.ts';
import type { Rule, RuleContext } from './rule.ts';

/** Whatever a file names has to exist. Which words are names, and of what, is said by the tables that files are read by. */
export const nameRules: readonly Rule[] = [
  {
    id: 'known-nodes',
    group: 'structure',
    says: 'Every `to`, `fault`, `good`, `after`, `from`, `brings`, `says-before` and `says-after` names a node that exists and fits there: a check, a stage, a cause.',
    why: 'A button that leads to nothing leaves the reader at the bench without a next step.',
    wrong: '<Outcome when="no" to="fuse-opne" />',
    right: '<Outcome when="no" to="fuse-open" />',
    *findInTree(context) {
      for (const { kind, name, key } of context.positions.names) {
        const place = nodePlaces[kind];
        if (place === undefined) continue;
        const known = place.list(context.tree, key);
        if (known.includes(name)) continue;
        yield {
          key,
          message: `Unexpected \`${name}\`, expected ${place.what} of this tree.`,
          help: `Name one that exists, or add it.${suggestName(name, known)}`,
        };
      }
      for (const node of context.tree.nodes) {
        if (node.kind !== 'elsewhere' || node.tree !== context.tree.slug) continue;
        yield {
          key: `node/${node.id}@tree`,
          message: `Unexpected jump of \`${node.id}\` into its own tree, expected another one.`,
          help: 'Let an outcome lead to the node itself.',
        };
      }
    },
    *findInAll({ trees, library }) {
      for (const { tree, file } of trees) {
        for (const node of tree.nodes) {
          const other = node.kind === 'elsewhere' && node.tree !== tree.slug ? library.trees.get(node.tree) : undefined;
          if (node.kind !== 'elsewhere' || other === undefined || node.node === undefined) continue;
          if (findNode(other, node.node) !== undefined) continue;
          yield {
            file,
            key: `node/${node.id}@node`,
            message: `Unexpected node \`${node.node}\`, expected a node of ${node.tree}.`,
            help: `Name one that exists, or leave it out.${suggestName(node.node, idsOf(other.nodes))}`,
          };
        }
      }
    },
  },
  {
    id: 'shows-known',
    group: 'structure',
    says: 'Every `shows` names a check of this tree and outcomes that this check can have.',
    why: 'What a cause makes checks read is what the next check is computed from; a name that does not exist is evidence lost.',
    wrong: 'shows="lamp=flickers rail=none|low"',
    right: 'shows="lamp=no rail=none|low"',
    *findInTree({ tree }) {
      const answers = answersByCheck(tree);
      for (const node of tree.nodes) {
        const shows: Shows = 'shows' in node ? node.shows : {};
        for (const [check, outcomes] of Object.entries(shows)) {
          const known = answers.get(check);
          if (known === undefined) {
            yield {
              key: `node/${node.id}@shows`,
              message: `Unexpected \`${check}\` in \`shows\`, expected a check of this tree.`,
              help: `Name one that exists.${suggestName(check, answers.keys())}`,
            };
            continue;
          }
          for (const outcome of outcomes.filter((word) => !known.includes(word))) {
            yield {
              key: `node/${node.id}@shows`,
              message: `Unexpected outcome \`${outcome}\` of \`${check}\`, expected ${known.join(', ')}.`,
              help: `Use a word that this check answers with.${suggestName(outcome, known)}`,
            };
          }
        }
      }
    },
  },
  {
    id: 'part-numbers',
    group: 'measurement',
    says: 'Each number names one part.',
    why: 'Two sets of pins under one number put the probe on the wrong pin under power.',
    wrong: 'aliases: [LM317, LM317]',
    right: 'aliases: [LM317]',
    from: 'a part',
    *findInAll({ library }) {
      const named = new Map<string, string>();
      for (const { slug, title, aliases } of library.parts.values()) {
        for (const [place, name] of [title, ...aliases].entries()) {
          const other = named.get(name.toLowerCase());
          named.set(name.toLowerCase(), slug);
          if (other === undefined) continue;
          yield {
            file: `content/parts/${slug}.yaml`,
            key: place === 0 ? 'front/title' : `front/aliases/${place - 1}`,
            message: `Unexpected \`${name}\` again, expected a number that content/parts/${other}.yaml does not have.`,
            help: 'Where two kinds share a number, give each a title that tells them apart.',
          };
        }
      }
    },
  },
  {
    id: 'point-pins',
    group: 'measurement',
    says: 'Each function that a test point names is a pin of a part it can lie on, and a unit’s own words name no other pin of its chip.',
    why: 'A drawing that marks no pin, or another one than the words do, puts the probe where it harms.',
    wrong: 'regulator-out: "IC3 pin 1."',
    right: 'regulator-out: "IC3 pin 2."',
    from: 'a unit',
    *findInAll({ library }) {
      const { points, parts, units } = library;
      for (const { slug, pins } of points.values()) {
        const known = pins === undefined ? [] : partsAt(pins, library);
        // Without a part that could be read there is nothing to compare with; that has been said already.
        if (pins === undefined || known.length === 0) continue;
        for (const name of [...pins.read, ...pins.all, ...pins.joins.flat(), ...pins.ground]) {
          const at = { ...pins, read: [], all: [name], joins: [], never: undefined };
          const isPin = (part: Part): boolean =>
            findPins(part, at).read.length > 0 || part.pins.some(({ number }) => number === name);
          if (known.some(isPin)) continue;
          yield {
            file: 'content/points.yaml',
            key: `front/${slug}/pins`,
            message: `Unexpected \`${name}\`, expected a pin of one of the parts that this point can lie on.`,
            help: 'Write the function as content/parts/ names it, without its active level.',
          };
        }
      }
      for (const unit of units.values()) {
        for (const [point, words] of Object.entries(unit.points)) {
          const pins = points.get(point)?.pins;
          const part = parts.get(pins?.chip === undefined ? '' : (unit.chips[pins.chip] ?? ''));
          const [, said] = /\bpin (\d{1,2})\b/.exec(words) ?? [];
          if (pins === undefined || part === undefined || said === undefined) continue;
          const drawn = findPins(part, pins).read.map(({ number }) => number);
          if (drawn.length === 0 || drawn.includes(said)) continue;
          yield {
            file: `content/units/${unit.slug}.mdx`,
            key: `front/points/${point}`,
            message: `Unexpected pin ${said}, expected ${drawn.join(' or ')} of the ${part.title}.`,
            help: 'Correct the words, or name the chip that the unit has under `chips`.',
          };
        }
      }
    },
  },
  {
    id: 'picture-leads',
    group: 'measurement',
    says: 'Each picture leads to a tree or to a node of one.',
    why: 'A reader who has found what they see must get from there to the check that it belongs to.',
    wrong: 'leads: [sample-tree/rial]',
    right: 'leads: [sample-tree/rail]',
    from: 'a picture',
    *findInAll(context) {
      const { pictures, trees } = context.library;
      const unread = new Set(fileSlugs(context, 'trees').filter((slug) => !trees.has(slug)));
      for (const { slug, leads } of pictures.values()) {
        for (const [index, lead] of leads.entries()) {
          const [tree = '', node] = lead.split('/');
          const found = trees.get(tree);
          // What is wrong in a tree that could not be read has been said there.
          if (unread.has(tree)) continue;
          if (found !== undefined && (node === undefined || findNode(found, node) !== undefined)) continue;
          yield {
            file: `content/figures/${slug}.yaml`,
            key: `front/leads/${index}`,
            message: `Unexpected \`${lead}\`, expected a tree, or a node as \`tree/node\`.`,
            help: `Name one that exists.${suggestName(node ?? tree, found === undefined ? [...trees.keys()] : idsOf(found.nodes))}`,
          };
        }
      }
    },
  },
  {
    id: 'known-slugs',
    group: 'measurement',
    says: 'Every tree, target, part, picture, test point, caution, set-up, hazard, instrument, sign, source, block and role that is named exists.',
    why: 'A target, caution or set-up that does not exist cannot be shown, and the reader gets the step without its number or its warning.',
    wrong: '<Target use="rail-5" point="regulator-out" />',
    right: '<Target use="rail-5v" point="regulator-out" />',
    *findInAll(context) {
      const lists = listSlugs(context);
      for (const [file, { names }] of context.positionsOf) {
        for (const { kind, name, key } of names) {
          const slugs = lists[kind];
          // An empty table could not be read, which has been said already.
          if (slugs === undefined || slugs.size === 0 || slugs.has(name)) continue;
          const what = whatSlugs[kind] ?? kind;
          yield {
            file,
            key,
            message: `Unexpected ${what} \`${name}\`, expected one that exists.`,
            help: `${kind === 'tree' ? 'Where no tree is written yet, end in a cause or a hand-over that stands by itself.' : `Name an existing ${what}, or add it first.`}${suggestName(name, slugs) || listNames(slugs)}`,
          };
        }
      }
    },
  },
];

const idsOf = (nodes: readonly { readonly id: string }[]): readonly string[] => nodes.map(({ id }) => id);

/** Names within a tree: what is expected, and what there is. */
const nodePlaces: Readonly<
  Partial<
    Record<NameKind, { readonly what: string; readonly list: (tree: FaultTree, key: string) => readonly string[] }>
  >
> = {
  node: { what: 'a node', list: ({ nodes }) => idsOf(nodes) },
  check: { what: 'a check', list: ({ nodes }) => idsOf(nodes.filter(isStep)) },
  end: { what: 'a cause or a jump', list: ({ nodes }) => idsOf(nodes.filter((node) => !isStep(node))) },
  place: {
    what: 'a stage, as `path/stage`,',
    list: ({ nodes }) =>
      nodes.flatMap((path) => (path.kind === 'path' ? path.stages.map(({ id }) => `${path.id}/${id}`) : [])),
  },
  stage: {
    what: 'a stage',
    list: (tree, key) => {
      const path = findNode(tree, key.split('/')[1] ?? '');
      return path?.kind === 'path' ? idsOf(path.stages) : [];
    },
  },
};

function answersByCheck(tree: FaultTree): ReadonlyMap<string, readonly string[]> {
  return new Map(
    tree.nodes.flatMap((node): [string, readonly string[]][] => {
      if (node.kind === 'check') return [[node.id, [...wordsOfCheck(node), 'sometimes']]];
      if (node.kind === 'path') return [[node.id, [...node.stages.map(({ id }) => id), 'good']]];
      return [];
    }),
  );
}

const whatSlugs: Readonly<Partial<Record<NameKind, string>>> = {
  point: 'test point',
  setup: 'set-up',
  chip: 'chip of chips.yaml',
  figure: 'picture',
};

/** What may be named, kind by kind; files that could not be read are known by their names. */
function listSlugs(context: RuleContext): Readonly<Partial<Record<NameKind, ReadonlySet<string>>>> {
  const { points, chips, setups, hazards, instruments, signs, sources, blocks } = context.library;
  const inFolder = (folder: string): ReadonlySet<string> => new Set(fileSlugs(context, folder));
  const inTable = (table: ReadonlyMap<string, unknown>): ReadonlySet<string> => new Set(table.keys());
  return {
    tree: inFolder('trees'),
    target: inFolder('targets'),
    part: inFolder('parts'),
    figure: inFolder('figures'),
    circuit: inFolder('circuits'),
    caution: inFolder('cautions'),
    point: inTable(points),
    chip: inTable(chips),
    setup: inTable(setups),
    hazard: inTable(hazards),
    instrument: inTable(instruments),
    sign: inTable(signs),
    source: inTable(sources),
    block: inTable(blocks),
    role: new Set(Object.keys(substituteRoles)),
  };
}

/** All names where none is near and they are few enough to be read; longer lists have a folder or a page of their own. */
function listNames(names: ReadonlySet<string>): string {
  return names.size > 40 ? '' : ` There are ${[...names].join(', ')}.`;
}

/**
 * Slugs of the files in one folder of content/, those that could not be read included:
 * what is wrong in them has been said there, and naming them elsewhere is no fault.
 */
export function fileSlugs({ files }: Pick<RuleContext, 'files'>, folder: string): readonly string[] {
  return files
    .map(({ file }) => file)
    .filter(
      (file) => file.startsWith(`content/${folder}/`) && /\.(?:mdx|yaml|cir)$/.test(file) && !file.includes('/models/'),
    )
    .map(slugOf);
}
