import { vi } from 'vitest';

/** What a command of ours said and how it ended, run in this process: a process of its own takes seconds to start. */
export interface Said {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs a command of src/cli with the words after its name. */
export function runHere(command: (words: readonly string[]) => number, words: readonly string[]): Said {
  const said = { stdout: '', stderr: '' };
  const hear =
    (stream: keyof typeof said) =>
    (text: unknown): void => {
      said[stream] += `${String(text)}\n`;
    };
  const log = vi.spyOn(console, 'log').mockImplementation(hear('stdout'));
  const error = vi.spyOn(console, 'error').mockImplementation(hear('stderr'));
  try {
    const status = command(words);
    return { status, ...said };
  } finally {
    log.mockRestore();
    error.mockRestore();
  }
}
