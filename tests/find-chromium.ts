import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { chromium } from 'playwright-core';

/** The same Chromium without its windows: pages open and close in less than half the time. */
const withoutWindows = '/usr/bin/chromium-headless-shell';

/** Usual places of a Chromium, by experience. */
const usualPlaces = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/snap/bin/chromium',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/** What a visit does not need: a renderer kept in reserve, and pages of the browser's own for its address bar. Each costs as much as a page. */
const unneeded = [
  'SpareRendererForSitePerProcess',
  'WebUIOmniboxPopup',
  'WebUIOmniboxAimPopup',
  'WebUIOmniboxFullPopup',
  // The last list counts: these are playwright-core's own.
  'AimEnabled',
  'AvoidCorsURLLoaderRestartOnRedirect',
  'AvoidUnnecessaryBeforeUnloadCheckSync',
  'DestroyProfileOnBrowserClose',
  'HttpsFirstBalancedModeAutoEnable',
  'HttpsUpgrades',
  'LensOverlay',
  'MediaRouter',
  'NetworkTimeServiceQuerying',
  'OptimizationHints',
  'PaintHolding',
  'PreconnectToSearch',
  'TcpPortRandomizationWin',
  'ThirdPartyStoragePartitioning',
];

/** Starts Chromium without its own errands to the network, and without what no test looks at. */
export const chromiumArguments: readonly string[] = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  `--disable-features=${unneeded.join(',')}`,
];

/**
 * Path of a Chromium, with its windows and settings where it must be whole: CHROMIUM_PATH, the usual places, playwright-core's cache; else one is fetched by playwright-core;
 * as a last resort, as root on Debian, by apt. Throws one clear sentence where nothing helps.
 */
export function findChromium({ isWhole = false } = {}): string {
  const found = lookForChromium(isWhole);
  if (found !== undefined) return found;
  for (const [command, ...args] of [
    ['npx', 'playwright-core', 'install', '--with-deps', 'chromium'],
    ['npx', 'playwright-core', 'install', 'chromium'],
    ...(process.getuid?.() === 0 ? [['sh', '-c', 'apt-get update -qq && apt-get install -y -qq chromium']] : []),
  ] as const) {
    try {
      execFileSync(command ?? '', args, { stdio: 'inherit', timeout: 300_000 });
    } catch {
      continue;
    }
    const fetched = lookForChromium(isWhole);
    if (fetched !== undefined) return fetched;
  }
  throw new Error('No Chromium was found and none could be installed: install one and set CHROMIUM_PATH to it.');
}

function lookForChromium(isWhole: boolean): string | undefined {
  const own = process.env['CHROMIUM_PATH'];
  if (own !== undefined && own !== '') {
    if (!existsSync(own)) throw new Error(`CHROMIUM_PATH is ${own}, but there is no such file.`);
    return own;
  }
  const places = [...(isWhole ? [] : [withoutWindows]), ...usualPlaces, chromium.executablePath()];
  return places.find((path) => path !== '' && existsSync(path));
}
