/** `#sheet` and `#step` are places on the page: going there leaves the answers as they are. */
const places = /^#(?:sheet|step)$/;

let held = '';

/** The last fragment that held answers, `#` included; empty where none did. */
export function readFragment(): string {
  if (!places.test(location.hash)) held = location.hash;
  return held;
}

window.addEventListener('hashchange', readFragment);
readFragment();
