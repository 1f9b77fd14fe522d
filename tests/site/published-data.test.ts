import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compileSchema } from '../support/data-schema.ts';

function read(path: string): unknown {
  return JSON.parse(readFileSync(`dist/${path}`, 'utf8'));
}

const kinds = [
  ['trees', 'tree'],
  ['targets', 'target'],
  ['cautions', 'caution'],
] as const;

describe.each(kinds)('the published files of %s', (folder, schema) => {
  const files = readdirSync(`dist/data/${folder}`);
  const isValid = compileSchema(schema);

  it('are as many as there are content files', () => {
    const written = readdirSync(`content/${folder}`, { recursive: true, encoding: 'utf8' }).filter((file) =>
      file.endsWith('.mdx'),
    );
    expect(files).toHaveLength(written.length);
  });

  it.each(files)('%s is what the schema says, and names it', (file) => {
    const document = read(`data/${folder}/${file}`);
    isValid(document);

    expect(isValid.errors).toBeNull();
    expect(document).toMatchObject({ $schema: `/data/schema/${schema}.json` });
    expect(existsSync(`dist/data/schema/${schema}.json`)).toBe(true);
  });
});

describe('the published index', () => {
  const index = read('data/index.json');
  const isIndex = compileSchema('index');

  it('is what its schema says', () => {
    isIndex(index);
    expect(isIndex.errors).toBeNull();
  });

  it.each(kinds.map(([folder]) => folder))('lists every file and page of %s that was built, and no other', (folder) => {
    const listed: readonly { readonly address: string; readonly data: string }[] = Reflect.get(Object(index), folder);

    expect(listed.map(({ data }) => data).toSorted()).toEqual(
      readdirSync(`dist/data/${folder}`)
        .map((file) => `/data/${folder}/${file}`)
        .toSorted(),
    );
    for (const { address } of listed) expect(existsSync(`dist${address}index.html`)).toBe(true);
  });
});
