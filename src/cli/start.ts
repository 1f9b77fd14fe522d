import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { loadContent, treeSlugs } from '#compiler/load.ts';
import { readPort, serve } from './serve.ts';

/** How often it says how far it is: in place on a screen, as a new line where what it says goes into a file. */
const millisecondsBetween = process.stdout.isTTY ? 250 : 5000;

/** Builds the site into dist/, and says meanwhile what it does. Ends this program where the build fails, with what the build said. */
async function build(): Promise<void> {
  const began = performance.now();
  console.log(`Building the pages of ${treeSlugs(loadContent(process.cwd())).length} fault trees …`);
  const astro = spawn(process.execPath, ['node_modules/astro/bin/astro.mjs', 'build'], {
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, NO_COLOR: '1' },
  });
  const said: string[] = [];
  let pages = 0;
  const sayHowFar = (): string => {
    const doing = pages === 0 ? 'reading the content, bundling the script' : `${pages} pages`;
    return `  ${Math.round((performance.now() - began) / 1000)} s, ${doing}`;
  };
  const clock = setInterval(() => {
    if (process.stdout.isTTY) process.stdout.write(`\r\u001b[K${sayHowFar()}`);
    else console.log(sayHowFar());
  }, millisecondsBetween);
  createInterface({ input: astro.stdout }).on('line', (line) => {
    // Each page has a line of its own in what the build says.
    if (/[├└]─ \/\S*\.html/u.test(line)) pages += 1;
    else said.push(line);
  });
  createInterface({ input: astro.stderr }).on('line', (line) => said.push(line));
  const status = await new Promise<number | null>((resolve) => {
    astro.once('close', resolve);
  });
  clearInterval(clock);
  console.log(`${process.stdout.isTTY ? '\r\u001b[K' : ''}${sayHowFar()}.`);
  if (status === 0) return;
  console.error(`${said.join('\n')}\n\nThe build failed; what it said stands above.`);
  process.exit(status ?? 1);
}

// Usage: npm start: builds the site, serves it and prints the address. What builds goes into another program, so that it can be told of.
try {
  // A wrong port is told before the wait.
  readPort(process.env['PORT']);
  await build();
  await serve();
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 2;
}
