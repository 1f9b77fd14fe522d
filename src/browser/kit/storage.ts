/**
 * Everything that this site keeps in the browser: where, under which key, and what. `local` is kept for all tabs, `session` for this
 * tab alone. A key that ends in a point is one of many; the name of the one follows.
 */
const places = {
  /** Id of the open job. */
  jobOpen: ['local', 'halfsplit.job-open'],
  /** What every page has to know of it at once (core job-brief.ts), as JSON. */
  jobBrief: ['local', 'halfsplit.job-brief'],
  /** The job that the reader saw to be the open one in this tab. */
  jobHere: ['session', 'halfsplit.job-here'],
  /** Whether a tree is about the unit of a job, as the reader said or has yet to say: `job tree same` or `job tree ask`, one a line. */
  treeUnits: ['session', 'halfsplit.tree-units'],
  /** At most three jobs for the first page, as JSON. */
  recentJobs: ['local', 'halfsplit.recent-jobs'],
  /** One press on its way into the log, as JSON. */
  note: ['local', 'halfsplit.note.'],
  /** Events that the database did not take, as JSON. */
  heldEvents: ['session', 'halfsplit.log-held'],
  /** Answers that presses of this tab took back, one a line. */
  takenBack: ['session', 'halfsplit.taken-back'],
  /** Marks of the cautions known and of the set-ups told, separated by blanks. */
  marks: ['session', 'halfsplit.marks'],
  /** Whose they are: what `mains` names a unit by, a blank, and the slug of a unit chosen. */
  marksOf: ['session', 'halfsplit.marks-of'],
  /** Where the mains of the unit is, and behind a blank which unit: id of its job, or before there is one `tree:` and the tree. */
  mains: ['session', 'halfsplit.mains'],
  /** Chips that the reader named before a job began, as JSON: the unit (as in `mains`), and chip to part. */
  chips: ['session', 'halfsplit.chips'],
  /** A drawing of boards that was not saved yet, by its job, as JSON. */
  boardDraft: ['local', 'halfsplit.board-draft.'],
  /** The person's own instruments and mains frequency, as JSON. */
  bench: ['local', 'halfsplit.bench'],
  /** The instrument that was chosen last. */
  instrument: ['local', 'halfsplit.instrument'],
  /** The format of posts that was chosen last. */
  postFormat: ['local', 'halfsplit.post.format'],
  /** What the owner says, one field of the post each. */
  postWords: ['session', 'halfsplit.post.'],
  /** The offer of a new version was put off. */
  versionLater: ['session', 'halfsplit.new-version-later'],
  /** A draft of a tree, by its name. */
  draft: ['local', 'halfsplit.draft.'],
  /** Name of the draft that was open last. */
  draftOpen: ['local', 'halfsplit.draft-open'],
  /** Drafts that were replaced, as JSON. */
  draftPrevious: ['local', 'halfsplit.draft-previous'],
  /** A finished repair for the drafting page, as JSON. */
  draftSeed: ['session', 'halfsplit.draft-seed'],
} as const;

export type Kept = keyof typeof places;

/** What the browser refused: remembered until the page is left. */
const refused = new Map<string, string>();

/** What is kept, or undefined. `name` says which one of many. */
export function read(kept: Kept, name = ''): string | undefined {
  const key = keyOf(kept, name);
  try {
    return refused.get(key) ?? storageOf(kept).getItem(key) ?? undefined;
  } catch {
    return refused.get(key);
  }
}

/** Keeps a text, or takes it away. Where the browser refuses, it is remembered until the page is left; false says so. */
export function write(kept: Kept, text: string | undefined, name = ''): boolean {
  const key = keyOf(kept, name);
  refused.delete(key);
  try {
    if (text === undefined) storageOf(kept).removeItem(key);
    else storageOf(kept).setItem(key, text);
    return true;
  } catch {
    if (text !== undefined) refused.set(key, text);
    return false;
  }
}

/** Whether the browser keeps anything there after the page is left. */
export function canKeep(kept: Kept): boolean {
  const key = keyOf(kept, 'try');
  try {
    storageOf(kept).setItem(key, '');
    storageOf(kept).removeItem(key);
    return true;
  } catch {
    return false;
  }
}

/** Names of those that are kept of many, in the order of the alphabet. */
export function listNames(kept: Kept): readonly string[] {
  const prefix = keyOf(kept, '');
  let keys = [...refused.keys()];
  try {
    keys = [...new Set([...keys, ...Object.keys(storageOf(kept))])];
  } catch {
    // What the browser refused is all there is.
  }
  return keys.flatMap((key) => (key.startsWith(prefix) ? [key.slice(prefix.length)] : [])).sort();
}

/** The key as the browser knows it, by which a tab hears that another one changed it. */
export function keyOf(kept: Kept, name = ''): string {
  return places[kept][1] + name;
}

function storageOf(kept: Kept): Storage {
  return places[kept][0] === 'local' ? localStorage : sessionStorage;
}
