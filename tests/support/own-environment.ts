import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

/**
 * The environment of this process without what vitest put into it, for programs started by a test: Astro reads these, and would build
 * another site, for example one whose pages have no policy.
 */
export function ownEnvironment(): NodeJS.ProcessEnv {
  const others = ['NODE_ENV', 'VITEST', 'BASE_URL', 'MODE', 'DEV', 'PROD', 'SSR', 'TEST'];
  return Object.fromEntries(Object.entries(process.env).filter(([name]) => !others.includes(name)));
}

/** The environment on a machine elsewhere: with another clock, in another zone of time and another language. */
export function environmentElsewhere(): NodeJS.ProcessEnv {
  return {
    ...ownEnvironment(),
    NODE_OPTIONS: `--import=${pathToFileURL(resolve('tests/support/other-clock.mjs')).href}`,
    TZ: 'Pacific/Kiritimati',
    LANG: 'de_DE.UTF-8',
    LC_ALL: 'de_DE.UTF-8',
  };
}
