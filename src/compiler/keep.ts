/**
 * Gives the result that was kept for these inputs, or makes it and keeps it. The inputs are everything that the result
 * depends on; the kind names the work. The program's own code is the keeper's affair.
 */
export type Keep = <Result>(kind: string, inputs: () => readonly string[], make: () => Result) => Result;

/** Keeps nothing. */
export const makeAnew = <Result>(_kind: string, _inputs: unknown, make: () => Result): Result => make();

/** Keeps a result that depends on one file and on all content but the trees. */
export type KeepBeside = <Result>(kind: string, file: string, make: () => Result) => Result;

export function keepBeside(keep: Keep, files: readonly { readonly file: string; readonly text: string }[]): KeepBeside {
  let beside: string | undefined;
  let texts: ReadonlyMap<string, string> | undefined;
  return (kind, file, make) =>
    keep(
      kind,
      () => {
        beside ??= JSON.stringify(files.filter((each) => !each.file.startsWith('content/trees/')));
        texts ??= new Map(files.map((each) => [each.file, each.text]));
        return [file, texts.get(file) ?? '', beside];
      },
      make,
    );
}
