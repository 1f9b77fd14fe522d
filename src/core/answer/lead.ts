import { type Answer, type LinkState, isWord, mostAsked, readShare, reservedAnswers } from './answer.ts';

/** A node with its ways on, as the map in a page and the tree itself (`waysOf`) both hold them. */
export interface NodeWays {
  readonly id: string;
  readonly links: readonly Way[];
}

/** The words that lead on, and where they lead. */
export interface Way {
  /** Outcome words of a check; of a path the id of a stage, or `good`. */
  readonly words: readonly string[];
  /** Title of the stage of a path. */
  readonly title?: string;
  readonly to: string;
}

/** The word that an answer comes to. Without the tree's data a reading comes to none; with it, `decideWord` judges it. */
export type DecideWord = (answer: Answer) => string | undefined;

/**
 * Where an answer in words leads from the node that was answered; undefined where it leaves the reader on the spot. A share of the tries
 * counts as `sometimes`. A stage that is `bad` leads to its fault; so does a path answered by the id of a stage, which says that this is
 * the first bad one. A path that is `good` leads to its own way on.
 * @example followAnswer(linksFrom(path), 'amp-in', 'bad') === followAnswer(linksFrom(path), undefined, 'amp-in')
 */
export function followAnswer(links: readonly Way[], stage: string | undefined, word: string): string | undefined {
  if (stage !== undefined && word !== 'bad') return undefined;
  const said = stage ?? (readShare(word) === undefined ? word : reservedAnswers.sometimes);
  return links.find(({ words }) => words.includes(said))?.to;
}

/** Where an answer of this tree leads; undefined for one of another tree, and where it leaves the reader on the spot. */
export function leadsTo(answer: Answer, nodes: readonly NodeWays[], decide: DecideWord = findWord): string | undefined {
  const word = answer.tree === undefined ? decide(answer) : undefined;
  const links = nodes.find(({ id }) => id === answer.node)?.links;
  return word === undefined || links === undefined ? undefined : followAnswer(links, answer.stage, word);
}

function findWord({ value }: Answer): string | undefined {
  return isWord(value) ? value : undefined;
}

/** Where to go after an answer that `state` holds already: to the next check that the link asks for, else where the answer leads. */
export function nextAfter(
  answer: Answer,
  state: LinkState,
  nodes: readonly NodeWays[],
  decide?: DecideWord,
): string | undefined {
  return findNextAsked(state, answer.node) ?? leadsTo(answer, nodes, decide);
}

/** Checks that a link asks for, each once, in the order of asking. */
export function askedChecks(state: LinkState): readonly string[] {
  return [...new Set(state.ask)];
}

/** Asked checks without an answer yet. */
export function openAsked(state: LinkState): readonly string[] {
  const answered = new Set(state.answers.filter(({ tree }) => tree === undefined).map(({ node }) => node));
  return askedChecks(state).filter((id) => !answered.has(id));
}

/**
 * Where an answer to the check `here` leads while a link asks: to the next asked check without an answer, the ones behind it
 * first; back to `here` after the last; undefined where `here` was not asked, which leaves the way to the tree.
 * `state` holds the answer to `here` already.
 */
export function findNextAsked(state: LinkState, here: string): string | undefined {
  const asked = askedChecks(state);
  const at = asked.indexOf(here);
  if (at < 0) return undefined;
  const open = new Set(openAsked(state));
  return [...asked.slice(at + 1), ...asked.slice(0, at)].find((id) => open.has(id)) ?? here;
}

/** The state that asks for `checks`, at most five: what is asked again is no evidence, so earlier answers to it are left out. */
export function withAsked(state: LinkState, checks: readonly string[], carriesEvidence: boolean): LinkState {
  const asked = [...new Set(checks)].slice(0, mostAsked);
  const isKept = ({ tree, node }: { readonly tree: string | undefined; readonly node: string }): boolean =>
    carriesEvidence && (tree !== undefined || !asked.includes(node));
  return { ...state, answers: state.answers.filter(isKept), did: carriesEvidence ? state.did : [], ask: asked };
}
