import { type PostFormat, postFormats } from '#core/post/blocks.ts';
import { type DiagnosisReport, findStanding, makeReport, type ReportCaution, writePost } from '#core/post/report.ts';
import { cautionsOf, findNode } from '#core/model/node.ts';
import { openAsked } from '#core/answer/lead.ts';
import type { LinkState } from '#core/answer/answer.ts';
import type { TreeMap } from '#core/link/tree-map.ts';
import type { Walk } from '#core/answer/bench-tree.ts';
import { siteName } from '../page-data.ts';
import { fetchUnitSheet } from '../unit-sheet.ts';
import { assessPage } from '../walk/assess-page.ts';
import { benchOf, loadOthers, loadWalk } from '../walk/load-bench.ts';
import type { OwnerWords } from './owner-words.ts';
import { linkTo } from './page-state.ts';
import { severities } from '#core/model/library.ts';

/** What a post tells of: a state of this page's tree, seen from a node, or from where its answers lead. */
export interface PostMatter {
  readonly map: TreeMap;
  readonly state: LinkState;
  readonly node: string | undefined;
  readonly words: OwnerWords;
}

/** The report of a page, with the link that holds it. Throws where the tree's data cannot be fetched. */
export async function reportPage({ map, state: given, node, words }: PostMatter): Promise<DiagnosisReport> {
  // What was asked and answered is asked no more.
  const state = { ...given, ask: openAsked(given) };
  const [walk, others, unit] = await Promise.all([
    loadWalk(map.slug),
    loadOthers(state.answers),
    state.unit === undefined ? undefined : fetchUnitSheet(state.unit),
  ]);
  if (walk === undefined) throw new Error('The data of this tree could not be read.');
  const bench = benchOf(walk, unit);
  const isAsking = state.ask.length > 0;
  const standing = isAsking || node === undefined ? findStanding(bench, state) : node;
  const shown = isAsking ? state.ask : [standing];
  const cautions = new Map(shown.flatMap((id) => cautionsAt(id, walk)).map((caution) => [caution.line, caution]));
  const { assessment } = await assessPage({ map, state, unit }, walk, bench);
  return makeReport(
    { bench, others, state, node: standing, causes: assessment.causes },
    {
      ...words,
      unit: words.unit.trim() === '' ? (unit?.title ?? '') : words.unit,
      cautions: [...cautions.values()],
      site: siteName(),
      link: linkTo(map, state.ask[0] ?? standing, state),
    },
  );
}

/** The post of a page in the markup named, CommonMark where the name is none. */
export async function writePagePost(matter: PostMatter, format: string): Promise<string> {
  const known: PostFormat = postFormats.find((name) => name === format) ?? 'commonmark';
  return writePost(await reportPage(matter), known);
}

/** The same in plain words and without its link, for a share sheet that sends the link beside it. */
export async function writeShareText(matter: PostMatter): Promise<{ readonly text: string; readonly url: string }> {
  const report = await reportPage(matter);
  return { text: writePost({ ...report, link: '' }, 'plain').trimEnd(), url: report.link };
}

/** The cautions of a node: as this page shows them, where it does, since it knows of the reader’s mains; else as they are written. */
function cautionsAt(id: string, { tree, references }: Walk): readonly ReportCaution[] {
  const onPage = readCautions(id);
  const node = findNode(tree, id);
  if (onPage.length > 0 || node === undefined) return onPage;
  return cautionsOf(node, references).map(({ severity, title, line }) => ({ severity, title, line }));
}

/** The cautions that the page shows for a node, wherever on the page each stands by now. Empty where the page does not show the node. */
function readCautions(node: string): readonly ReportCaution[] {
  const article = [...document.querySelectorAll<HTMLElement>('article.node')].find(
    ({ dataset }) => dataset['node'] === node,
  );
  return [...(article?.querySelectorAll('.caution:not([hidden])') ?? [])].map((box) => ({
    // Every box has the class `caution`; the level called so has no other.
    severity: severities.find((one) => one !== 'caution' && box.classList.contains(one)) ?? 'caution',
    // Its name is the signal word and the title.
    title: box.getAttribute('aria-label')?.replace(/^[^:]*: /u, '') ?? '',
    line: box.querySelector('summary > :last-child')?.textContent ?? '',
  }));
}
