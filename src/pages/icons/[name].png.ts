import type { APIRoute, GetStaticPaths } from 'astro';
import { loadLibrary } from '#build/library.ts';
import { drawIcon, type IconPicture, iconPictures } from '#build/draw-icon.ts';

interface Props {
  readonly picture: IconPicture;
}

export const getStaticPaths = (() =>
  iconPictures.map((picture) => ({ params: { name: picture.name }, props: { picture } }))) satisfies GetStaticPaths;

/** The site's icon as pictures, for devices that install it. */
export const GET: APIRoute<Props> = ({ props: { picture } }) =>
  new Response(drawIcon(picture, loadLibrary().site.colours.light), { headers: { 'Content-Type': 'image/png' } });
