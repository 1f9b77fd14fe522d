import type { EventOf, LogEvent, PartStatus, RepairResult } from './event.ts';
import { sayAnswer } from '../answer/say.ts';
import { isWord, readAnswerValue } from '../answer/answer.ts';
import { closingWords } from './name-job.ts';
import { planProof } from './proof.ts';
import { reworkFaults } from './rework-faults.ts';

/** What happened, as plain text in two parts: a heading of a few words, and what there is to say. */
export interface EventText {
  readonly what: string;
  readonly detail: string;
}

/** What a unit or a test point is called, by its slug; the slug itself where nothing is known of it. */
export type NameSlug = (slug: string) => string;

/** An event in words, for the timeline, the job sheet and the post. Plain text: the printer escapes it. */
export function describeEvent(event: LogEvent, nameSlug: NameSlug = (slug) => slug): EventText {
  switch (event.kind) {
    case 'opened':
      return { what: 'Job opened', detail: event.symptom ?? '' };
    case 'unit':
      return {
        what: 'Unit',
        detail: join(
          event.maker,
          event.model,
          event.serial && `serial ${event.serial}`,
          event.revision && `revision ${event.revision}`,
          event.slug && nameSlug(event.slug),
          event.description,
        ),
      };
    case 'intake':
      return {
        what: 'Intake',
        detail: join(
          event.symptom,
          event.said && `the owner says: ${event.said}`,
          event.changed && `just before: ${event.changed}`,
          event.before && `earlier repairs: ${event.before}`,
          event.keep && `must not be lost: ${event.keep}`,
          event.mains && exposureWords[event.mains],
          event.plugged !== undefined && 'mains voltage and long storage settled before the plug went in',
          event.limitHours !== undefined && `time limit ${event.limitHours} h`,
          event.limitMoney && `budget ${event.limitMoney}`,
        ),
      };
    case 'point': {
      const named = nameSlug(event.point);
      const point = named === event.point ? spaced(named) : named;
      return { what: 'Own name of a point', detail: `${point}: ${event.name ?? 'taken away'}` };
    }
    case 'chip':
      return {
        what: 'Part of the unit',
        detail: `${spaced(event.chip)}: ${event.part === undefined ? 'not known any more' : spaced(event.part)}`,
      };
    case 'placement':
      return { what: 'Drawing of the boards', detail: describePlacement(event.placement) };
    case 'meter':
      return {
        what: 'Meter checked',
        detail: join(meterWords[event.check], event.reading, event.isGood ? 'pass' : 'fail'),
      };
    case 'answer':
      return {
        what: event.question ?? spaced(event.node),
        detail: join(sayEventAnswer(event), event.verdict, event.instrument && `with ${spaced(event.instrument)}`),
      };
    case 'repair':
      return {
        what: 'Repair done',
        detail: join(
          event.title ?? spaced(event.cause),
          event.part && `fitted: ${event.part}`,
          testedWords[event.tested],
        ),
      };
    case 'result':
      return { what: 'After the repair', detail: describeResult(event) };
    case 'rework':
      return {
        what: event.isFound ? 'Left by the repair' : 'Looked for, not found',
        detail: reworkFaults.find(({ id }) => id === event.fault)?.title ?? spaced(event.fault),
      };
    case 'part':
      return { what: 'Part', detail: join(event.name, partWords[event.status]) };
    case 'proof': {
      const planned = planProof(event.showing);
      const done = planned?.unit === 'time' ? 'once' : `${event.done} ${planned?.unit ?? 'times'}`;
      return { what: 'Proof', detail: join(done, event.isClean ? 'without the fault' : 'the fault showed again') };
    }
    case 'note':
      return { what: 'Note', detail: event.text };
    case 'photo':
      return { what: 'Photograph', detail: event.caption ?? '' };
    case 'waiting':
      return { what: 'Waiting', detail: event.what };
    case 'resumed':
      return { what: 'Resumed', detail: '' };
    case 'closed':
      return { what: 'Closed', detail: join(closingWords[event.how], event.summary) };
    case 'undo':
      return { what: 'Undone', detail: '' };
  }
}

function describePlacement(placement: EventOf<'placement'>['placement']): string {
  if (placement === undefined) return 'taken away';
  const say = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;
  const parts = placement.boards.reduce((sum, board) => sum + board.parts.length, 0);
  return `${say(parts, 'part')}, ${say(Object.keys(placement.points).length, 'test point')}`;
}

export const partWords: Readonly<Record<PartStatus, string>> = {
  wanted: 'wanted',
  ordered: 'ordered',
  arrived: 'arrived, not tested yet',
  'tested-good': 'tested good, may be fitted',
  'tested-bad': 'tested bad, not to be fitted',
  'not-to-be-had': 'unobtainable',
};

export const exposureWords = {
  outside: 'mains outside the case',
  'inside-covered': 'mains inside, covered',
  'inside-bare': 'mains inside, tags bare',
  unknown: 'not known where the mains is: taken as inside and bare',
} as const;

export const meterWords = {
  'leads-shorted': 'leads shorted, ohms',
  'fresh-cell': 'a fresh cell, dc volts',
  'known-part': 'a part of known value',
} as const;

/** What came of a repair; for a cure by disturbance also what was touched, and that nothing is proved by it. */
export function describeResult(event: EventOf<'result'>): string {
  return join(resultWords[event.result], event.result === 'cured-by-disturbance' && describeTouched(event));
}

/** What was disturbed: `reseated, cleaned: plug J4`. */
export function describeTouched({ acts = [], touched }: Pick<EventOf<'result'>, 'acts' | 'touched'>): string {
  return [acts.join(', '), touched ?? ''].filter((text) => text !== '').join(': ');
}

const resultWords: Readonly<Record<RepairResult, string>> = {
  cured: 'repaired',
  'cured-by-disturbance': 'works after a disturbance, the cause is not proved',
  same: 'the same as before',
  worse: 'worse or different',
};

const testedWords = {
  yes: 'the new part was tested before fitting',
  no: 'the new part was not tested before fitting',
  'no-part': undefined,
} as const;

function spaced(slug: string): string {
  return slug.replaceAll('-', ' ');
}

function join(...parts: readonly (string | false | undefined)[]): string {
  return parts.filter((part) => typeof part === 'string' && part !== '').join('; ');
}

/**
 * An answer as its page said it: the words of the button that was pressed, where the log holds them, else the bare word or the reading
 * with its unit. What was read comes behind the words.
 * @example sayEventAnswer({ …, value: 'none', said: 'No more than expected' }) // 'No more than expected'
 */
export function sayEventAnswer({
  tree,
  node,
  stage,
  value,
  said,
}: Pick<EventOf<'answer'>, 'tree' | 'node' | 'stage' | 'value' | 'said'>): string {
  const answer = readAnswerValue(value) ?? { value };
  if (said === undefined) return sayAnswer({ tree, node, stage, ...answer });
  // A reading, or several that were computed into one: their page said all of it. Where words are in the log, the question names the stage.
  if (!isWord(answer.value)) return said;
  const bare = { tree, node, stage: undefined, value: answer.value };
  return said + sayAnswer({ ...bare, ...answer }).slice(sayAnswer(bare).length);
}
