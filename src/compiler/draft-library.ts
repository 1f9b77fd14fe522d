import type { FaultTree } from '#core/model/fault-tree.ts';
import type { References } from '#core/model/library.ts';
import { compileContent, type ContentFile } from './compile-content.ts';

/** What one tree is judged against, as plain data that survives JSON: tables as lists, of other trees their names. */
export interface DraftLibrary {
  readonly references: { readonly [Table in keyof References]: readonly RowOf<References[Table]>[] };
  readonly trees: readonly KnownTree[];
  /** Paths of all content files, in order. */
  readonly files: readonly string[];
}

type RowOf<Table> = Table extends ReadonlyMap<string, infer Row> ? Row : never;

/** What other trees can ask of a tree: its names, and where its symptom phrases stand. */
export interface KnownTree extends Pick<FaultTree, 'slug' | 'title' | 'symptoms'> {
  readonly file: string;
  readonly nodes: readonly { readonly id: string; readonly title: string }[];
  /** Line and column of each symptom phrase. */
  readonly places: readonly (readonly [line: number, column: number])[];
}

/**
 * Makes the library that drafts are judged against. Trees with an error are known by their file alone, as in a check.
 * Prose and boards stay behind: no rule about a tree reads them.
 */
export function makeDraftLibrary(files: readonly ContentFile[]): DraftLibrary {
  const { library, positionsOf } = compileContent(files);
  const list = <Row>(table: ReadonlyMap<string, Row>): readonly Row[] => [...table.values()];
  const withoutProse = <Row extends { readonly prose: readonly string[] }>(table: ReadonlyMap<string, Row>) =>
    list(table).map((row) => ({ ...row, prose: [] }));
  const trees = files.flatMap(({ file }): readonly KnownTree[] => {
    const tree = [...library.trees.values()].find(({ slug, block }) => file === `content/trees/${block}/${slug}.mdx`);
    if (tree === undefined) return [];
    const { slug, title, symptoms } = tree;
    const places = symptoms.map((_, index) => {
      const place = positionsOf.get(file)?.find(`front/symptoms/${index}`) ?? 'unavailable';
      return place === 'unavailable' ? ([1, 1] as const) : ([place.line, place.column] as const);
    });
    return [
      { file, slug, title, symptoms, places, nodes: tree.nodes.map(({ id, title: name }) => ({ id, title: name })) },
    ];
  });
  return {
    references: {
      blocks: list(library.blocks),
      targets: withoutProse(library.targets),
      cautions: withoutProse(library.cautions),
      boards: [],
      points: list(library.points),
      setups: list(library.setups),
      hazards: list(library.hazards),
      instruments: list(library.instruments),
      instrumentClasses: list(library.instrumentClasses),
      signs: list(library.signs),
      sources: list(library.sources),
    },
    trees,
    files: files.map(({ file }) => file),
  };
}

/** The tables of a draft library as every reader of the model wants them. */
export function openReferences({ references }: DraftLibrary): References {
  const bySlug = <Row extends { readonly slug: string }>(rows: readonly Row[]): ReadonlyMap<string, Row> =>
    new Map(rows.map((row) => [row.slug, row]));
  return {
    blocks: bySlug(references.blocks),
    targets: bySlug(references.targets),
    cautions: bySlug(references.cautions),
    boards: bySlug(references.boards),
    points: bySlug(references.points),
    setups: bySlug(references.setups),
    hazards: bySlug(references.hazards),
    instruments: bySlug(references.instruments),
    instrumentClasses: bySlug(references.instrumentClasses),
    signs: bySlug(references.signs),
    sources: bySlug(references.sources),
  };
}
