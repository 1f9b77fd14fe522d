import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'vite';

/**
 * Bundles the offline worker into `sw.js` at the site's base, with what it has to know of this build.
 * @param constants expression in the worker's source, and the JSON value that takes its place
 */
export async function bundleWorker(folder: string, constants: Readonly<Record<string, unknown>>): Promise<void> {
  const result = await build({
    configFile: false,
    logLevel: 'error',
    publicDir: false,
    mode: 'production',
    define: {
      'process.env.NODE_ENV': JSON.stringify('production'),
      ...Object.fromEntries(Object.entries(constants).map(([name, value]) => [name, JSON.stringify(value)])),
    },
    build: {
      write: false,
      target: 'es2022',
      modulePreload: false,
      rolldownOptions: { input: 'src/offline/worker.ts', output: { format: 'iife', entryFileNames: 'sw.js' } },
    },
  });
  const outputs = [result].flat().flatMap((one) => ('output' in one ? one.output : []));
  const [script] = outputs;
  if (outputs.length !== 1 || script?.type !== 'chunk') throw new Error('The offline worker is not one script.');
  writeFileSync(join(folder, 'sw.js'), script.code);
}
