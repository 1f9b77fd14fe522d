/**
 * Files packed together for offline use. The pages of a block are much alike: each different piece of text is held once,
 * and a file is a row of pieces.
 */
export interface Pack {
  readonly pieces: readonly string[];
  /**
   * For each path below the site's base (`trees/psu-5v-low/index.html`) its runs of pieces, two numbers a run: how far
   * the run starts from the end of the one before (0 to begin with), and how many pieces it takes one after another.
   */
  readonly files: Readonly<Record<string, readonly number[]>>;
}
