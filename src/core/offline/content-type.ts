const types: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  css: 'text/css; charset=utf-8',
  json: 'application/json; charset=utf-8',
  mmd: 'text/plain; charset=utf-8',
  svg: 'image/svg+xml; charset=utf-8',
  webmanifest: 'application/manifest+json; charset=utf-8',
};

/** The content type of a file that a pack may hold, by the ending of its name; undefined where no pack holds such files. */
export function contentTypeOf(path: string): string | undefined {
  return types[/\.(?<ending>[a-z]+)$/u.exec(path)?.groups?.['ending'] ?? ''];
}
