import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { pagePolicy } from '#build/policy.ts';
import { readHostHeaders } from '../support/host-headers.ts';

const samples = readdirSync('hosting');

describe('the samples of headers', () => {
  it('are there for four kinds of host', () => {
    expect(samples.toSorted()).toEqual(['Caddyfile', '_headers', 'htaccess', 'nginx.conf']);
  });

  // frame-ancestors counts in a header alone: W3C Content Security Policy Level 3, 6.4.2.
  it.each(samples)('send the policy of the pages, and forbid framing, in %s', (sample) => {
    const policy = readHostHeaders(sample).get('Content-Security-Policy')?.split('; ');

    expect(policy).toEqual([...pagePolicy, "frame-ancestors 'none'"]);
  });

  it.each(samples)('send the same headers and keep forever only what a hash names, in %s', (sample) => {
    const text = readFileSync(`hosting/${sample}`, 'utf8');

    expect([...readHostHeaders(sample).keys()]).toHaveLength(5);
    expect(readHostHeaders(sample)).toEqual(readHostHeaders('_headers'));
    expect(readHostHeaders(sample).get('X-Content-Type-Options')).toBe('nosniff');
    expect(text).toContain('_astro');
    expect(text).toContain('immutable');
    expect(text).toContain('text/plain');
  });
});
