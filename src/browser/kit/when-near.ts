/** Calls `act` once, when `element` comes as near to the screen as `margin` says: a share of the screen's height. */
export function whenNear(element: Element, margin: `${number}%`, act: () => void): void {
  const watch = new IntersectionObserver(
    (entries) => {
      if (!entries.some(({ isIntersecting }) => isIntersecting)) return;
      watch.disconnect();
      act();
    },
    { rootMargin: margin },
  );
  watch.observe(element);
}
