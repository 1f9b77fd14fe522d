import type { Answer, LinkState } from '#core/answer/answer.ts';
import type { DecideWord } from '#core/answer/lead.ts';
import type { TreeMap } from '#core/link/tree-map.ts';
import type { UnitSheet } from '../unit-sheet.ts';

/** The page of a node, as its parts see it. */
export interface WalkPage {
  readonly map: TreeMap;
  /** What the fragment says now. */
  readonly state: LinkState;
  readonly unit: UnitSheet | undefined;
  /** Whether an answer was given or taken back on this page. */
  readonly isTouched: boolean;
  /** Address of a node of this tree, or of another, with a state in its fragment. */
  readonly addressIn: (node: string, state: LinkState, tree?: string) => string;
  /** Puts a state into the fragment, as a step that the browser's Back takes back, and draws the page again. */
  readonly put: (state: LinkState) => void;
  /** Goes to a node with a state in its fragment, as a link that answers does. */
  readonly go: (node: string, state: LinkState) => void;
  /** Says something in the live region above the sheet. */
  readonly say: (text: string) => void;
  /** What is typed at a check or stage and not taken yet, so that an outcome pressed instead keeps it. */
  readonly hold: (held: Held | undefined) => void;
}

/** A reading typed and judged, not yet taken. */
export interface Held {
  readonly answer: Answer;
  /** Band it falls into, or `too-close`. */
  readonly verdict: string;
}

/** What the tree's data adds to the answers: the word that a reading comes to, and the tree's own sentences. */
export interface EngineWords {
  readonly decide: DecideWord;
  readonly say: (answer: Answer) => string;
  /** What was asked, for an answer of another tree; undefined where that tree is not at hand. */
  readonly titleOf: (answer: Answer) => string | undefined;
}
