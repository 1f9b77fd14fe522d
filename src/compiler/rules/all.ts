import { addressLives } from './address-lives.ts';
import { answersLast } from './answers-last.ts';
import { blockFolder } from './block-folder.ts';
import { causeComplete } from './cause-complete.ts';
import { causesSeparated } from './causes-separated.ts';
import { cautionFirst } from './caution-first.ts';
import { checkSeparates } from './check-separates.ts';
import { computedFits } from './computed-fits.ts';
import { compelledCautions } from './compelled-cautions.ts';
import { dischargeAgain } from './discharge-again.ts';
import { forbiddenAdvice } from './forbidden-advice.ts';
import { handOverPresent } from './hand-over-present.ts';
import { hazardCautioned } from './hazard-cautioned.ts';
import { honestSource } from './honest-source.ts';
import { instrumentJudges } from './instrument-judges.ts';
import { knownLinks } from './known-links.ts';
import { knownNodes } from './known-nodes.ts';
import { knownSlugs } from './known-slugs.ts';
import { lesserInstrument } from './lesser-instrument.ts';
import { limitsAgree } from './limits-agree.ts';
import { newPartTested } from './new-part-tested.ts';
import { noCycle } from './no-cycle.ts';
import { outcomesComplete } from './outcomes-complete.ts';
import { pathComplete } from './path-complete.ts';
import { namesButton } from './names-button.ts';
import { calmWords, noMakers, plainWords } from './plain-words.ts';
import { proseNumber } from './prose-number.ts';
import { quantityUnit } from './quantity-unit.ts';
import { reachableNodes } from './reachable-nodes.ts';
import { recordFirst } from './record-first.ts';
import type { Rule } from './rule.ts';
import { sentenceLength } from './sentence-length.ts';
import { showsKnown } from './shows-known.ts';
import { startsWithCheck } from './starts-with-check.ts';
import { supplyHighBand } from './supply-high-band.ts';
import { symptomsEnough } from './symptoms-enough.ts';
import { symptomsOwned } from './symptoms-owned.ts';
import { templateWords } from './template-words.ts';
import { thesaurusNames } from './thesaurus-names.ts';
import { thesaurusUsed } from './thesaurus-used.ts';
import { wasChain } from './was-chain.ts';

/** Every rule, group by group, in the order of the reference. */
export const allRules: readonly Rule[] = [
  knownNodes,
  showsKnown,
  startsWithCheck,
  blockFolder,
  reachableNodes,
  noCycle,
  outcomesComplete,
  pathComplete,
  knownSlugs,
  quantityUnit,
  computedFits,
  limitsAgree,
  proseNumber,
  honestSource,
  instrumentJudges,
  cautionFirst,
  answersLast,
  compelledCautions,
  hazardCautioned,
  dischargeAgain,
  forbiddenAdvice,
  handOverPresent,
  recordFirst,
  supplyHighBand,
  symptomsEnough,
  symptomsOwned,
  causeComplete,
  newPartTested,
  lesserInstrument,
  causesSeparated,
  checkSeparates,
  templateWords,
  sentenceLength,
  namesButton,
  plainWords,
  noMakers,
  calmWords,
  thesaurusNames,
  thesaurusUsed,
  addressLives,
  wasChain,
  knownLinks,
];
