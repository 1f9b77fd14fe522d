import type { FaultTree } from '#core/model/fault-tree.ts';
import type { OwnedPhrase } from './rule.ts';

/** The symptom phrases of one tree, each with its place in the file. */
export function listPhrases(file: string, tree: Pick<FaultTree, 'symptoms'>): readonly OwnedPhrase[] {
  return tree.symptoms.map((phrase, index) => ({ file, key: `front/symptoms/${index}`, phrase }));
}
