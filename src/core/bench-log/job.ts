import type { MainsExposure } from '../model/library.ts';
import type { EventOf, LogEvent, PartStatus } from './event.ts';

/** A job as it stands now: what its history comes to. */
export interface Job {
  readonly id: string;
  readonly openedAt: string;
  /** Time of the last event. */
  readonly changedAt: string;
  readonly state: JobState;
  readonly symptom: string | undefined;
  readonly unit: Unit;
  readonly intake: Intake;
  /** The person's own names of test points, by slug of the point. */
  readonly points: Readonly<Record<string, string>>;
  /** The last check of the meter of each kind. */
  readonly meter: readonly EventOf<'meter'>[];
  /** The answer that stands for each question, in the order of answering. */
  readonly answers: readonly EventOf<'answer'>[];
  readonly repairs: readonly RepairDone[];
  /** Rework faults looked for, the last word on each. */
  readonly rework: readonly EventOf<'rework'>[];
  readonly parts: readonly Part[];
  readonly proofs: readonly EventOf<'proof'>[];
  readonly notes: readonly EventOf<'note'>[];
  readonly photos: readonly EventOf<'photo'>[];
  /** Every event of the job in order, with those that were taken back. */
  readonly timeline: readonly TimelineEntry[];
}

export type JobState =
  | { readonly kind: 'open' }
  | { readonly kind: 'waiting'; readonly what: string }
  | { readonly kind: 'closed'; readonly how: EventOf<'closed'>['how']; readonly summary: string | undefined };

export interface Unit {
  readonly maker: string | undefined;
  readonly model: string | undefined;
  readonly serial: string | undefined;
  readonly revision: string | undefined;
  readonly slug: string | undefined;
  readonly description: string | undefined;
}

/** What was asked before the case was opened. */
export interface Intake {
  /** The owner's words. */
  readonly said: string | undefined;
  readonly changed: string | undefined;
  /** Who was in there before. */
  readonly before: string | undefined;
  /** What must not be lost. */
  readonly keep: string | undefined;
  readonly mains: MainsExposure | undefined;
  readonly limitHours: number | undefined;
  readonly limitMoney: string | undefined;
}

export interface RepairDone {
  readonly event: EventOf<'repair'>;
  /** What came of it, the last word; undefined while it is not proved. */
  readonly result: EventOf<'result'> | undefined;
}

export interface Part {
  /** Id of the event that first named it. */
  readonly id: string;
  readonly name: string;
  readonly status: PartStatus;
}

export interface TimelineEntry {
  readonly event: LogEvent;
  readonly isRevoked: boolean;
}
