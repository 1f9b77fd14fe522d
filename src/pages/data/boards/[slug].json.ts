import type { APIRoute } from 'astro';
import { loadLibrary } from '#build/library.ts';
import type { Board } from '#core/model/library.ts';
import { makeBoardData } from '#core/share/board-data.ts';

export function getStaticPaths(): { params: { slug: string }; props: { board: Board } }[] {
  return [...loadLibrary().boards.values()].map((board) => ({ params: { slug: board.slug }, props: { board } }));
}

export const GET: APIRoute<{ board: Board }> = ({ props }) =>
  new Response(JSON.stringify(makeBoardData(props.board, loadLibrary())), {
    headers: { 'content-type': 'application/json' },
  });
