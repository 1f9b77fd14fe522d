import type { FaultTree } from '#core/model/fault-tree.ts';
import type { References } from '#core/model/library.ts';
import type { Thesaurus } from '#core/model/thesaurus.ts';
import type { Position } from './position.ts';

/** What one tree is judged against, as plain data that survives JSON: tables as lists, of other trees their names. */
export interface DraftLibrary {
  readonly references: { readonly [Table in keyof References]: readonly RowOf<References[Table]>[] };
  readonly trees: readonly NamedTree[];
  readonly thesaurus: Thesaurus;
  /** Paths of all content files, in order. */
  readonly files: readonly string[];
}

type RowOf<Table> = Table extends ReadonlyMap<string, infer Row> ? Row : never;

/** Another tree as far as a tree can ask for it: what it and its nodes are and were called, and its symptom phrases. */
export interface NamedTree {
  readonly file: string;
  readonly tree: FaultTree;
  /** Where its phrases and names stand, by their key in the file. */
  readonly places: readonly (readonly [key: string, position: Position])[];
}

/** The tables of a draft library as every reader of the model wants them. */
export function openReferences({ references }: DraftLibrary): References {
  const bySlug = <Row extends { readonly slug: string }>(rows: readonly Row[]): ReadonlyMap<string, Row> =>
    new Map(rows.map((row) => [row.slug, row]));
  return {
    blocks: bySlug(references.blocks),
    targets: bySlug(references.targets),
    cautions: bySlug(references.cautions),
    units: bySlug(references.units),
    points: bySlug(references.points),
    parts: bySlug(references.parts),
    chips: bySlug(references.chips),
    pictures: bySlug(references.pictures),
    setups: bySlug(references.setups),
    hazards: bySlug(references.hazards),
    instruments: bySlug(references.instruments),
    instrumentClasses: bySlug(references.instrumentClasses),
    signs: bySlug(references.signs),
    sources: bySlug(references.sources),
  };
}
