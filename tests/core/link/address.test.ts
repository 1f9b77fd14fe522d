import { describe, expect, it } from 'vitest';
import { addressOf, type Place } from '#core/link/address.ts';

const places: readonly (readonly [place: Place, address: string])[] = [
  [{ kind: 'home' }, '/'],
  [{ kind: 'tree', tree: 'psu-5v-low' }, '/trees/psu-5v-low/'],
  [{ kind: 'node', tree: 'psu-5v-low', node: 'trough' }, '/trees/psu-5v-low/trough/'],
  [{ kind: 'preview', tree: 'psu-5v-low' }, '/previews/psu-5v-low.png'],
  [{ kind: 'preview', tree: 'psu-5v-low', node: 'feed-joint' }, '/previews/psu-5v-low/feed-joint.png'],
  [{ kind: 'target', slug: 'esr-120' }, '/targets/esr-120/'],
  [{ kind: 'caution', slug: 'mains' }, '/cautions/mains/'],
  [{ kind: 'unit', slug: 'bracken' }, '/units/bracken/'],
  [{ kind: 'trees' }, '/trees/'],
  [{ kind: 'targets' }, '/targets/'],
  [{ kind: 'cautions' }, '/cautions/'],
  [{ kind: 'units' }, '/units/'],
  [{ kind: 'hand-over' }, '/hand-over/'],
  [{ kind: 'data' }, '/data/'],
  [{ kind: 'data-file', of: 'trees', slug: 'psu-5v-low' }, '/data/trees/psu-5v-low.json'],
  [{ kind: 'data-index' }, '/data/index.json'],
  [{ kind: 'data-schema', of: 'tree' }, '/data/schema/tree.json'],
];

describe.each(places)('the address of %j', (place, address) => {
  it('stands at the root', () => {
    expect(addressOf(place, '/')).toBe(address);
  });

  it('stands below a sub-path, written with or without its last slash', () => {
    expect(addressOf(place, '/help/desk/')).toBe(`/help/desk${address}`);
    expect(addressOf(place, '/help/desk')).toBe(`/help/desk${address}`);
  });
});
