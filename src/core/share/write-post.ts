import type { PostFormat } from './post-format.ts';
import { arrangeReport, type DiagnosisReport } from './report.ts';
import { writeBlocks } from './write-blocks.ts';

/** A diagnosis as a post for a forum: the unit, the symptom, each reading with its target and verdict, and the link. */
export function writePost(report: DiagnosisReport, format: PostFormat): string {
  return `${writeBlocks(arrangeReport(report), format)}\n`;
}
