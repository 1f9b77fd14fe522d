import type { APIRoute } from 'astro';
import { loadLibrary } from '#build/library.ts';
import type { Unit } from '#core/model/library.ts';
import { makeUnitData } from '#core/model/limits.ts';

export function getStaticPaths(): { params: { slug: string }; props: { unit: Unit } }[] {
  return [...loadLibrary().units.values()].map((unit) => ({ params: { slug: unit.slug }, props: { unit } }));
}

export const GET: APIRoute<{ unit: Unit }> = ({ props }) =>
  new Response(JSON.stringify(makeUnitData(props.unit, loadLibrary())), {
    headers: { 'content-type': 'application/json' },
  });
