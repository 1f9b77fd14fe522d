import type { APIRoute } from 'astro';
import type { DraftData } from '#browser/draft/draft-data.ts';
import { listLetterWidths, sheetFontFile } from '#build/graphs.ts';
import { readContent } from '#build/library.ts';
import { makeDraftLibrary } from '#compiler/make-draft-library.ts';

/** Fetched by the drafting page alone. */
export const GET: APIRoute = () => {
  const content = readContent();
  const data: DraftData = {
    library: makeDraftLibrary(content.files, content),
    letterWidths: listLetterWidths(sheetFontFile),
  };
  return new Response(JSON.stringify(data), { headers: { 'content-type': 'application/json' } });
};
