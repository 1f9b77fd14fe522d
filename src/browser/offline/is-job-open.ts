import { holdsAnswers } from '#core/offline/holds-answers.ts';

const jobKey = 'halfsplit.job-open';

/**
 * Whether a diagnosis is under way here: this address carries answers, or the bench log has set `halfsplit.job-open`
 * in localStorage. Where storage is refused, only the address counts.
 */
export function isJobOpen(): boolean {
  return holdsAnswers(location.hash) || isNoted();
}

function isNoted(): boolean {
  try {
    return localStorage.getItem(jobKey) !== null;
  } catch {
    return false;
  }
}
