import { findOpenJob } from '../open-job.ts';
import { forgetNoted, listNoted, readNoted } from './noted-walks.ts';
import { recordWalk } from './record-walk.ts';
import { withLock } from './with-lock.ts';

/** How long a page waits for another that is writing: one that the system has frozen must not stop all others. */
const waitMilliseconds = 5000;

/**
 * Writes a noted walk into the log, then forgets the note; gives back the job's id. One tab at a time, so that no answer is written
 * twice where another page has found the note too.
 */
export async function recordNoted(key: string): Promise<string> {
  const write = async (): Promise<string> => {
    const noted = readNoted(key);
    if (noted === undefined) return findOpenJob()?.id ?? '';
    const { walked, isNew, at } = noted;
    const id = await recordWalk({ ...walked, isFirst: walked.isFirst || isNew }, isNew, at);
    forgetNoted(key);
    return id;
  };
  return withLock('halfsplit.walk', write, waitMilliseconds);
}

/** Writes what earlier pages could not finish. A note that cannot be written stays for the next page. */
export async function recordLeftOver(): Promise<void> {
  for (const key of listNoted()) await recordNoted(key).catch(() => undefined);
}
