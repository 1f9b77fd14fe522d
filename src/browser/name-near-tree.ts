/** On the page for addresses that lead nowhere: where the address names a tree that is here, says so with the link to it. */
const place = document.querySelector<HTMLElement>('[data-near]');
const parts = /\/trees\/([a-z0-9-]{1,60})\//.exec(location.pathname);
const slug = parts?.[1];
const found =
  slug === undefined
    ? undefined
    : [...document.querySelectorAll<HTMLAnchorElement>('main a[href]')].find(({ pathname }) =>
        pathname.endsWith(`/trees/${slug}/`),
      );
const link = place?.querySelector('a');
if (place !== null && found !== undefined && link) {
  link.href = `${found.getAttribute('href')}${location.hash}`;
  link.textContent = found.textContent;
  place.hidden = false;
}
