import type { Cause, Check, FaultTree, HandOverReason, Outcome, SignalPath, TreeNode } from './fault-tree.ts';
import { type Caution, type Library, type References, severities } from './library.ts';
import { listParagraphs } from './prose.ts';
import { isTransformer } from './supply.ts';
import type { Target } from './target.ts';

/** One way on from a node: the words that lead there, where it leads, and which part of the node says so. */
export interface Link {
  readonly from: string;
  readonly to: string;
  /** Outcome words, a stage's id, or `good`. */
  readonly words: readonly string[];
  /** Title of the stage, where one leads there. */
  readonly title?: string;
  /** Key of the part within the node: `outcome/0@to`, `stage/<id>@fault`, `@good`. */
  readonly part: string;
}

/** Whether a node is something to do: a check or a signal path; else it is an end. */
export function isStep(node: TreeNode | undefined): node is Check | SignalPath {
  return node?.kind === 'check' || node?.kind === 'path';
}

/** All ways on from a node, in the order of the file. Ends have none. */
export function linksFrom(node: TreeNode): readonly Link[] {
  if (node.kind === 'check') {
    return node.outcomes.map(({ when, to }, index) => ({
      from: node.id,
      to,
      words: when,
      part: `/outcome/${index}@to`,
    }));
  }
  if (node.kind !== 'path') return [];
  return [
    ...node.stages.map(({ id, title, fault }) => ({
      from: node.id,
      to: fault,
      words: [id],
      title,
      part: `/stage/${id}@fault`,
    })),
    { from: node.id, to: node.good, words: ['good'], part: '@good' },
  ];
}

/** All nodes of a tree with their ways on. */
export function waysOf(tree: FaultTree): readonly { readonly id: string; readonly links: readonly Link[] }[] {
  return tree.nodes.map((node) => ({ id: node.id, links: linksFrom(node) }));
}

/** The node with that id, or undefined. */
export function findNode(tree: FaultTree, id: string): TreeNode | undefined {
  return tree.nodes.find((node) => node.id === id);
}

/** Ids of all nodes that can be reached from `start`, itself included, by the links that `passes` lets through; all where left out. */
export function reachableFrom(
  tree: FaultTree,
  start: string,
  passes: (node: TreeNode, link: Link) => boolean = () => true,
): ReadonlySet<string> {
  const seen = new Set<string>();
  const open = [start];
  while (open.length > 0) {
    const id = open.pop();
    if (id === undefined || seen.has(id)) continue;
    const node = findNode(tree, id);
    if (node === undefined) continue;
    seen.add(id);
    open.push(
      ...linksFrom(node)
        .filter((link) => passes(node, link))
        .map(({ to }) => to),
    );
  }
  return seen;
}

/** Ids of all nodes that can be reached from where a tree begins. */
export function reachableFromStart(
  tree: FaultTree,
  passes?: (node: TreeNode, link: Link) => boolean,
): ReadonlySet<string> {
  return reachableFrom(tree, tree.nodes[0]?.id ?? '', passes);
}

/** Ids of the checks and paths that must come before a step (`after`), theirs included; in the order of the file. */
export function checksBefore(tree: FaultTree, step: Check | SignalPath): readonly string[] {
  const found = new Set<string>();
  const open = [...step.after];
  while (open.length > 0) {
    const id = open.pop();
    const node = tree.nodes.find((candidate) => candidate.id === id);
    if (id === undefined || found.has(id) || !isStep(node)) continue;
    found.add(id);
    open.push(...node.after);
  }
  return tree.nodes.filter(({ id }) => found.has(id) && id !== step.id).map(({ id }) => id);
}

/** Links that arrive at a node, in the order of the file. */
export function linksTo(tree: FaultTree, id: string): readonly Link[] {
  return tree.nodes.flatMap(linksFrom).filter(({ to }) => to === id);
}

const grave: ReadonlySet<HandOverReason> = new Set(['mains', 'licensed', 'picture-tube', 'switch-mode']);

/** Whether a node ends the road because going on could hurt: while an answer that leads there stands, no other step of the tree is taken. */
export function isHandOverForSafety(node: TreeNode): boolean {
  return node.kind === 'hand-over' && grave.has(node.because);
}

/** An end where the unit does what it was made to do. */
export function isHealthyEnd(node: TreeNode): boolean {
  return node.kind === 'hand-over' && node.because === 'not-a-fault';
}

/** A stage and every stage that feeds it. */
export function stagesUpTo(path: SignalPath, id: string): ReadonlySet<string> {
  const found = new Set<string>();
  const open = [id];
  while (open.length > 0) {
    const next = open.pop();
    const stage = path.stages.find((candidate) => candidate.id === next);
    if (next === undefined || stage === undefined || found.has(next)) continue;
    found.add(next);
    open.push(...stage.from);
  }
  return found;
}

/** What an answer tells of one stage of a signal path: the signal is good there, or bad. */
export interface StageTold {
  readonly path: string;
  readonly stage: string;
  readonly isGood: boolean;
}

/** What an outcome tells of stages by `says-before` and `says-after`; nothing where it has neither. */
export function stagesToldBy({ saysBefore, saysAfter }: Outcome): readonly StageTold[] {
  const tell = (place: string | undefined, isGood: boolean): readonly StageTold[] => {
    const [path = '', stage = ''] = place?.split('/') ?? [];
    return place === undefined ? [] : [{ path, stage, isGood }];
  };
  return [...tell(saysBefore, false), ...tell(saysAfter, true)];
}

/** What a word tells of the stages of signal paths: read at a stage (`in` or `bad`), or told by an outcome of a check. */
export function stagesTold(node: TreeNode, stage: string | undefined, word: string): readonly StageTold[] {
  if (node.kind === 'check')
    return node.outcomes.filter(({ when }) => when.includes(word)).flatMap((outcome) => stagesToldBy(outcome));
  if (stage === undefined || (word !== 'in' && word !== 'bad')) return [];
  return [{ path: node.id, stage, isGood: word === 'in' }];
}

/** Words that answer a reading of this target, lowest band first. */
export function wordsOfTarget(target: Target): readonly string[] {
  return [...target.bands.map(({ name }) => name), ...target.words];
}

/** All words that may answer a check, `sometimes` aside, which may answer any. */
export function wordsOfCheck(check: Check): readonly string[] {
  return check.outcomes.flatMap(({ when }) => when);
}

/**
 * Cautions that a page must show before a node's instruction, the gravest first:
 * those the author placed, those of its set-ups, and `mains` for every powered step,
 * because any link may lead straight to it and the unit may hold its own supply.
 * A cause that is confirmed or proved by a reading with power on is such a step too,
 * and where that reading may be taken with a scope it carries `scope-ground`.
 */
export function cautionsOf(node: TreeNode, references: References): readonly Caution[] {
  const isPowered = isStep(node) && node.power === 'on';
  const slugs = new Set([
    ...(isPowered ? ['mains'] : []),
    ...(node.kind === 'cause' ? cautionsOfReadings(node, references) : []),
    ...node.cautions,
    ...needsOf(node).flatMap((setup) => references.setups.get(setup)?.cautions ?? []),
  ]);
  return [...slugs]
    .map((slug) => references.cautions.get(slug))
    .filter((caution) => caution !== undefined)
    .toSorted((a, b) => severities.indexOf(a.severity) - severities.indexOf(b.severity));
}

function cautionsOfReadings(cause: Cause, references: References): readonly string[] {
  return liveReadings(cause, references).flatMap(({ instruments }) =>
    instruments.includes('oscilloscope') ? ['mains', 'scope-ground'] : ['mains'],
  );
}

/**
 * Whether a step or cause is reached without an answer that the supply is switch-mode: a unit whose file says that it has a
 * transformer needs no caution about switch-mode supplies there.
 */
export function isBeforeSwitchMode(tree: FaultTree, node: TreeNode): boolean {
  if (node.kind === 'hand-over' || node.kind === 'elsewhere') return false;
  const says = ({ supply }: Outcome): boolean => supply.length > 0 && !supply.some(isTransformer);
  return reachableFromStart(
    tree,
    (from, { words }) => from.kind !== 'check' || !from.outcomes.some((one) => one.when === words && says(one)),
  ).has(node.id);
}

/** Slugs of the set-ups a node needs: a step's own, a cause's for its repair. */
export function needsOf(node: TreeNode): readonly string[] {
  if (isStep(node)) return node.needs;
  return node.kind === 'cause' ? (node.repair?.needs ?? []) : [];
}

/** Quantities that a circuit shows with its power off; a ratio may be either, so its author says. */
const readWithoutPower: ReadonlySet<string> = new Set(['resistance', 'capacitance', 'diode-test', 'ratio']);

/** The targets by which a cause is confirmed or proved, and which are read with power on. */
export function liveReadings({ confirm, prove }: Cause, { targets }: Pick<References, 'targets'>): readonly Target[] {
  return [...(confirm?.targets ?? []), ...(prove?.targets ?? [])].flatMap(({ target: slug }) => {
    const target = targets.get(slug);
    return target === undefined || readWithoutPower.has(target.quantity) ? [] : [target];
  });
}

/** Whether a step, or every reading of a cause with power on, can be made with another instrument than a scope. */
export function isDoneWithoutScope(node: TreeNode, references: Pick<References, 'targets'>): boolean {
  const readings = node.kind === 'cause' ? liveReadings(node, references) : isStep(node) ? [node] : [];
  return readings.every(({ instruments }) => instruments.some((slug) => slug !== 'oscilloscope'));
}

/** Set-ups that cannot be made with the case closed. */
const opening: ReadonlySet<string> = new Set(['case-open', 'board-out', 'board-disconnected', 'chips-out']);

/** Whether a step, or the repair of a cause, is done with the case open. */
export function opensCase(node: TreeNode): boolean {
  return needsOf(node).some((setup) => opening.has(setup));
}

/** Whether hands come near an open unit with power on: a powered step, or a cause with readings taken so, whose set-ups open the case. */
export function isOpenLive(node: TreeNode, references: Pick<References, 'targets'>): boolean {
  const isLive =
    node.kind === 'cause' ? liveReadings(node, references).length > 0 : isStep(node) && node.power === 'on';
  return isLive && opensCase(node);
}

export interface Use {
  readonly tree: FaultTree;
  readonly node: TreeNode;
}

/** Slugs of every target that a node shows, each once. */
export function targetsOf(node: TreeNode): readonly string[] {
  const uses =
    node.kind === 'check'
      ? [node.target]
      : node.kind === 'cause'
        ? [...(node.confirm?.targets ?? []), ...(node.repair?.targets ?? []), ...(node.prove?.targets ?? [])]
        : [];
  const stages = node.kind === 'path' ? node.stages.map(({ target }) => target) : [];
  return [...new Set([...uses.map((use) => use?.target), ...stages])].filter((slug) => slug !== undefined);
}

/** Nodes of all trees that show a target. */
export function usesOfTarget(library: Library, slug: string): readonly Use[] {
  return findUses(library, (node) => targetsOf(node).includes(slug));
}

/** Nodes of all trees that carry a caution. */
export function usesOfCaution(library: Library, slug: string): readonly Use[] {
  return findUses(library, (node) => cautionsOf(node, library).some((caution) => caution.slug === slug));
}

function findUses(library: Library, isUse: (node: TreeNode) => boolean): readonly Use[] {
  return [...library.trees.values()].flatMap((tree) => tree.nodes.filter(isUse).map((node) => ({ tree, node })));
}

/** Title and description of a node's page, as a search engine or a forum's preview shows them. */
export function describeNode(
  tree: FaultTree,
  node: TreeNode,
): { readonly title: string; readonly description: string } {
  const first = listParagraphs(node.prose)[0] ?? tree.summary;
  return {
    title: `${node.title} · ${tree.title}`,
    description: shorten(`${tree.title}. ${node.title} ${first}`, 200),
  };
}

/** The text, cut at a word before `longest` characters. */
export function shorten(text: string, longest: number): string {
  if (text.length <= longest) return text;
  const cut = text.slice(0, longest - 1);
  return `${cut.slice(0, Math.max(cut.lastIndexOf(' '), 1))}…`;
}

/** Plain text of all that a node says, its parts included, in the order of the page: each paragraph and list item. */
export function nodeProse(node: TreeNode): readonly string[] {
  if (node.kind !== 'cause') return listParagraphs(node.prose);
  const { repair } = node;
  return [
    ...listParagraphs(node.prose),
    ...listParagraphs(node.confirm?.prose ?? []),
    ...listParagraphs([...(repair?.record ?? []), ...(repair?.prose ?? [])]),
    ...(repair?.substitutes ?? []).flatMap(({ prose, test }) => [...listParagraphs(prose), test]),
    ...listParagraphs(node.prove?.prose ?? []),
  ];
}
