import { applyLimits } from '../model/limits.ts';
import type { FaultTree, TreeNode } from '../model/fault-tree.ts';
import type { InstrumentClass } from '../model/instrument-class.ts';
import type { Caution, Hazard, InstrumentFamily, Library, References, Setup } from '../model/library.ts';
import { cautionsOf, findNode, targetsOf } from '../model/node.ts';
import type { Limits, Target } from '../model/target.ts';

/**
 * What the engine and the reading field need of one tree, as JSON: the tree and what it refers to, with every sentence that the pages
 * show anyway left out. A field that is undefined is missing in the JSON; who reads it sees undefined again.
 */
export interface WalkData {
  /** `prose`, `record` and `substitutes` are empty. */
  readonly tree: FaultTree;
  readonly targets: readonly Target[];
  readonly setups: readonly Setup[];
  readonly hazards: readonly Hazard[];
  readonly instruments: readonly InstrumentFamily[];
  readonly cautions: readonly CautionHead[];
}

export type CautionHead = Pick<Caution, 'slug' | 'title' | 'severity' | 'line'>;

/** A tree with what it refers to. `references` holds what `WalkData` carries; its other maps are empty. */
export interface Walk {
  readonly tree: FaultTree;
  readonly references: References;
}

/** The data file of a tree, for its pages' scripts. */
export function makeWalkData(tree: FaultTree, library: Library): WalkData {
  const targets = new Set(tree.nodes.flatMap(targetsOf));
  const cautions = new Map(
    tree.nodes.flatMap((node) => cautionsOf(node, library)).map((caution) => [caution.slug, caution] as const),
  );
  return {
    tree: { ...tree, symptoms: [], nodes: tree.nodes.map(dropProse) },
    targets: [...targets]
      .flatMap((slug) => library.targets.get(slug) ?? [])
      .map((target) => ({ ...target, prose: [] })),
    setups: [...library.setups.values()].map((setup) => ({ ...setup, text: '' })),
    hazards: tree.hazards.flatMap((slug) => library.hazards.get(slug) ?? []),
    instruments: [...library.instruments.values()],
    cautions: [...cautions.values()].map(({ slug, title, severity, line }) => ({ slug, title, severity, line })),
  };
}

/** The inverse of `makeWalkData`, as maps; `classes` are those of the instruments' data file, where it was read. */
export function openWalkData(data: WalkData, classes: readonly InstrumentClass[] = []): Walk {
  const { targets, setups, hazards, instruments, cautions } = data;
  const whole = cautions.map((head): Caution => ({
    ...head,
    openLive: undefined,
    asks: undefined,
    text: '',
    actions: [],
    source: '',
    status: 'practice',
    prose: [],
  }));
  return {
    tree: data.tree,
    references: {
      targets: bySlug(targets),
      setups: bySlug(setups),
      hazards: bySlug(hazards),
      instruments: bySlug(instruments),
      instrumentClasses: bySlug(classes),
      cautions: bySlug(whole),
      blocks: new Map(),
      units: new Map(),
      points: new Map(),
      parts: new Map(),
      chips: new Map(),
      pictures: new Map(),
      signs: new Map(),
      sources: new Map(),
    },
  };
}

function bySlug<Item extends { readonly slug: string }>(items: readonly Item[]): ReadonlyMap<string, Item> {
  return new Map(items.map((item) => [item.slug, item]));
}

function dropProse(node: TreeNode): TreeNode {
  if (node.kind !== 'cause') return { ...node, prose: [] };
  const { confirm, repair, prove } = node;
  return {
    ...node,
    prose: [],
    confirm: confirm === undefined ? undefined : { ...confirm, prose: [] },
    repair: repair === undefined ? undefined : { ...repair, prose: [], record: [], substitutes: [] },
    prove: prove === undefined ? undefined : { ...prove, prose: [] },
  };
}

/** A tree as it stands on one bench: what it refers to, and the limits that the unit puts in place of the general ones. */
export interface BenchTree {
  readonly tree: FaultTree;
  readonly references: Pick<References, 'targets' | 'instrumentClasses'>;
  /** By slug of target. */
  readonly limits: Readonly<Record<string, Limits>>;
}

/** The target of a check, or of a stage of a path, with the unit's own limits; undefined where there is none. */
export function targetAt(bench: BenchTree, node: string, stage?: string): Target | undefined {
  const found = findNode(bench.tree, node);
  const slug =
    found?.kind === 'check'
      ? found.target?.target
      : found?.kind === 'path'
        ? found.stages.find(({ id }) => id === stage)?.target
        : undefined;
  return slug === undefined ? undefined : targetOn(slug, bench);
}

/** A target of the tree, with the limits of the unit and its bench. */
export function targetOn(slug: string, { references, limits }: BenchTree): Target | undefined {
  const target = references.targets.get(slug);
  const own = Object.hasOwn(limits, slug) ? limits[slug] : undefined;
  return target === undefined || own === undefined ? target : applyLimits(target, own);
}
