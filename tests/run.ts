import { execFileSync, spawn } from 'node:child_process';
import { findChromium } from './find-chromium.ts';

// npm test: everything that must hold, quick checks first. `npm test -- <vitest arguments>` runs only vitest with them.
const only = process.argv.slice(2);

type Step = readonly [name: string, command: string, ...args: readonly string[]];

const steps: readonly Step[] = [
  ['types', 'astro', 'check', '--minimumFailingSeverity', 'warning'],
  ['format', 'prettier', '--check', '--log-level', 'warn', '.'],
  ['lint', 'biome', 'lint', '--error-on-warnings'],
  ['types of core', 'tsc', '-p', 'src/core/tsconfig.json'],
  ['types of the offline worker', 'tsc', '-p', 'src/offline/tsconfig.json'],
  ['import boundaries', 'depcruise', 'src', 'tests', '--output-type', 'err'],
  ['unused code', 'knip'],
  ['code for tests alone', 'knip', '--production', '--exclude', 'dependencies,unlisted,unresolved,binaries'],
  ['content', 'node', 'src/cli/check.ts'],
];

/** Runs a step and prints what it said once it is done. Where it failed, that is the end. */
function run([name, command, ...args]: Step): Promise<void> {
  const said: Buffer[] = [];
  const child = spawn(command, args, { stdio: ['ignore', 'pipe', 'pipe'] });
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (part: Buffer) => said.push(part));
  return new Promise((resolve) => {
    const end = (status: number | null): void => {
      console.log(`\n── ${name}\n${Buffer.concat(said).toString('utf8').trimEnd()}`);
      if (status === 0) {
        resolve();
        return;
      }
      console.error(`\n${name}: failed`);
      process.exit(status ?? 1);
    };
    child.once('error', ({ message }) => {
      said.push(Buffer.from(message));
      end(1);
    });
    child.once('close', end);
  });
}

if (only.length === 0) {
  const waiting = [...steps];
  const work = async (): Promise<void> => {
    for (let step = waiting.shift(); step !== undefined; step = waiting.shift()) await run(step);
  };
  // Two at a time: the smallest machine for it has two cores.
  await Promise.all([work(), work()]);
}

console.log('\n── tests');
findChromium();
execFileSync('vitest', ['run', ...only], { stdio: 'inherit' });
