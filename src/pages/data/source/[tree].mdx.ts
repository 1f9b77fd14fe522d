import type { APIRoute, GetStaticPaths } from 'astro';
import { readContent } from '#build/library.ts';
import { slugOf } from '#compiler/compile-tree.ts';

interface Source {
  readonly text: string;
}

/** The file of each tree as its author wrote it. */
export const getStaticPaths: GetStaticPaths = () =>
  readContent()
    .files.filter(({ file }) => file.startsWith('content/trees/'))
    .map(({ file, text }) => ({ params: { tree: slugOf(file) }, props: { text } satisfies Source }));

export const GET: APIRoute<Source> = ({ props }) =>
  new Response(props.text, { headers: { 'content-type': 'text/markdown; charset=utf-8' } });
