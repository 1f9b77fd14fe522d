import { fileURLToPath } from 'node:url';
import type { AstroIntegration } from 'astro';
import { blockOfTree } from './block-of-tree.ts';
import { writeOffline } from './write-offline.ts';

/** Astro integration: makes the finished site work offline. Stands last, so that it sees all that others build. */
export function offlineSite(): AstroIntegration {
  return {
    name: 'offline-site',
    hooks: { 'astro:build:done': ({ dir }) => writeOffline(fileURLToPath(dir), blockOfTree()) },
  };
}
