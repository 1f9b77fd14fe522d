/** A part of the job sheet before it is fitted to the page. */
export interface SheetSection {
  readonly title: string;
  readonly lines: readonly SheetLine[];
}

export interface SheetLine {
  readonly text: string;
  /** What is lowest gives way first; of equals, what stands first. */
  readonly rank: number;
}

/** A part as it goes to paper: what has room, and how many lines stand in the job's file alone. */
export interface FittedSection {
  readonly title: string;
  readonly lines: readonly string[];
  readonly leftOut: number;
}

/** Letters of a printed line of 180 mm at 9 points, and the lines of a page of Letter, the lower of the two sizes; both measured, with some to spare. */
export const lettersOfLine = 105;
const linesOfPage = 56;
/** A heading, larger and with room around it. */
const headingLines = 1.7;

/** Leaves out only what one page cannot hold beside `taken` lines, the lowest rank first. */
export function fitSheet(sections: readonly SheetSection[], taken: number): readonly FittedSection[] {
  const shown = sections.filter(({ lines }) => lines.length > 0);
  const order = shown.flatMap(({ lines }) => lines).sort((one, other) => one.rank - other.rank);
  const out = new Set<SheetLine>();
  for (const line of order) {
    if (taken + measure(shown, out) <= linesOfPage) break;
    out.add(line);
  }
  return sections.map(({ title, lines }) => {
    const kept = lines.filter((line) => !out.has(line));
    return { title, lines: kept.map(({ text }) => text), leftOut: lines.length - kept.length };
  });
}

/** Printed lines that a text takes. */
export function countLines(text: string, letters: number = lettersOfLine): number {
  return Math.max(1, Math.ceil(text.length / letters));
}

function measure(sections: readonly SheetSection[], out: ReadonlySet<SheetLine>): number {
  return sections.reduce((sum, { lines }) => {
    const kept = lines.filter((line) => !out.has(line));
    const rest = kept.length < lines.length ? 1 : 0;
    return sum + headingLines + rest + kept.reduce((own, { text }) => own + countLines(text), 0);
  }, 0);
}
