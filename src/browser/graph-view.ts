const step = 1.25;
const smallest = 0.15;
const largest = 4;

/**
 * `<graph-view>`: a drawing that is panned by scrolling (finger, wheel, arrow keys) and zoomed by two fingers,
 * the wheel with Ctrl, the buttons, or the keys + - 0. Without script it scrolls.
 */
class GraphView extends HTMLElement {
  #natural = { width: 1, height: 1 };
  #scale = 1;
  readonly #touches = new Map<number, { x: number; y: number }>();

  connectedCallback(): void {
    const drawing = this.#drawing();
    if (drawing === null) return;
    this.#natural = { width: drawing.viewBox.baseVal.width, height: drawing.viewBox.baseVal.height };
    this.querySelector('[data-zoom]')?.removeAttribute('hidden');
    this.querySelector('[data-larger]')?.addEventListener('click', () => this.#zoomTo(this.#scale * step));
    this.querySelector('[data-smaller]')?.addEventListener('click', () => this.#zoomTo(this.#scale / step));
    this.querySelector('[data-fit]')?.addEventListener('click', () => this.#fit());
    this.#showReader();
    const canvas = this.#canvas();
    canvas?.addEventListener('keydown', (event) => this.#onKey(event));
    canvas?.addEventListener('wheel', (event) => this.#onWheel(event), { passive: false });
    canvas?.addEventListener('pointerdown', (event) =>
      this.#touches.set(event.pointerId, { x: event.clientX, y: event.clientY }),
    );
    canvas?.addEventListener('pointermove', (event) => this.#onMove(event));
    for (const ended of ['pointerup', 'pointercancel', 'pointerleave'] as const) {
      canvas?.addEventListener(ended, (event) => this.#touches.delete(event.pointerId));
    }
  }

  #canvas(): HTMLElement | null {
    return this.querySelector<HTMLElement>('.canvas');
  }

  #drawing(): SVGSVGElement | null {
    return this.querySelector('svg');
  }

  /** Scrolls to where the reader is, or to the start. */
  #showReader(): void {
    const canvas = this.#canvas();
    const mark = this.querySelector('svg .here') ?? this.querySelector('svg .start');
    if (canvas === null || mark === null) return;
    const place = mark.getBoundingClientRect();
    const frame = canvas.getBoundingClientRect();
    canvas.scrollBy(
      place.left + place.width / 2 - frame.left - canvas.clientWidth / 2,
      Math.max(0, place.top - frame.top - canvas.clientHeight / 3),
    );
  }

  #fit(): void {
    this.#zoomTo((this.#canvas()?.clientWidth ?? this.#natural.width) / this.#natural.width);
  }

  /** Zooms so that the middle of what is seen stays where it is. */
  #zoomTo(scale: number): void {
    const canvas = this.#canvas();
    const drawing = this.#drawing();
    if (canvas === null || drawing === null) return;
    const next = Math.min(largest, Math.max(smallest, scale));
    const middle = { x: canvas.scrollLeft + canvas.clientWidth / 2, y: canvas.scrollTop + canvas.clientHeight / 2 };
    const ratio = next / this.#scale;
    this.#scale = next;
    drawing.setAttribute('width', String(this.#natural.width * next));
    drawing.setAttribute('height', String(this.#natural.height * next));
    canvas.scrollTo(middle.x * ratio - canvas.clientWidth / 2, middle.y * ratio - canvas.clientHeight / 2);
  }

  #onKey(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === '+' || event.key === '=') this.#zoomTo(this.#scale * step);
    else if (event.key === '-') this.#zoomTo(this.#scale / step);
    else if (event.key === '0') this.#fit();
    else return;
    event.preventDefault();
  }

  #onWheel(event: WheelEvent): void {
    if (!event.ctrlKey) return;
    event.preventDefault();
    this.#zoomTo(this.#scale * (event.deltaY < 0 ? step : 1 / step));
  }

  #onMove(event: PointerEvent): void {
    const other = [...this.#touches].find(([id]) => id !== event.pointerId)?.[1];
    const before = this.#touches.get(event.pointerId);
    if (before === undefined) return;
    const now = { x: event.clientX, y: event.clientY };
    this.#touches.set(event.pointerId, now);
    if (other === undefined) return;
    const distanceBefore = Math.hypot(before.x - other.x, before.y - other.y);
    const distance = Math.hypot(now.x - other.x, now.y - other.y);
    if (distanceBefore > 20) this.#zoomTo((this.#scale * distance) / distanceBefore);
  }
}

customElements.define('graph-view', GraphView);
