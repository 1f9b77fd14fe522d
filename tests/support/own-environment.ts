/**
 * The environment of this process without what vitest put into it, for programs started by a test: Astro reads these, and would build
 * another site, for example one whose pages have no policy.
 */
export function ownEnvironment(): NodeJS.ProcessEnv {
  const others = ['NODE_ENV', 'VITEST', 'BASE_URL', 'MODE', 'DEV', 'PROD', 'SSR', 'TEST'];
  return Object.fromEntries(Object.entries(process.env).filter(([name]) => !others.includes(name)));
}
