/** Why a text is no reading, with the sentence that stands beside the field. What was typed stays there. */
export interface ReadingProblem {
  readonly code: ReadingProblemCode;
  readonly message: string;
}

export type ReadingProblemCode =
  | 'empty'
  | 'too-long'
  | 'not-a-number'
  | 'two-decimal-signs'
  | 'too-many-digits'
  | 'too-large'
  | 'too-small'
  | 'unknown-unit'
  | 'unlikely-prefix'
  | 'wrong-unit'
  | 'negative'
  | 'over-range'
  | 'not-for-this-instrument';
