import { causeComplete } from './cause-complete.ts';
import { cautionFirst } from './caution-first.ts';
import { compelledCautions } from './compelled-cautions.ts';
import { dischargeAgain } from './discharge-again.ts';
import { forbiddenAdvice } from './forbidden-advice.ts';
import { hazardCautioned } from './hazard-cautioned.ts';
import { knownNodes } from './known-nodes.ts';
import { knownSlugs } from './known-slugs.ts';
import { noCycle } from './no-cycle.ts';
import { outcomesComplete } from './outcomes-complete.ts';
import { pathComplete } from './path-complete.ts';
import { reachableNodes } from './reachable-nodes.ts';
import type { Rule } from './rule.ts';
import { sentenceLength } from './sentence-length.ts';
import { showsKnown } from './shows-known.ts';
import { startsWithCheck } from './starts-with-check.ts';
import { symptomsOwned } from './symptoms-owned.ts';
import { thesaurusNames } from './thesaurus-names.ts';
import { thesaurusUsed } from './thesaurus-used.ts';

/** Every rule, structure first, then safety, then substance and language. */
export const allRules: readonly Rule[] = [
  knownNodes,
  knownSlugs,
  showsKnown,
  startsWithCheck,
  reachableNodes,
  noCycle,
  outcomesComplete,
  pathComplete,
  cautionFirst,
  compelledCautions,
  hazardCautioned,
  dischargeAgain,
  forbiddenAdvice,
  causeComplete,
  symptomsOwned,
  sentenceLength,
  thesaurusNames,
  thesaurusUsed,
];
