import { readdirSync, readFileSync } from 'node:fs';

/** A page of each kind: its place in the site, the scripts that it loads and the kind of step that it shows. A new kind comes in by itself. */
export const kindsOfPage: readonly string[] = [
  ...Map.groupBy(
    readdirSync('dist', { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.html'))
      .sort(),
    (file) => {
      const text = readFileSync(`dist/${file}`, 'utf8');
      const scripts = [...text.matchAll(/<script[^<>]{0,200} src="([^"]+)"/gu)].map(([, source]) => source);
      const [, step = ''] = /data-kind="([a-z-]+)"/u.exec(text) ?? [];
      return [file.split('/')[0], file.split('/').length, step, ...scripts.sort()].join(' ');
    },
  ).values(),
].map(([file = '']) => `/${file.replace(/(^|\/)index\.html$/u, '$1')}`);
