import type { APIRoute } from 'astro';
import type { DraftData } from '#browser/draft/draft-worker.ts';
import { listLetterWidths, sheetFontFile } from '#build/graphs.ts';
import { loadLibrary, readContent } from '#build/library.ts';
import { makePublishedAddress } from '#build/site-links.ts';
import { treeMapFile } from '#build/tree-maps.ts';
import { makeDraftLibrary } from '#compiler/compile-draft.ts';
import { buildIndex } from '#build/search-index.ts';
import {
  type MakeAddress,
  makeCautionDocument,
  makeIndexDocument,
  makeTargetDocument,
  makeTreeDocument,
} from '#core/link/published-data.ts';
import { makeUnitData } from '#core/model/limits.ts';
import { makePartData } from '#core/page/render-figure.ts';
import { makeWalkData } from '#core/answer/bench-tree.ts';

interface DataFile {
  /** Path below /data/, without its ending. */
  readonly file: string;
  readonly make: (addressOf: MakeAddress) => unknown;
}

/** The files of /data/: those published for other programs (trees, targets, cautions, index), and those the pages fetch. */
function listFiles(): readonly DataFile[] {
  const library = loadLibrary();
  const { site, trees, targets, cautions, units, instrumentClasses } = library;
  const each = <Row>(
    folder: string,
    rows: ReadonlyMap<string, Row>,
    make: (row: Row, addressOf: MakeAddress, site: string) => unknown,
  ): readonly DataFile[] =>
    [...rows].map(([slug, row]) => ({
      file: `${folder}/${slug}`,
      make: (addressOf) => make(row, addressOf, site.name),
    }));
  return [
    { file: 'index', make: (addressOf) => makeIndexDocument(library, addressOf) },
    ...each('trees', trees, makeTreeDocument),
    ...each('targets', targets, makeTargetDocument),
    ...each('cautions', cautions, makeCautionDocument),
    ...each('units', units, (unit) => makeUnitData(unit, library)),
    ...[...trees.values()].map((tree) => ({
      file: `maps/${tree.slug}.${treeMapFile(tree).hash}`,
      make: () => JSON.parse(treeMapFile(tree).text),
    })),
    ...each('walks', trees, (tree) => makeWalkData(tree, library)),
    { file: 'parts', make: () => makePartData(library) },
    { file: 'instruments', make: () => [...instrumentClasses.values()] },
    { file: 'search', make: () => buildIndex(library) },
    { file: 'library', make: makeDraftData },
  ];
}

/** Fetched by the drafting page alone. */
function makeDraftData(): DraftData {
  const content = readContent();
  return { library: makeDraftLibrary(content.files, content), letterWidths: listLetterWidths(sheetFontFile) };
}

export function getStaticPaths(): { params: { file: string }; props: DataFile }[] {
  return listFiles().map((props) => ({ params: { file: props.file }, props }));
}

export const GET: APIRoute<DataFile> = ({ props, site }) => {
  const value = props.make(makePublishedAddress(site));
  return new Response(JSON.stringify(value), { headers: { 'content-type': 'application/json' } });
};
