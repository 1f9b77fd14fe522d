/** A place in a file, counted from 1; or the honest statement that there is none. */
export type Position = { readonly line: number; readonly column: number } | 'unavailable';

/** A link to a page of this site as it stands in prose. */
export interface WrittenLink {
  readonly address: string;
  readonly position: Position;
}

/**
 * Where each part of a compiled file stands. Keys name parts from the outside in:
 * `node/<id>`, `node/<id>@title` (an attribute), `node/<id>/outcome/0@to`, `front/symptoms/2`. Links in prose have no key; they are
 * listed with the address they lead to.
 */
export class Positions {
  readonly #byKey = new Map<string, Position>();
  readonly #links: WrittenLink[] = [];

  /** Every link in the prose of the file, in order. */
  get links(): readonly WrittenLink[] {
    return this.#links;
  }

  addLink(link: WrittenLink): void {
    this.#links.push(link);
  }

  set(key: string, position: Position): void {
    if (!this.#byKey.has(key)) this.#byKey.set(key, position);
  }

  /** The position of `key`, or of the nearest part around it that is known. */
  find(key: string): Position {
    for (let rest = key; rest !== ''; rest = outerKey(rest)) {
      const position = this.#byKey.get(rest);
      if (position !== undefined) return position;
    }
    return 'unavailable';
  }
}

function outerKey(key: string): string {
  const cut = Math.max(key.lastIndexOf('@'), key.lastIndexOf('/'));
  return cut < 0 ? '' : key.slice(0, cut);
}
