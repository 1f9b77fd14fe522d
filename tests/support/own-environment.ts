/**
 * The environment of this process without what vitest put into it, for programs started by a test:
 * Astro reads NODE_ENV, VITEST and BASE_URL, and would build another site.
 */
export function ownEnvironment(): NodeJS.ProcessEnv {
  const { NODE_ENV: _mode, VITEST: _vitest, BASE_URL: _base, ...own } = process.env;
  return own;
}
