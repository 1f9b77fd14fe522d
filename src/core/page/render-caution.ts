import { type Caution, severityWords } from '../model/library.ts';
import { addressOf } from '../link/address.ts';
import { make, type Markup } from './markup.ts';

/** What a step does to the unit: power off; power on with the case closed; power on with the case open. */
export type StepState = 'off' | 'shut' | 'live';

/** Where a caution is shown. */
export interface CautionPlace {
  /** Path below which the site lies. */
  readonly base: string;
  /** The mains caution is here because of power or set-ups, not because the author put it here for more. */
  readonly isDerived?: boolean;
  /** It comes with a set-up of the step: once the reader knows it, it is shown in the list of set-ups. */
  readonly isOfSetup?: boolean;
  /** On a step's own page, where a danger's question comes first until it was answered. */
  readonly isGate?: boolean;
  /** The step can be done without the scope that the caution is about. */
  readonly isOptional?: boolean;
  /** It is for switch-mode supplies alone, at a step that a unit with a transformer may come to: hidden for such a unit. */
  readonly isSpared?: boolean;
  readonly state?: StepState;
  /** On its own page: open, and without a link to itself. */
  readonly isReference?: boolean;
}

/** Stands once on a page, below what is grave. */
export const closing = 'Local electrical codes and workplace rules come first. Not trained for it? Stop and hand over.';

/** What a gate asks, and what may be answered: words, and what is then known beyond a yes: where the mains is, or marks (caution-gate.ts). */
interface GateWords {
  readonly asks: string;
  readonly says: readonly (readonly [words: string, known?: string])[];
}

/** What mains asks. */
const mainsAsks: Readonly<Record<StepState, GateWords>> = {
  off: { asks: 'Is it unplugged at the wall, its plug in sight?', says: [['Yes, go on']] },
  shut: {
    asks: 'Is the mains supply in this case?',
    says: [['Yes, or not sure: the case stays shut'], ['No: batteries or a brick feed it', 'outside']],
  },
  live: {
    asks: 'Is every mains part outside or covered?',
    says: [
      ['Inside, and every mains part is covered', 'inside-covered'],
      ['Outside: batteries or a brick feed it', 'outside'],
    ],
  },
};

/** Where the first plug goes in with the case closed, its question asks at once where the mains is. */
const plugSays: GateWords['says'] = [
  ['Yes, and its mains lead goes into the case', 'mains:inside mains:shut'],
  ['Batteries or a brick feed it', 'outside'],
];

/** A caution in full: what can happen, what to do, and on a step's page the question whether it may go on. */
export function renderCaution(caution: Caution, place: CautionPlace): Markup {
  const { slug, severity, title, text, actions, line, openLive } = caution;
  const { word } = severityWords[severity];
  const {
    base,
    isDerived,
    isOfSetup,
    isOptional,
    isSpared,
    isGate = false,
    state = 'off',
    isReference = false,
  } = place;
  const isDanger = severity === 'danger';
  const isGrave = isDanger || severity === 'warning';
  return make(
    'section',
    {
      class: `caution ${severity}`,
      'data-caution': slug,
      'data-state': isGate && isDanger && state,
      'data-derived': isGate && isDerived,
      'data-of-setup': isGate && isOfSetup,
      'data-optional': isOptional,
      'data-spared': isSpared,
      'aria-label': `${word}: ${title}`,
    },
    make(
      'details',
      { open: isGrave || isReference || isGate },
      make(
        'summary',
        {},
        make('span', { class: 'severity' }, word),
        ' ',
        make('span', {}, (state === 'live' ? openLive : undefined) ?? line),
      ),
      isGate && isDanger && renderGate(caution, base, state),
      make('p', { class: 'text' }, text),
      slug === 'static' &&
        make(
          'p',
          { 'data-strap': true },
          'Strap on while every mains part is outside the case or covered. ',
          make('strong', {}, 'Mains parts bare: strap off.'),
        ),
      isDanger &&
        actions.length > 0 &&
        // Where power on with the case open has a line of its own, the actions are for that.
        (isReference || openLive === undefined || state === 'live') &&
        renderActions(actions, isOptional),
      isReference && isGrave && make('p', { class: 'closing' }, closing),
      !isReference &&
        make('p', { class: 'more' }, make('a', { href: addressOf({ kind: 'caution', slug }, base) }, 'Why, and more')),
    ),
  );
}

/** What must be done; at a touch where the step may need none of it. */
function renderActions(actions: readonly string[], isOptional = false): Markup {
  const list = make(
    'ul',
    {},
    actions.map((action) => make('li', {}, action)),
  );
  return isOptional ? make('details', {}, make('summary', {}, 'How to do the tests'), list) : list;
}

function wordGate({ slug, asks = 'Is it safe for you to go on?' }: Caution, state: StepState): GateWords {
  if (slug === 'mains') return mainsAsks[state];
  if (slug === 'first-plug' && state === 'shut') return { asks, says: plugSays };
  return {
    asks,
    says: [['Yes, go on'], ...(slug === 'scope-ground' ? [['No scope is used', 'scope-ground:unused'] as const] : [])],
  };
}

function renderGate(caution: Caution, base: string, state: StepState): Markup {
  const { slug } = caution;
  const question = wordGate(caution, state);
  // Beside mains parts that may be bare, handing over comes first.
  const isRefusedFirst = slug === 'mains' && state === 'live';
  const goOn = question.says.map(([words, known], index) =>
    make(
      'a',
      {
        class: index === 0 && !isRefusedFirst ? 'press' : 'press plain',
        'data-acknowledge': known ?? true,
        href: '#step',
      },
      words,
    ),
  );
  const refuse = make(
    'a',
    {
      class: isRefusedFirst ? 'press' : 'press plain',
      'data-refuse': true,
      href: addressOf({ kind: 'hand-over' }, base),
    },
    isRefusedFirst
      ? 'Bare, or not sure: hand over'
      : slug === 'mains'
        ? 'I will not do this: hand over'
        : 'No, or not sure: hand over',
  );
  return make(
    'div',
    { class: 'gate' },
    make('p', { class: 'question' }, question.asks),
    isRefusedFirst ? [refuse, goOn] : [goOn, refuse],
  );
}
