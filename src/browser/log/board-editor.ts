import {
  type Board,
  boxOf,
  type PlacedKind,
  type PlacedPart,
  type Placement,
  placeBody,
  placementLimits,
  sayThird,
  type Spot,
  turns,
} from '#core/model/placement.ts';
import { checkPlacement, type DrawnPlacement, readPlacement } from '#core/model/placement-schema.ts';
import { drawBoard, findPlace, type LitMark } from '#core/page/draw-placement.ts';
import { makeButton, makeElement, makeNodes } from '../kit/elements.ts';
import { read, write } from '../kit/storage.ts';

/** What the drawing is of, and where it is kept. */
export interface BoardDesk {
  readonly job: string;
  readonly placement: Placement | undefined;
  /** The test points that checks name. */
  readonly points: readonly { readonly slug: string; readonly title: string }[];
  /** Undefined takes the drawing away. */
  readonly save: (placement: DrawnPlacement | undefined) => Promise<boolean>;
}

const editors = new WeakMap<HTMLElement, BoardEditor>();

/** Opens the drawing of a job's board in a place, or brings the one that is open there up to date. */
export function openBoardEditor(place: HTMLElement, desk: BoardDesk): void {
  const open = editors.get(place);
  if (open?.isOf(desk) === true) return;
  const editor = new BoardEditor(place, desk);
  editors.set(place, editor);
}

const emptyBoard: Board = { name: 'Main board', width: 200, height: 150, edges: ['rear', 'front'], parts: [] };

/** Steps that are kept for Undo. */
const mostSteps = 100;

/** What a new part of each kind begins with, and what its size is called. */
const sizes: Readonly<Record<PlacedKind, readonly (readonly [label: string, value: number])[]>> = {
  chip: [['Pins', 14]],
  can: [['Width across, mm', 12]],
  legs: [['Legs', 3]],
  plug: [['Contacts', 4]],
  two: [['From leg to leg, mm', 12]],
  box: [
    ['Width, mm', 20],
    ['Height, mm', 20],
  ],
};
const kinds: Readonly<Record<PlacedKind, { readonly title: string; readonly lies: string }>> = {
  chip: { title: 'Chip, two rows of pins', lies: 'its notch and pin 1 to the rear' },
  legs: { title: 'Legs in a row', lies: 'its print to the front' },
  can: { title: 'Round can', lies: 'its plus to the left' },
  two: { title: 'Part with two legs', lies: 'leg 1, or the band, to the left' },
  plug: { title: 'Plug or socket', lies: 'contact 1 to the left' },
  box: { title: 'Anything else', lies: 'its width across' },
};
/** What a new part of each kind is mostly called on a board. */
const letters: Readonly<Record<PlacedKind, string>> = {
  chip: 'IC',
  can: 'C',
  legs: 'Q',
  plug: 'CN',
  two: 'R',
  box: 'T',
};

/** A part that is being dragged: where the pointer took it, off its middle, and where it is now. */
interface Drag {
  readonly part: PlacedPart;
  readonly across: number;
  readonly down: number;
  readonly to: PlacedPart;
}

/** A pointer that moves less than this, in millimetres, touches and does not drag. */
const leastDrag = 2;

/**
 * A board drawn by its reader: a touch on the drawing puts the mark there or takes the part under it; everything else is a field or
 * a button beside it. The arrow keys move the mark. A part is dragged by the mouse at once, by a finger when it is taken: else a
 * finger scrolls the page.
 */
class BoardEditor {
  readonly #desk: BoardDesk;
  /** What the job holds, as JSON. */
  #saved: string | undefined;
  #drawn: Placement;
  readonly #before: Placement[] = [];
  /** Where the mark is, in millimetres. */
  #x: number;
  #y: number;
  /** The part under the mark. */
  #name: string | undefined;
  /** What was chosen last stays chosen. */
  #kind: PlacedKind = 'chip';
  #point = '';
  /** The next touch moves it. */
  #isMoving = false;
  #drag: Drag | undefined;
  /** The click that ends a drag is no touch. */
  #isDropped = false;
  readonly #canvas = makeElement('div', {
    tabindex: '0',
    role: 'group',
    'aria-label': 'The board. Touch a place, drag a part, or move the mark with the arrow keys: 5 mm, with Shift 1 mm.',
  });
  readonly #tools = makeElement('div');
  readonly #said = makeElement('p', { role: 'status', 'aria-live': 'polite' });

  constructor(place: HTMLElement, desk: BoardDesk) {
    this.#desk = desk;
    this.#saved = JSON.stringify(desk.placement);
    const draft = readPlacement(read('boardDraft', desk.job));
    this.#drawn = draft ?? desk.placement ?? { boards: [emptyBoard], points: {} };
    const { width, height } = this.#board;
    [this.#x, this.#y] = [Math.round(width / 2), Math.round(height / 2)];
    this.#canvas.addEventListener('click', this.#touch);
    this.#canvas.addEventListener('keydown', this.#key);
    this.#canvas.addEventListener('pointerdown', this.#takeUp);
    this.#canvas.addEventListener('pointermove', this.#carry);
    this.#canvas.addEventListener('pointerup', this.#drop);
    this.#canvas.addEventListener('pointercancel', this.#letGo);
    place.replaceChildren(
      makeElement(
        'p',
        { class: 'hint' },
        'Unplugged, from a photograph of the board: draw a handful of parts and put test points on them. The checks of this job then show the place. Names are those printed on the board.',
      ),
      this.#canvas,
      this.#said,
      this.#tools,
    );
    this.#show();
    if (draft !== undefined) this.#say('This drawing was not saved yet.');
  }

  /** Whether this editor still stands for the job: what is drawn and not saved stays. */
  isOf({ job, placement }: BoardDesk): boolean {
    return job === this.#desk.job && (this.#isChanged || JSON.stringify(placement) === this.#saved);
  }

  get #isChanged(): boolean {
    return read('boardDraft', this.#desk.job) !== undefined;
  }

  get #board(): Board {
    return this.#drawn.boards[0] ?? emptyBoard;
  }

  get #part(): PlacedPart | undefined {
    return this.#board.parts.find(({ name }) => name === this.#name);
  }

  readonly #touch = (event: MouseEvent): void => {
    const place = this.#placeOf(event);
    if (place === undefined || event.detail === 0 || this.#isDropped) return;
    this.#markAt(place.x, place.y);
  };

  /** Where on the board a pointer is, in millimetres. */
  #placeOf({ clientX, clientY }: MouseEvent): { readonly x: number; readonly y: number } | undefined {
    const svg = this.#canvas.querySelector('svg');
    if (svg === null) return undefined;
    const { left, top, width } = svg.getBoundingClientRect();
    const units = svg.viewBox.baseVal.width / width;
    return findPlace(this.#board, (clientX - left) * units, (clientY - top) * units);
  }

  readonly #takeUp = (event: PointerEvent): void => {
    this.#isDropped = false;
    const place = this.#placeOf(event);
    if (place === undefined || !event.isPrimary || event.button !== 0) return;
    const part = findPart(this.#board, place.x, place.y);
    if (part === undefined || (event.pointerType === 'touch' && part.name !== this.#name)) return;
    this.#drag = { part, across: part.x - place.x, down: part.y - place.y, to: part };
  };

  readonly #carry = (event: PointerEvent): void => {
    const place = this.#placeOf(event);
    if (this.#drag === undefined || place === undefined) return;
    const { part, across, down, to } = this.#drag;
    const { width, height } = this.#board;
    const [x, y] = [hold(place.x + across, width), hold(place.y + down, height)];
    if (to === part && Math.hypot(x - part.x, y - part.y) < leastDrag) return;
    if (to === part) this.#canvas.setPointerCapture(event.pointerId);
    const moved = { ...part, x, y };
    this.#drag = { part, across, down, to: moved };
    const parts = this.#board.parts.map((one) => (one === part ? moved : one));
    this.#draw({ ...this.#board, parts }, moved);
  };

  /** What was dragged is one change, which Undo takes back. */
  readonly #drop = (): void => {
    if (this.#drag === undefined) return;
    const { part, to } = this.#drag;
    this.#drag = undefined;
    if (to === part) return;
    this.#isDropped = true;
    [this.#x, this.#y, this.#name] = [to.x, to.y, part.name];
    this.#changePart(part, to);
  };

  readonly #letGo = (): void => {
    if (this.#drag === undefined) return;
    this.#drag = undefined;
    this.#draw(this.#board, this.#part);
  };

  readonly #key = (event: KeyboardEvent): void => {
    const step = event.shiftKey ? 1 : 5;
    const [across, down] = arrows[event.key] ?? [0, 0];
    if (across === 0 && down === 0) return;
    event.preventDefault();
    const { width, height } = this.#board;
    this.#markAt(hold(this.#x + across * step, width), hold(this.#y + down * step, height));
  };

  /** The mark goes there, and with it the part that is being moved; else the part that lies there is taken. */
  #markAt(x: number, y: number): void {
    [this.#x, this.#y] = [x, y];
    const part = this.#part;
    if (this.#isMoving && part !== undefined) {
      this.#changePart(part, { ...part, x, y });
      return;
    }
    this.#name = findPart(this.#board, x, y)?.name;
    this.#show();
    this.#say(`${this.#name ?? 'Nothing'} at ${x}, ${y} mm, ${sayThird(this.#board, x, y)}.`);
  }

  #changePart(part: PlacedPart, changed: PlacedPart): void {
    const parts = this.#board.parts.map((one) => (one === part ? changed : one));
    const points = Object.fromEntries(
      Object.entries(this.#drawn.points).map(([point, spots]) => [
        point,
        spots.map((spot) => ('part' in spot && spot.part === part.name ? { ...spot, part: changed.name } : spot)),
      ]),
    );
    if (this.#change({ ...this.#board, parts }, points)) this.#name = changed.name;
    this.#show();
  }

  /** Takes a change, if a job can hold it; Undo brings back what was before. */
  #change(board: Board, points: Placement['points'] = this.#drawn.points): boolean {
    const drawn = { boards: [board, ...this.#drawn.boards.slice(1)], points };
    const checked = checkPlacement(drawn);
    if (typeof checked === 'string') {
      this.#say(`That cannot be drawn: expected ${checked}.`);
      return false;
    }
    this.#before.push(this.#drawn);
    if (this.#before.length > mostSteps) this.#before.shift();
    this.#keep(drawn);
    return true;
  }

  #keep(drawn: Placement): void {
    this.#drawn = drawn;
    write('boardDraft', JSON.stringify(drawn), this.#desk.job);
    this.#say('Not saved yet.');
  }

  #say(text: string): void {
    this.#said.textContent = text;
  }

  #draw(board: Board, part: PlacedPart | undefined): void {
    const mark: LitMark =
      part === undefined
        ? { flag: 'mark', spots: [{ board: board.name, x: this.#x, y: this.#y }] }
        : { flag: part.name, spots: [{ part: part.name, pins: [] }] };
    this.#canvas.replaceChildren(...makeNodes(drawBoard(board, 'component', [mark])));
    this.#canvas.style.touchAction = part === undefined ? '' : 'none';
  }

  #show(): void {
    const part = this.#part;
    this.#draw(this.#board, part);
    const focused = document.activeElement instanceof HTMLElement ? document.activeElement.dataset['tool'] : undefined;
    this.#tools.replaceChildren(
      part === undefined ? this.#makeNew() : this.#makeTools(part),
      this.#makePoints(part),
      this.#makeOutline(),
      this.#makeEnd(),
    );
    if (focused !== undefined) this.#tools.querySelector<HTMLElement>(`[data-tool="${focused}"]`)?.focus();
  }

  /** A part is added at the mark. */
  #makeNew(): HTMLElement {
    const kind = makeElement(
      'select',
      { autocomplete: 'off' },
      ...Object.entries(kinds).map(([value, { title }]) => makeElement('option', { value }, title)),
    );
    const name = makeElement('input', { autocomplete: 'off', maxlength: String(placementLimits.name) });
    const room = makeElement('span');
    const chosen = (): PlacedKind => (isKind(kind.value) ? kind.value : 'box');
    const fill = (): void => {
      room.replaceChildren(...sizes[chosen()].map(([label, value]) => makeNumber(label, value)));
      name.value = this.#freeName(letters[chosen()]);
    };
    kind.value = this.#kind;
    kind.addEventListener('change', () => {
      this.#kind = chosen();
      fill();
    });
    fill();
    const add = makeButton('Add the part at the mark', 'press', () => {
      const numbers = [...room.querySelectorAll('input')].map((field) => field.valueAsNumber);
      const size = chosen() === 'plug' ? [...numbers, 1, 2.54] : numbers;
      const made: PlacedPart = { name: name.value.trim(), kind: chosen(), size, x: this.#x, y: this.#y, turn: 0 };
      if (this.#board.parts.some((other) => other.name === made.name)) {
        this.#say(`${made.name} is drawn already: give this part another name.`);
        return;
      }
      if (this.#change({ ...this.#board, parts: [...this.#board.parts, made] })) this.#name = made.name;
      this.#show();
    });
    return makeElement(
      'div',
      { class: 'log-form' },
      makeElement('label', {}, 'Kind of part', kind),
      room,
      makeElement('label', {}, 'Name', name),
      add,
    );
  }

  #freeName(start: string): string {
    const taken = new Set(this.#board.parts.map(({ name }) => name));
    let number = 1;
    while (taken.has(`${start}${number}`)) number += 1;
    return `${start}${number}`;
  }

  #makeTools(part: PlacedPart): HTMLElement {
    const name = makeElement('input', {
      autocomplete: 'off',
      maxlength: String(placementLimits.name),
      value: part.name,
      'data-tool': 'name',
    });
    name.addEventListener('change', () => {
      const wanted = name.value.trim();
      if (this.#board.parts.some((other) => other !== part && other.name === wanted)) {
        this.#say(`${wanted} is drawn already.`);
        return;
      }
      this.#changePart(part, { ...part, name: wanted });
    });
    const move = makeTool(this.#isMoving ? 'It stays here' : 'Move it', 'move', () => {
      this.#isMoving = !this.#isMoving;
      this.#show();
      this.#say(this.#isMoving ? 'Touch its new place, or use the arrow keys on the board.' : 'It stays.');
    });
    const turn = makeTool('Turn it', 'turn', () => {
      const next = turns[(turns.indexOf(part.turn) + 1) % turns.length] ?? 0;
      this.#changePart(part, { ...part, turn: next });
      this.#say(`Turned ${next} degrees to the right; at 0 it has ${kinds[part.kind].lies}.`);
    });
    const remove = makeTool('Delete it', 'delete', () => {
      const points = Object.fromEntries(
        Object.entries(this.#drawn.points).flatMap(([point, spots]) => {
          const left = spots.filter((spot) => !('part' in spot && spot.part === part.name));
          return left.length === 0 ? [] : [[point, left] as const];
        }),
      );
      this.#leave();
      this.#change({ ...this.#board, parts: this.#board.parts.filter((one) => one !== part) }, points);
      this.#show();
    });
    const done = makeTool('Another part', 'done', () => {
      this.#leave();
      this.#show();
    });
    return makeElement(
      'div',
      { class: 'log-form' },
      makeElement('label', {}, 'Name', name),
      makeElement('p', { class: 'row' }, move, turn, remove, done),
    );
  }

  #leave(): void {
    this.#name = undefined;
    this.#isMoving = false;
  }

  /** The point of a check is put on the part that is taken, at a pin of it, or at the mark. */
  #makePoints(part: PlacedPart | undefined): HTMLElement {
    const { points } = this.#drawn;
    const choice = makeElement(
      'select',
      { autocomplete: 'off', 'data-tool': 'point' },
      ...this.#desk.points.map(({ slug, title }) => makeElement('option', { value: slug }, title)),
    );
    if (this.#point !== '') choice.value = this.#point;
    choice.addEventListener('change', () => {
      this.#point = choice.value;
    });
    const pins = part === undefined ? [] : placeBody(part).legs;
    const pin = makeElement('input', { type: 'text', inputmode: 'numeric', autocomplete: 'off', maxlength: '2' });
    const put = makeButton(
      `Put the point ${part === undefined ? 'at the mark' : `on ${part.name}`}`,
      'press plain',
      () => {
        const number = Number(pin.value);
        const has = pins.some((leg) => leg.number === number);
        if (pin.value.trim() !== '' && !has) {
          this.#say(`${part?.name ?? 'It'} has ${pins.length} legs.`);
          return;
        }
        const spot: Spot =
          part === undefined
            ? { board: this.#board.name, x: this.#x, y: this.#y }
            : { part: part.name, pins: has ? [number] : [] };
        this.#change(this.#board, { ...points, [choice.value]: [spot] });
        this.#show();
      },
    );
    const titleOf = (point: string): string =>
      this.#desk.points.find(({ slug }) => slug === point)?.title ?? point.replaceAll('-', ' ');
    const list = Object.entries(points).map(([point, spots]) => {
      const { [point]: _taken, ...others } = points;
      const drop = makeButton(`Remove: ${titleOf(point)}`, 'press plain small', () => {
        this.#change(this.#board, others);
        this.#show();
      });
      return makeElement('li', {}, `${titleOf(point)}: ${spots.map(saySpot).join(', ')} `, drop);
    });
    return makeElement(
      'div',
      { class: 'log-form' },
      makeElement('label', {}, 'Test point', choice),
      ...(pins.length === 0 ? [] : [makeElement('label', {}, 'Pin or leg, if it is one', pin)]),
      put,
      makeElement('ul', { class: 'log-list', 'aria-label': 'Test points in the drawing' }, ...list),
    );
  }

  #makeOutline(): HTMLElement {
    const { width, height } = this.#board;
    const wide = makeNumber('Board, width in mm', width);
    const high = makeNumber('Board, height in mm', height);
    const take = (): void => {
      const [w = 0, h = 0] = [wide, high].map((label) => label.querySelector('input')?.valueAsNumber ?? 0);
      this.#change({ ...this.#board, width: w, height: h });
      [this.#x, this.#y] = [Math.min(this.#x, this.#board.width), Math.min(this.#y, this.#board.height)];
      this.#show();
    };
    for (const label of [wide, high]) label.addEventListener('change', take);
    return makeElement('div', { class: 'log-form' }, wide, high);
  }

  #makeEnd(): HTMLElement {
    const undo = makeTool('Undo', 'undo', () => {
      const before = this.#before.pop();
      if (before === undefined) return;
      this.#leave();
      this.#keep(before);
      this.#show();
    });
    undo.disabled = this.#before.length === 0;
    const save = makeButton('Save the drawing', 'press', () => void this.#save());
    const drop = makeButton('Remove the drawing', 'press plain', () => {
      if (confirm('Remove the drawing of this board? The log keeps what was saved before.')) void this.#remove();
    });
    return makeElement('p', { class: 'row' }, undo, save, ...(this.#desk.placement === undefined ? [] : [drop]));
  }

  async #save(): Promise<void> {
    const checked = checkPlacement(this.#drawn);
    if (typeof checked !== 'string') await this.#end(checked, 'Saved. The checks of this job show it.');
  }

  async #remove(): Promise<void> {
    await this.#end(undefined, 'The drawing was removed.');
  }

  async #end(drawn: DrawnPlacement | undefined, said: string): Promise<void> {
    const draft = read('boardDraft', this.#desk.job);
    // Not changed any more, so that the page opens what was written.
    write('boardDraft', undefined, this.#desk.job);
    const before = this.#saved;
    if (drawn !== undefined) this.#saved = JSON.stringify(drawn);
    try {
      if (await this.#desk.save(drawn)) this.#say(said);
    } catch {
      this.#saved = before;
      write('boardDraft', draft, this.#desk.job);
      this.#say('It could not be saved. What you drew is kept here: press again.');
    }
  }
}

const arrows: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

const hold = (value: number, most: number): number => Math.max(0, Math.min(value, most));

const isKind = (value: string): value is PlacedKind => Object.hasOwn(kinds, value);

/** The part at a place, with room for a thumb: the one whose middle is nearest. */
function findPart({ parts }: Board, x: number, y: number): PlacedPart | undefined {
  const room = 3;
  return parts
    .filter((part) => {
      const { left, top, right, foot } = boxOf(part);
      return x > left - room && x < right + room && y > top - room && y < foot + room;
    })
    .sort((one, other) => Math.hypot(one.x - x, one.y - y) - Math.hypot(other.x - x, other.y - y))[0];
}

function saySpot(spot: Spot): string {
  if (!('part' in spot)) return `${spot.x}, ${spot.y} mm`;
  return spot.pins.length === 0 ? spot.part : `${spot.part}, ${spot.pins.join(', ')}`;
}

function makeNumber(label: string, value: number): HTMLLabelElement {
  const field = makeElement('input', {
    type: 'number',
    inputmode: 'numeric',
    autocomplete: 'off',
    value: String(value),
  });
  return makeElement('label', {}, `${label} `, field);
}

function makeTool(text: string, tool: string, press: () => void): HTMLButtonElement {
  const button = makeButton(text, 'press plain', press);
  button.dataset['tool'] = tool;
  return button;
}
