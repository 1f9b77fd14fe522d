/** A place in a file, counted from 1; or the honest statement that there is none. */
export type Position = { readonly line: number; readonly column: number } | 'unavailable';

/** What a name in a content file stands for. `page`: an address in prose. `end`: a cause, a jump or a hand-over. `place`: `path/stage`. */
export type NameKind =
  | 'node'
  | 'check'
  | 'end'
  | 'stage'
  | 'place'
  | 'page'
  | 'tree'
  | 'target'
  | 'part'
  | 'figure'
  | 'chip'
  | 'circuit'
  | 'circuit'
  | 'caution'
  | 'point'
  | 'setup'
  | 'hazard'
  | 'instrument'
  | 'sign'
  | 'source'
  | 'block'
  | 'role';

/** A name as it is written in a file; its place is `position`, or that of the part `key`. */
export interface WrittenName {
  readonly kind: NameKind;
  readonly name: string;
  readonly key: string;
  readonly position?: Position;
}

export interface PlainPositions {
  readonly byKey: Map<string, Position>;
  readonly names: WrittenName[];
}

/**
 * Where each part of a compiled file stands, and what the file names. Keys name parts from the outside in:
 * `node/<id>`, `node/<id>@title` (an attribute), `node/<id>/outcome/0@to`, `front/symptoms/2`.
 */
export class Positions {
  /** All of it, as data that can be kept on a disk. */
  readonly plain: PlainPositions;

  /** @param plain that of another one: it is taken over, not copied */
  constructor(plain: PlainPositions = { byKey: new Map(), names: [] }) {
    this.plain = plain;
  }

  /** Everything that the file names, in order. */
  get names(): readonly WrittenName[] {
    return this.plain.names;
  }

  addName(name: WrittenName): void {
    this.plain.names.push(name);
  }

  set(key: string, position: Position): void {
    if (!this.plain.byKey.has(key)) this.plain.byKey.set(key, position);
  }

  /** The position of `key`, or of the nearest part around it that is known. */
  find(key: string): Position {
    for (let rest = key; rest !== ''; rest = outerKey(rest)) {
      const position = this.plain.byKey.get(rest);
      if (position !== undefined) return position;
    }
    return 'unavailable';
  }
}

function outerKey(key: string): string {
  const cut = Math.max(key.lastIndexOf('@'), key.lastIndexOf('/'));
  return cut < 0 ? '' : key.slice(0, cut);
}
