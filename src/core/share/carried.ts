import { parseLinkState, type Answer } from './link-state.ts';

/** Answers in a fragment that name their tree, whatever tree that is: for pages that belong to none. */
export function parseCarried(fragment: string): readonly (Answer & { readonly tree: string })[] {
  const named = [...fragment.matchAll(/(?:^#?|&)([a-z0-9-]{1,40})\//g)].map(([, tree = '']) => tree);
  const { state } = parseLinkState(fragment, { nodes: new Map(), trees: new Set(named), units: new Set() });
  return state.answers.flatMap((answer) => (answer.tree === undefined ? [] : [{ ...answer, tree: answer.tree }]));
}
