import { isRecord, readRecord } from './read-record.ts';

/** A finished repair as far as a tree can begin from it: what was seen, done and found, in the person's own words. */
export interface RepairSeed {
  readonly title: string;
  readonly symptom: string;
  /** Checks in the order they were done, each with what was found. */
  readonly steps: readonly { readonly title: string; readonly said: string }[];
  readonly cause: string;
  readonly repair: string;
  readonly proof: string;
}

const mostSteps = 40;
const mostCharacters = 1_000;

/**
 * Reads a repair that another page left in storage. The text is hostile until it has been read: undefined where it is not
 * of that shape; at most 40 steps and 1,000 characters a field are kept.
 */
export function readRepairSeed(text: string): RepairSeed | undefined {
  const value = readRecord(text);
  if (value === undefined) return undefined;
  const steps = value['steps'];
  if (!Array.isArray(steps)) return undefined;
  const [title, symptom, cause, repair, proof] = ['title', 'symptom', 'cause', 'repair', 'proof'].map((name) =>
    readText(value[name]),
  );
  if (title === undefined || symptom === undefined) return undefined;
  return {
    title,
    symptom,
    steps: steps.slice(0, mostSteps).flatMap((step: unknown) => {
      if (!isRecord(step)) return [];
      const [name, said] = [readText(step['title']), readText(step['said'])];
      return name === undefined ? [] : [{ title: name, said: said ?? '' }];
    }),
    cause: cause ?? '',
    repair: repair ?? '',
    proof: proof ?? '',
  };
}

function readText(value: unknown): string | undefined {
  return typeof value === 'string' ? value.slice(0, mostCharacters) : undefined;
}
