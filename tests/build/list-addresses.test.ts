import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { addAddresses } from '#build/addresses.ts';

describe('content/addresses.txt', () => {
  const text = readFileSync('content/addresses.txt', 'utf8');
  const lines = text.split('\n').filter((line) => line !== '');

  it('holds paths that begin and end with a slash, sorted, each once', () => {
    expect(lines.filter((line) => !/^\/([a-z0-9-]+\/)*$/.test(line))).toEqual([]);
    expect(lines).toEqual([...new Set(lines)].toSorted());
  });

  it('is joined line by line when two branches add to it', () => {
    expect(readFileSync('.gitattributes', 'utf8')).toContain('content/addresses.txt merge=union');
  });
});

describe('adding addresses', () => {
  it('keeps what once was published, and leaves a list without news as it is', () => {
    const first = addAddresses('/old/\n/b/\r\n\n/b/\n', ['/c/', '/a/']);

    expect(first).toBe('/a/\n/b/\n/c/\n/old/\n');
    expect(addAddresses(first, ['/a/'])).toBe(first);
  });

  it('starts a list', () => {
    expect(addAddresses('', ['/b/', '/'])).toBe('/\n/b/\n');
  });
});
