import { readFileSync } from 'node:fs';

/** Names of the headers that every file of a sample in hosting/ sends with every answer. */
const names = [
  'Content-Security-Policy',
  'Referrer-Policy',
  'Permissions-Policy',
  'X-Content-Type-Options',
  'Cross-Origin-Opener-Policy',
];

/** The headers that a sample in hosting/ sends with every answer, by name, caching apart. */
export function readHostHeaders(sample: string): ReadonlyMap<string, string> {
  const text = readFileSync(`hosting/${sample}`, 'utf8');
  return new Map(
    names.flatMap((name) => {
      const value = new RegExp(`\\b${name}:? "?([^"\\n]+)"?`).exec(text)?.[1];
      return value === undefined ? [] : [[name, value] as const];
    }),
  );
}
