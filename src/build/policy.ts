/**
 * The Content-Security-Policy of every page, and of the samples of headers for hosts. No script or style is written into a
 * page, so nothing but the site's own files is allowed, and no hash is needed. Text becomes script or markup through
 * `browser/kit/trusted.ts` alone: browsers that know Trusted Types refuse it everywhere else.
 */
export const pagePolicy: readonly string[] = [
  "default-src 'self'",
  "img-src 'self' data:",
  "object-src 'none'",
  "base-uri 'self'",
  "form-action 'self'",
  "require-trusted-types-for 'script'",
  'trusted-types halfsplit',
];
