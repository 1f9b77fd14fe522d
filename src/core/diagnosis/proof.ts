/** A claim "it is cured" is made at this confidence unless another is asked for. */
export const defaultConfidence = 0.95;

/**
 * Hours to run without the fault before an intermittent one counts as cured: −ln(1 − confidence) × mean hours between showings.
 * If it still came at random every `meanHours`, so long a silence would have a probability of 1 − confidence.
 * At 95 % the factor is 2.996, the "rule of three" (zero-failure test for a Poisson process; Hanley and Lippman-Hand 1983, from memory).
 * Undefined for a mean that is not above 0 or a confidence outside (0, 1).
 * @example countProofHours(2) // 5.991464547107982
 */
export function countProofHours(meanHours: number, confidence: number = defaultConfidence): number | undefined {
  if (!(meanHours > 0 && Number.isFinite(meanHours) && confidence > 0 && confidence < 1)) return undefined;
  return -Math.log(1 - confidence) * meanHours;
}

/**
 * Clean starts in a row before a fault seen in `seen` of `starts` starts counts as cured: ln(1 − confidence) / ln(1 − seen / starts),
 * rounded up (zero-failure test for a binomial). At least 1; 1 where it was seen at every start.
 * Undefined where it was never seen, or for numbers that are no counts: nothing can be proved then.
 * @example countProofStarts(1, 5) // 14
 */
export function countProofStarts(
  seen: number,
  starts: number,
  confidence: number = defaultConfidence,
): number | undefined {
  if (!(seen > 0 && seen <= starts && Number.isFinite(starts) && confidence > 0 && confidence < 1)) return undefined;
  if (seen === starts) return 1;
  return Math.max(1, Math.ceil(Math.log(1 - confidence) / Math.log(1 - seen / starts)));
}
