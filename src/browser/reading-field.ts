import { readingsIn } from '#core/answer/answer.ts';
import { defineWithMap } from './page-data.ts';
import type { WalkPage } from './walk/walk-page.ts';

/**
 * `<reading-field>`: the field for a reading at a check or a stage. Until it is used it is only the markup of the page; the outcome
 * links do the job without it. On a touch screen the field's own keypad comes up in place of the screen keyboard.
 */
export class ReadingField extends HTMLElement {
  #page: WalkPage | undefined;
  #desk: Promise<((page: WalkPage) => void) | undefined> | undefined;

  connectedCallback(): void {
    this.addEventListener('pointerdown', this.#onPointer);
    this.addEventListener('focusin', this.#open);
    this.addEventListener('click', this.#open);
  }

  disconnectedCallback(): void {
    this.removeEventListener('pointerdown', this.#onPointer);
    this.removeEventListener('focusin', this.#open);
    this.removeEventListener('click', this.#open);
  }

  /** Called with every change of the fragment or the unit. */
  update(page: WalkPage): void {
    this.#page = page;
    const { node, stage } = this.place;
    const own = page.state.answers.find((one) => one.tree === undefined && one.node === node && one.stage === stage);
    const hasReading = own !== undefined && readingsIn(own).length > 0;
    if (this.#desk !== undefined) void this.#desk.then((update) => update?.(page));
    else if (hasReading) this.#open();
  }

  /** The check or path it belongs to, and the stage. */
  get place(): { readonly node: string; readonly stage: string | undefined } {
    return {
      node: this.closest<HTMLElement>('[data-node]')?.dataset['node'] ?? '',
      stage: this.dataset['stage'],
    };
  }

  readonly #onPointer = ({ pointerType, target }: PointerEvent): void => {
    // The field's own keypad comes up in place of the screen keyboard, before the desk is there to say so.
    if (this.#desk === undefined && pointerType === 'touch' && target instanceof HTMLInputElement)
      target.inputMode = 'none';
    this.#open();
  };

  readonly #open = (): void => {
    this.#desk ??= this.#load();
  };

  async #load(): Promise<((page: WalkPage) => void) | undefined> {
    try {
      const { openDesk } = await import('./reading/open-desk.ts');
      const page = this.#page;
      return page === undefined ? undefined : await openDesk(this, page);
    } catch {
      for (const input of this.querySelectorAll('input')) input.inputMode = 'decimal';
      this.#page?.say('Readings cannot be judged now. Answer with a button below.');
      this.#desk = undefined;
      return undefined;
    }
  }
}

defineWithMap('reading-field', ReadingField);
