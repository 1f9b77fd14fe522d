import type { PostBlock, PostSpan } from './post-block.ts';

/** A diagnosis as it is told to someone else: everything already in words. Texts of a person are taken as they come. */
export interface DiagnosisReport {
  /** The symptom family: title of the tree. */
  readonly title: string;
  /** The unit, as its owner names it; empty where nothing was said. */
  readonly unit: string;
  /** What it does, in the owner's words; empty where nothing was said. */
  readonly symptom: string;
  /** In the order of answering. */
  readonly lines: readonly ReportLine[];
  readonly end: ReportEnd;
  /** Repairs that did not cure, by title, in order; empty where none. */
  readonly did: readonly string[];
  /** Checks that the writer asks for, by title; empty where none. */
  readonly asked: readonly string[];
  readonly cautions: readonly ReportCaution[];
  /** Anything else the owner wants to say; empty where nothing. */
  readonly notes: string;
  /** Absolute address of exactly this state. */
  readonly link: string;
}

/** One answer. */
export interface ReportLine {
  /** The check, as its page calls it. */
  readonly title: string;
  /** What was read or seen: `4.71 V`, `Low`. */
  readonly said: string;
  /** What a healthy unit reads, or undefined where there is no number. */
  readonly target: string | undefined;
  /** What the reading comes to, or undefined where `said` says it already. */
  readonly verdict: string | undefined;
}

/** Where the diagnosis stands. */
export type ReportEnd =
  | { readonly kind: 'cause'; readonly title: string }
  | { readonly kind: 'other'; readonly title: string }
  /** Titles of what can still be the reason. */
  | { readonly kind: 'open'; readonly titles: readonly string[] };

export interface ReportCaution {
  readonly title: string;
  readonly text: string;
}

/** More causes than this are counted, not named. */
const mostNamed = 8;

/** The report as blocks, in the order in which a reader of a thread wants them. */
export function arrangeReport(report: DiagnosisReport): readonly PostBlock[] {
  return [
    { kind: 'heading', text: report.title },
    ...named('Unit', report.unit),
    ...named('Symptom', report.symptom),
    ...(report.lines.length === 0 ? [] : [label('Checked so far'), listOf(report.lines.map(describeLine))]),
    ...listUnder('Repaired without a cure', report.did),
    ...describeEnd(report.end),
    ...listUnder('Please check', report.asked),
    ...(report.cautions.length === 0
      ? []
      : [
          label('Before you go on'),
          listOf(report.cautions.map(({ title, text }) => [{ text: `${title}:`, isStrong: true }, { text }])),
        ]),
    ...named('Notes', report.notes),
    { kind: 'link', address: report.link },
  ];
}

function named(name: string, text: string): readonly PostBlock[] {
  if (text.trim() === '') return [];
  return [{ kind: 'paragraph', spans: [{ text: `${name}:`, isStrong: true }, { text }] }];
}

function listUnder(name: string, titles: readonly string[]): readonly PostBlock[] {
  return titles.length === 0 ? [] : [label(name), listOf(titles.map((title) => [{ text: title }]))];
}

function label(name: string): PostBlock {
  return { kind: 'paragraph', spans: [{ text: `${name}:`, isStrong: true }] };
}

function listOf(items: readonly (readonly PostSpan[])[]): PostBlock {
  return { kind: 'list', items };
}

function describeLine({ title, said, target, verdict }: ReportLine): readonly PostSpan[] {
  return [
    { text: title },
    { text: said, isStrong: true },
    ...(target === undefined ? [] : [{ text: `(healthy: ${target})` }]),
    ...(verdict === undefined ? [] : [{ text: verdict }]),
  ];
}

function describeEnd(end: ReportEnd): readonly PostBlock[] {
  if (end.kind === 'cause') return named('Points to', end.title);
  if (end.kind === 'other') return named('Ends at', end.title);
  const shown = end.titles.slice(0, mostNamed);
  const more = end.titles.length - shown.length;
  if (shown.length === 0) return [];
  return [
    ...named('Still open', `${end.titles.length} ${end.titles.length === 1 ? 'cause' : 'causes'}`),
    listOf([...shown.map((title) => [{ text: title }]), ...(more > 0 ? [[{ text: `and ${more} more` }]] : [])]),
  ];
}
