import type { FaultTree, TreeNode } from '../model/fault-tree.ts';
import type {
  Block,
  Caution,
  Hazard,
  InstrumentFamily,
  Library,
  Setup,
  Sign,
  Source,
  TestPoint,
} from '../model/library.ts';
import { listParagraphs, type Prose } from '../model/prose.ts';
import type { Target } from '../model/target.ts';
import type { Place } from './address.ts';

/** What every published file says of itself. Addresses are those of the site it was built for. */
interface Published {
  /** Address of the JSON Schema that describes the file. */
  readonly $schema: string;
  /** Grows when a field changes its meaning or goes; new fields may come without. */
  readonly format: 1;
  /** SPDX name of the licence of the content. */
  readonly license: 'CC-BY-SA-4.0';
  readonly attribution: string;
}

/** One fault tree, target or caution: the model itself, its prose as plain text, and the page that shows it. */
type TreeDocument = Published & { readonly address: string } & Omit<FaultTree, 'nodes'> & {
    readonly nodes: readonly PlainNode[];
  };
type TargetDocument = Published & { readonly address: string } & PlainProse<Target>;
type CautionDocument = Published & { readonly address: string } & PlainProse<Caution>;

/** A node with the plain text of its prose, its parts included. */
type PlainNode = Pick<TreeNode, 'kind' | 'id'> & Readonly<Record<string, unknown>>;

/** A part of the model with the plain text of its paragraphs and list items in place of its prose. */
type PlainProse<Row> = Omit<Row, 'prose'> & { readonly prose: readonly string[] };

interface Listed {
  readonly slug: string;
  readonly title: string;
  readonly address: string;
  /** Address of its own file. */
  readonly data: string;
}

/** What there is, and every table that the other files name slugs of. */
export interface IndexDocument extends Published {
  readonly trees: readonly (Listed & Pick<FaultTree, 'block' | 'summary' | 'symptoms' | 'since' | 'was'>)[];
  readonly targets: readonly (Listed & Pick<Target, 'quantity' | 'unit' | 'status'>)[];
  readonly cautions: readonly (Listed & Pick<Caution, 'severity' | 'text'>)[];
  readonly blocks: readonly Block[];
  readonly points: readonly Pick<TestPoint, 'slug' | 'title' | 'find'>[];
  readonly setups: readonly Setup[];
  readonly hazards: readonly Hazard[];
  readonly instruments: readonly InstrumentFamily[];
  readonly signs: readonly Sign[];
  readonly sources: readonly Source[];
}

/** Makes an address for a place: absolute where the site knows its own. */
export type MakeAddress = (place: Place) => string;

/** The published file of a tree; `site` is whose it is. What is undefined is left out when it becomes JSON. */
export function makeTreeDocument(tree: FaultTree, addressOf: MakeAddress, site: string): TreeDocument {
  const address = addressOf({ kind: 'tree', tree: tree.slug });
  return { ...describe('tree', addressOf, site), address, ...tree, nodes: tree.nodes.map(makePlainNode) };
}

/** The published file of a target. */
export function makeTargetDocument(target: Target, addressOf: MakeAddress, site: string): TargetDocument {
  return {
    ...describe('target', addressOf, site),
    address: addressOf({ kind: 'target', slug: target.slug }),
    ...makePlain(target),
  };
}

/** The published file of a caution. */
export function makeCautionDocument(caution: Caution, addressOf: MakeAddress, site: string): CautionDocument {
  return {
    ...describe('caution', addressOf, site),
    address: addressOf({ kind: 'caution', slug: caution.slug }),
    ...makePlain(caution),
  };
}

/** The published index of all of them. */
export function makeIndexDocument(library: Library, addressOf: MakeAddress): IndexDocument {
  const list = (
    { slug, title }: { readonly slug: string; readonly title: string },
    page: Place,
    of: Folder,
  ): Listed => ({
    slug,
    title,
    address: addressOf(page),
    data: addressOf({ kind: 'data-file', of, slug }),
  });
  return {
    ...describe('index', addressOf, library.site.name),
    trees: [...library.trees.values()].map((tree) => ({
      ...list(tree, { kind: 'tree', tree: tree.slug }, 'trees'),
      block: tree.block,
      summary: tree.summary,
      symptoms: tree.symptoms,
      since: tree.since,
      was: tree.was,
    })),
    targets: [...library.targets.values()].map((target) => ({
      ...list(target, { kind: 'target', slug: target.slug }, 'targets'),
      quantity: target.quantity,
      unit: target.unit,
      status: target.status,
    })),
    cautions: [...library.cautions.values()].map((caution) => ({
      ...list(caution, { kind: 'caution', slug: caution.slug }, 'cautions'),
      severity: caution.severity,
      text: caution.text,
    })),
    blocks: [...library.blocks.values()],
    points: [...library.points.values()].map(({ slug, title, find }) => ({ slug, title, find })),
    setups: [...library.setups.values()],
    hazards: [...library.hazards.values()],
    instruments: [...library.instruments.values()],
    signs: [...library.signs.values()],
    sources: [...library.sources.values()],
  };
}

function makePlain<Row extends { readonly prose: Prose }>(row: Row): PlainProse<Row> {
  return { ...row, prose: listParagraphs(row.prose) };
}

function makePlainNode(node: TreeNode): PlainNode {
  if (node.kind !== 'cause') return makePlain(node);
  const { confirm, repair, prove } = node;
  return {
    ...makePlain(node),
    confirm: confirm && makePlain(confirm),
    repair: repair && {
      ...makePlain(repair),
      record: listParagraphs(repair.record),
      substitutes: repair.substitutes.map(makePlain),
    },
    prove: prove && makePlain(prove),
  };
}

type Folder = 'trees' | 'targets' | 'cautions';

function describe(of: 'index' | 'tree' | 'target' | 'caution', addressOf: MakeAddress, site: string): Published {
  return {
    $schema: addressOf({ kind: 'data-schema', of }),
    format: 1,
    license: 'CC-BY-SA-4.0',
    attribution: `${site} contributors`,
  };
}
