/**
 * Calls `act` once, when `element` is `seen`, or `anywhere` on the page:
 * as soon as it is laid out at all, as nothing below a step is while a danger holds the step back.
 */
export function whenNear(element: Element, margin: 'seen' | 'anywhere', act: () => void): void {
  const watch = new IntersectionObserver(
    (entries) => {
      if (!entries.some(({ isIntersecting }) => isIntersecting)) return;
      watch.disconnect();
      act();
    },
    { rootMargin: margin === 'seen' ? '0%' : '99999%' },
  );
  watch.observe(element);
}
