import { describe, expect, it } from 'vitest';
import { choosePack } from '#core/offline/choose-pack.ts';
import { contentTypeOf } from '#core/offline/content-type.ts';
import { fileOfAddress } from '#core/offline/file-of-address.ts';

const packOfTree = { 'psu-5v-low': 'block-power', 'audio-silent': 'block-audio-2' };

describe('the pack of a file', () => {
  it.each([
    ['trees/psu-5v-low/index.html', 'block-power'],
    ['trees/psu-5v-low/trough/index.html', 'block-power'],
    ['data/walks/psu-5v-low.json', 'block-power'],
    ['data/trees/audio-silent.json', 'block-audio-2'],
    ['data/maps/audio-silent.0123abcd.json', 'block-audio-2'],
    ['targets/index.html', 'targets'],
    ['targets/half-supply/index.html', 'targets'],
    ['data/targets.json', 'targets'],
    ['data/units/quillon-44.json', 'units'],
    ['data/library.json', 'drafting'],
    ['cautions/mains/index.html', 'cautions'],
    ['_astro/node-walk.abc.js', 'program'],
    ['_astro/Sheet.abc.css', 'program'],
    ['gate.js', 'program'],
    ['icon.svg', 'program'],
    ['index.html', 'rest'],
    ['404.html', 'rest'],
    ['data/search.json', 'rest'],
    ['log/index.html', 'rest'],
    ['trees/never-written/index.html', 'rest'],
    ['trees/__proto__/index.html', 'rest'],
  ])('%s lies in %s', (path, pack) => {
    expect(choosePack(path, packOfTree)).toBe(pack);
  });
});

describe('the file of an address', () => {
  it.each([
    ['', 'index.html'],
    ['trees/psu-5v-low/', 'trees/psu-5v-low/index.html'],
    ['trees/psu-5v-low', 'trees/psu-5v-low'],
    ['data/search.json', 'data/search.json'],
  ])('of “%s” is %s', (address, file) => {
    expect(fileOfAddress(address)).toBe(file);
  });
});

describe('the content type of a packed file', () => {
  it.each([
    // RFC 9239 (script), RFC 2318 (style), RFC 8259 (JSON), W3C Web Application Manifest (manifest), SVG 2 (drawing).
    ['a.js', 'text/javascript; charset=utf-8'],
    ['a.css', 'text/css; charset=utf-8'],
    ['a.json', 'application/json; charset=utf-8'],
    ['a.webmanifest', 'application/manifest+json; charset=utf-8'],
    ['a.svg', 'image/svg+xml; charset=utf-8'],
  ])('of %s is %s', (path, type) => {
    expect(contentTypeOf(path)).toBe(type);
  });

  it('is unknown of pictures and fonts, which no pack holds', () => {
    for (const path of ['a.png', 'a.woff2', 'a', 'a.pack']) expect(contentTypeOf(path)).toBeUndefined();
  });
});
