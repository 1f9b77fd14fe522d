import { listParagraphs } from '#core/model/prose.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readContent } from '#build/library.ts';
import { addressOf } from '#core/link/address.ts';
import {
  type MakeAddress,
  makeCautionDocument,
  makeIndexDocument,
  makeTargetDocument,
  makeTreeDocument,
} from '#core/link/published-data.ts';
import { arbitraryFaultTree } from '../../arbitraries/fault-tree.ts';
import { compileSchema } from '../../support/data-schema.ts';

const { library } = readContent();
const isTree = compileSchema('tree');
const isTarget = compileSchema('target');
const isCaution = compileSchema('caution');
const isIndex = compileSchema('index');

const place: MakeAddress = (at) => addressOf(at, '/');
const absolute: MakeAddress = (at) => `https://site.invalid${addressOf(at, '/sub/')}`;

/** As a program reads it: through JSON, which leaves out what is undefined. */
function throughJson(value: unknown): Record<string, unknown> {
  return JSON.parse(JSON.stringify(value));
}

const [someTree] = library.trees.values();
const [someTarget] = library.targets.values();
const [someCaution] = library.cautions.values();
if (someTree === undefined || someTarget === undefined || someCaution === undefined)
  throw new Error('Nothing is shipped.');
const tree = throughJson(makeTreeDocument(someTree, place, library.site.name));
const target = throughJson(makeTargetDocument(someTarget, place, library.site.name));
const caution = throughJson(makeCautionDocument(someCaution, place, library.site.name));
const index = throughJson(makeIndexDocument(library, place));

describe('published data', () => {
  it.each([...library.trees.values()])('of tree $slug is what its schema says', (each) => {
    isTree(throughJson(makeTreeDocument(each, absolute, library.site.name)));
    expect(isTree.errors).toBeNull();
  });

  it.each([...library.targets.values()])('of target $slug is what its schema says', (each) => {
    isTarget(throughJson(makeTargetDocument(each, absolute, library.site.name)));
    expect(isTarget.errors).toBeNull();
  });

  it.each([...library.cautions.values()])('of caution $slug is what its schema says', (each) => {
    isCaution(throughJson(makeCautionDocument(each, absolute, library.site.name)));
    expect(isCaution.errors).toBeNull();
  });

  it('of any valid tree is what its schema says, and gives the tree back with its prose as plain text', () => {
    fc.assert(
      fc.property(arbitraryFaultTree(), (any) => {
        const document = throughJson(makeTreeDocument(any, place, library.site.name));
        isTree(document);
        expect(isTree.errors).toBeNull();

        const { $schema, format, license, attribution, address, ...back } = document;
        const isProse = (key: string): boolean => key === 'prose' || key === 'record';
        const plain = JSON.stringify(any, (key, value) => (isProse(key) ? listParagraphs(value) : value));
        expect(back).toEqual(JSON.parse(plain));
        expect([$schema, format, license, attribution]).toEqual([
          '/data/schema/tree.json',
          1,
          'CC-BY-SA-4.0',
          'Halfsplit contributors',
        ]);
        expect(address).toBe(`/trees/${any.slug}/`);
      }),
      { numRuns: 50 },
    );
  });

  it('has an index of everything, and of every table that the files name', () => {
    isIndex(index);
    expect(isIndex.errors).toBeNull();
    const { trees, targets, cautions } = makeIndexDocument(library, absolute);
    expect(trees.map(({ slug }) => slug)).toEqual([...library.trees.keys()]);
    expect(targets.map(({ slug }) => slug)).toEqual([...library.targets.keys()]);
    expect(cautions.map(({ slug }) => slug)).toEqual([...library.cautions.keys()]);
    expect(trees[0]?.data).toBe(`https://site.invalid/sub/data/trees/${someTree.slug}.json`);
    expect(trees[0]?.address).toBe(`https://site.invalid/sub/trees/${someTree.slug}/`);
  });
});

describe('the schemas refuse', () => {
  const { nodes } = makeTreeDocument(someTree, place, library.site.name);
  const check = nodes.findIndex(({ kind }) => kind === 'check');
  const cause = nodes.findIndex(({ kind }) => kind === 'cause');
  const withNode = (at: number, change: object) => ({
    ...tree,
    nodes: nodes.map((node, place) => (place === at ? { ...node, ...change } : node)),
  });
  const bands = [
    { name: 'low', to: 1 },
    { name: 'high', from: 1 },
  ];

  it.each([
    ['a tree without nodes', isTree, { ...tree, nodes: [] }],
    ['a tree with a field nobody knows', isTree, { ...tree, script: 'x' }],
    ['a tree without its licence', isTree, { ...tree, license: 'CC0-1.0' }],
    ['a tree whose slug is no slug', isTree, { ...tree, slug: '../x' }],
    ['a tree that is null', isTree, null],
    ['a node of no known kind', isTree, withNode(check, { kind: 'question' })],
    ['a check without outcomes', isTree, withNode(check, { outcomes: [] })],
    ['a check with power half on', isTree, withNode(check, { power: 'half' })],
    ['a check with fields of a cause', isTree, withNode(check, { chance: 'rare' })],
    ['minutes below nothing', isTree, withNode(check, { minutes: -1 })],
    ['an outcome that is one word and no list', isTree, withNode(check, { outcomes: [{ when: 'low', to: 'x' }] })],
    ['a chance in per cent', isTree, withNode(cause, { chance: 0.7 })],
    ['a target without a healthy band', isTarget, { ...target, bands }],
    [
      'a target with two healthy bands',
      isTarget,
      {
        ...target,
        bands: [
          { name: 'in', to: 1 },
          { name: 'in', from: 1 },
        ],
      },
    ],
    ['a target with a number as text', isTarget, { ...target, nominal: '5' }],
    ['a target without a status', isTarget, { ...target, status: undefined }],
    ['a caution of no severity', isCaution, { ...caution, severity: 'mild' }],
    ['a caution without words', isCaution, { ...caution, text: '' }],
    ['an index without sources', isIndex, { ...index, sources: undefined }],
    ['an index of another format', isIndex, { ...index, format: 2 }],
  ])('%s', (_what, isValid, document) => {
    expect(isValid(document === null ? null : throughJson(document))).toBe(false);
  });

  it('none of the documents that the broken ones were made from', () => {
    expect([isTree(tree), isTarget(target), isCaution(caution), isIndex(index)]).toEqual([true, true, true, true]);
    expect(isTree(withNode(check, {})) && isTree(withNode(cause, {}))).toBe(true);
  });
});
