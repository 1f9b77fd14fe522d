import { type LinkState, mostAsked, readShare, reservedAnswers } from './answer.ts';
import type { TreeNode } from '../model/fault-tree.ts';
import { followLink } from '../model/node.ts';

/**
 * Where an answer in words leads from the node that was answered; undefined where it leaves the reader on the spot. A share of the tries
 * counts as `sometimes`; at a stage only `bad` leads on, and of a path as a whole only `good`.
 * @example followAnswer(path, 'amp-in', 'bad') // the fault of the stage `amp-in`
 */
export function followAnswer(node: TreeNode, stage: string | undefined, word: string): string | undefined {
  if (node.kind === 'check') return followLink(node, readShare(word) === undefined ? word : reservedAnswers.sometimes);
  if (stage === undefined) return word === 'good' ? followLink(node, word) : undefined;
  return word === 'bad' ? followLink(node, stage) : undefined;
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
