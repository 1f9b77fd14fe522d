// Installs from the lock file when node_modules is absent or older than the lock: everything, or with `site` only what builds the site,
// unless the rest was there before. Plain JavaScript: it runs on the machine's own Node.
import { execFileSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';

const installed = 'node_modules/.package-lock.json';
const hasTests = existsSync('node_modules/vitest');
const isForSite = process.argv[2] === 'site' && !hasTests;
const isCurrent =
  existsSync(installed) &&
  statSync(installed).mtimeMs >= statSync('package-lock.json').mtimeMs &&
  (isForSite || hasTests);
const [major = 0] = process.versions.node.split('.').map(Number);
if (major < 20) {
  console.error(`Halfsplit needs Node 20 or newer to install; this is ${process.version}.`);
  process.exit(1);
}
if (!isCurrent) {
  console.log('Installing from package-lock.json …');
  // Warnings about the machine's own Node would mislead: every script runs on the one that is installed here.
  execFileSync(
    process.platform === 'win32' ? 'npm.cmd' : 'npm',
    ['ci', ...(isForSite ? ['--omit=dev'] : []), '--no-audit', '--no-fund', '--loglevel=error'],
    {
      stdio: 'inherit',
      shell: process.platform === 'win32',
    },
  );
}
