import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/*
 * npm run bench:scale: builds the site with every shipped tree four times over and twenty times over, each in a folder of its own, and
 * prints for each: trees and pages; then seconds, those of the processor among them (which other programs hardly change) and the most
 * memory of a build with nothing kept from before, of one after the title of one tree was changed, and of the check of all content,
 * first and again; and the exponent of growth of the processor's (1: twice the trees take twice the time).
 * Goals for 1,000 trees on two quiet cores: 300 s and 3 GB, 45 s, 15 s, and an exponent of at most 1.1.
 * npm run bench:scale -- 12 builds that many copies alone.
 */
interface Used {
  readonly seconds: number;
  readonly processorSeconds: number;
  readonly gigabytes: number;
}

/** What a build may hold of JavaScript's own memory, in megabytes; without a bound it grows as far as the machine lets it. */
const heap = 2600;

const asked = process.argv.slice(2).map(Number);
const measured = (asked.length > 0 ? asked : [4, 20]).map(measure);
const [small, large] = measured;
if (small !== undefined && large !== undefined) {
  const growth = Math.log(large.cold.processorSeconds / small.cold.processorSeconds);
  const exponent = growth / Math.log(large.trees / small.trees);
  console.log(`Exponent of growth from ${small.trees} to ${large.trees} trees: ${exponent.toFixed(2)} (goal 1.1)`);
}

function measure(copies: number): { readonly trees: number; readonly cold: Used } {
  const root = mkdtempSync(join(tmpdir(), 'halfsplit-scale-'));
  try {
    for (const part of [
      'src',
      'content',
      'public',
      'astro.config.mjs',
      'tsconfig.json',
      'package.json',
      'package-lock.json',
    ]) {
      cpSync(part, join(root, part), { recursive: true });
    }
    // A folder of its own, so that what is kept from run to run is its own too.
    mkdirSync(join(root, 'node_modules'));
    for (const name of readdirSync('node_modules').filter((each) => !each.startsWith('.'))) {
      symlinkSync(join(process.cwd(), 'node_modules', name), join(root, 'node_modules', name));
    }
    const folder = join(root, 'content', 'trees');
    const trees = copyTrees(folder, copies);
    const build = ['node_modules/astro/bin/astro.mjs', 'build', '--silent'];
    const cold = run(root, build);
    const pages = readdirSync(join(root, 'dist'), { recursive: true, encoding: 'utf8' }).filter((file) =>
      file.endsWith('.html'),
    );
    console.log(`\n${trees} trees, ${pages.length} pages`);
    tell('build, nothing kept', cold, '300 s, 3 GB');
    const [changed = ''] = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((file) =>
      file.endsWith('.mdx'),
    );
    const text = readFileSync(join(folder, changed), 'utf8');
    writeFileSync(join(folder, changed), text.replace(/^(title: .*?)("?)$/m, '$1 again$2'));
    tell('build, one tree changed', run(root, build), '45 s');
    rmSync(join(root, 'node_modules', '.cache'), { recursive: true, force: true });
    tell('check, nothing kept', run(root, ['src/cli/check.ts']), '');
    tell('check again', run(root, ['src/cli/check.ts']), '15 s');
    return { trees, cold };
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
}

function tell(what: string, { seconds, processorSeconds, gigabytes }: Used, goal: string): void {
  console.log(
    `${what.padEnd(24)} ${seconds.toFixed(1)} s, ${processorSeconds.toFixed(1)} s of the processor, at most ${gigabytes.toFixed(2)} GB` +
      (goal === '' ? '' : ` (goal for 1,000 trees: ${goal})`),
  );
}

function run(root: string, words: readonly string[]): Used {
  const tellPeak =
    'process.on("exit",()=>{const u=process.resourceUsage();console.error("used "+u.maxRSS+" "+(u.userCPUTime+u.systemCPUTime))})';
  const start = performance.now();
  const { status, stderr } = spawnSync(
    process.execPath,
    [`--max-old-space-size=${heap}`, '--import', `data:text/javascript,${encodeURIComponent(tellPeak)}`, ...words],
    { cwd: root, encoding: 'utf8', maxBuffer: 100_000_000 },
  );
  const seconds = (performance.now() - start) / 1000;
  if (status !== 0) throw new Error(`${words.join(' ')} failed.\n${stderr.slice(0, 4000)}`);
  // A worker that ends tells too; the program ends last.
  const [, kilobytes, microseconds] = [...stderr.matchAll(/used (\d+) (\d+)/g)].at(-1) ?? [];
  return { seconds, processorSeconds: Number(microseconds) / 1e6, gigabytes: Number(kilobytes) / 1e6 };
}

/** Writes copies of every tree beside it, with words of their own where two trees may not share them; returns how many trees there are. */
function copyTrees(folder: string, copies: number): number {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.mdx'));
  for (const file of files) {
    const text = readFileSync(join(folder, file), 'utf8').replaceAll(/ was="[^"]*"/g, '');
    const [, head = '', body = ''] = /^(---\n[\s\S]*?\n---\n)([\s\S]*)$/.exec(text) ?? [];
    const first = head.replace(/^was:.*\n(?: +- .*\n)*/m, '');
    for (let copy = 2; copy <= copies; copy += 1) {
      const marked = first.replaceAll(/^(title: | +- )(.*?)("?)$/gm, `$1$2 ${copy}$3`);
      writeFileSync(join(folder, file.replace(/\.mdx$/, `-${copy}.mdx`)), marked + body);
    }
  }
  return files.length * copies;
}
