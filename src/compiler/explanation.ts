/** What an author is told about a message beyond its one line: printed by `--explain`, and in the guide’s reference. */
export interface Explanation {
  /** What is asked for, in one sentence. */
  readonly says: string;
  /** What goes wrong at a bench, in a build or for the next author where it is not so. */
  readonly why: string;
  /** Content that the message is about. */
  readonly wrong: string;
  /** The same content, mended. */
  readonly right: string;
  /** The whole of what one sentence only names: one line each. */
  readonly all?: readonly string[];
  /** The kind of file the two examples are from; a tree where left out. */
  readonly from?: 'a target' | 'a caution' | 'a unit' | 'instruments.yaml' | 'thesaurus.yaml' | 'the folder content/';
}
