import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/*
 * npm run bench:scale: builds the site with every shipped tree three times over and twelve times over, in a folder of
 * its own, and prints for each: trees, pages, seconds, those of the processor among them (which other programs hardly
 * change) and the most memory the build held; then the exponent of growth of the processor's (1: twice the trees take
 * twice the time). Goal for 216 trees on two cores: 80 s, 1.5 GB.
 * npm run bench:scale -- 12 builds that many copies alone.
 */
interface Measured {
  readonly trees: number;
  readonly processorSeconds: number;
}

const asked = process.argv.slice(2).map(Number);
const measured = (asked.length > 0 ? asked : [3, 12]).map(measure);
const [small, large] = measured;
if (small !== undefined && large !== undefined) {
  const exponent = Math.log(large.processorSeconds / small.processorSeconds) / Math.log(large.trees / small.trees);
  console.log(`Exponent of growth from ${small.trees} to ${large.trees} trees: ${exponent.toFixed(2)}`);
}

function measure(copies: number): Measured {
  const root = mkdtempSync(join(tmpdir(), 'halfsplit-scale-'));
  try {
    for (const part of ['src', 'content', 'public', 'astro.config.mjs', 'tsconfig.json', 'package.json']) {
      cpSync(part, join(root, part), { recursive: true });
    }
    symlinkSync(join(process.cwd(), 'node_modules'), join(root, 'node_modules'));
    const trees = copyTrees(join(root, 'content', 'trees'), copies);
    const start = performance.now();
    const tellPeak =
      'process.on("exit",()=>{const u=process.resourceUsage();console.error("used "+u.maxRSS+" "+(u.userCPUTime+u.systemCPUTime))})';
    const { status, stderr } = spawnSync(
      process.execPath,
      [
        '--import',
        `data:text/javascript,${encodeURIComponent(tellPeak)}`,
        'node_modules/astro/bin/astro.mjs',
        'build',
        '--silent',
      ],
      { cwd: root, encoding: 'utf8', maxBuffer: 100_000_000 },
    );
    const seconds = (performance.now() - start) / 1000;
    if (status !== 0) throw new Error(`The build failed.\n${stderr.slice(0, 4000)}`);
    const pages = readdirSync(join(root, 'dist'), { recursive: true, encoding: 'utf8' }).filter((file) =>
      file.endsWith('.html'),
    );
    const [, kilobytes, microseconds] = /used (\d+) (\d+)/.exec(stderr) ?? [];
    const processorSeconds = Number(microseconds) / 1e6;
    console.log(
      `${trees} trees, ${pages.length} pages: ${seconds.toFixed(1)} s (${processorSeconds.toFixed(1)} s of the processor), ` +
        `at most ${(Number(kilobytes) / 1e6).toFixed(2)} GB`,
    );
    return { trees, processorSeconds };
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
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
