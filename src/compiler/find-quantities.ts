import { type MeasureUnit, findUnit } from '#core/quantity/unit.ts';

/** A number with its unit as it stands in a sentence; `to` where it is a range. */
export interface QuotedQuantity {
  readonly from: number;
  readonly to: number | undefined;
  readonly unit: MeasureUnit;
  /** As written. */
  readonly text: string;
  /** Where it begins in the sentence. */
  readonly index: number;
}

const written =
  /(?<![\w.,−-])([−-]?\d+(?:\.\d+)?)(?:\s+(?:to|and)\s+([−-]?\d+(?:\.\d+)?))?\s*(m?V(?:\s?(?:rms|ac)|pp)?|[kMm]?(?:Ω|ohms?)|[µunp]F|[kM]?Hz|[mµu]?s|%|°C|ppm|[mµu]?A)(?![\w/])/gu;

/** Every number with a unit in a sentence: `4.75 to 5.25 V`, `50 mVpp`. Numbers without a unit are none. */
export function findQuantities(sentence: string): readonly QuotedQuantity[] {
  return [...sentence.matchAll(written)].flatMap((match) => {
    const [text, from = '', to, unitText = ''] = match;
    const unit = findUnit(unitText);
    return unit === undefined
      ? []
      : [{ from: readNumber(from), to: to === undefined ? undefined : readNumber(to), unit, text, index: match.index }];
  });
}

function readNumber(text: string): number {
  return Number(text.replace('−', '-'));
}
