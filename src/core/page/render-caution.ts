import { type Caution, severityWords } from '../model/library.ts';
import { addressOf } from '../link/address.ts';
import { make, type Markup } from './markup.ts';

/** Where a caution is shown. */
export interface CautionPlace {
  /** Path below which the site lies. */
  readonly base: string;
  /** The caution is here because the step is powered, not because the author put it here for more. */
  readonly isFromPower?: boolean;
  /** On a step's own page, where it is the whole first screen until it was read. */
  readonly isGate?: boolean;
  /** At a step with power on and the case open. */
  readonly isOpenLive?: boolean;
  /** On its own page: open, and without a link to itself. */
  readonly isReference?: boolean;
}

/** What a caution says in a line at a step. */
export function lineAt({ line, openLive }: Caution, isOpenLive: boolean): string {
  return (isOpenLive ? openLive : undefined) ?? line;
}

/** A caution in full: what can happen, what to do, and on a step's page the question whether it may go on. */
export function renderCaution(caution: Caution, place: CautionPlace): Markup {
  const { slug, severity, title, text, actions } = caution;
  const { word } = severityWords[severity];
  const { base, isFromPower = false, isGate = false, isOpenLive = false, isReference = false } = place;
  // What goes on beside bare mains parts: handing over comes first, and going on says what must be so.
  const isBeside = isOpenLive && slug === 'mains';
  const isGrave = severity === 'danger' || severity === 'warning';
  return make(
    'section',
    {
      class: `caution ${severity}`,
      'data-caution': slug,
      'data-open-live': isOpenLive && severity === 'danger',
      'data-from-power': isFromPower,
      'aria-label': `${word}: ${title}`,
    },
    make(
      'details',
      { open: isGrave || isReference },
      make(
        'summary',
        {},
        make('span', { class: 'severity' }, word),
        ' ',
        make('span', {}, lineAt(caution, isOpenLive)),
      ),
      isBeside && [
        make('p', {}, make('strong', {}, 'Here power is on while the case is open.')),
        make(
          'p',
          { 'data-bare': true },
          make('strong', {}, 'Mains parts bare, or you do not know: this step is not for this unit.'),
          ' First have every mains part covered by someone competent, the unit unplugged and discharged. Or hand over. Or go by what can be read with the case closed.',
        ),
      ],
      make('p', { class: 'text' }, text),
      slug === 'static' &&
        make(
          'p',
          { 'data-strap': true },
          'Strap on while every mains part is outside the case or covered. ',
          make('strong', {}, 'Mains parts bare: strap off.'),
        ),
      severity === 'danger' &&
        make(
          'ul',
          {},
          actions.map((action) => make('li', {}, action)),
        ),
      isGrave &&
        make(
          'p',
          { class: 'closing' },
          'Rules for this work differ by country, and some of it is reserved for licensed people. Your local code and your workplace’s rules come first. Not trained for this step? Stop, and pass it to someone who is.',
        ),
      !isReference &&
        make(
          'p',
          { class: 'more' },
          make('a', { href: addressOf({ kind: 'caution', slug }, base) }, 'Why, and what else to do'),
        ),
    ),
    isGate && isGrave && renderGate(caution, base, isBeside),
  );
}

function renderGate({ slug, severity }: Caution, base: string, isBeside: boolean): Markup {
  if (severity === 'warning') {
    const press = { type: 'button', class: 'press plain', 'data-acknowledge': slug };
    return make('p', { class: 'gate', hidden: true }, make('button', press, 'I have read this'));
  }
  const refuse = make(
    'a',
    { class: isBeside ? 'press' : 'press plain', 'data-refuse': true, href: addressOf({ kind: 'hand-over' }, base) },
    'I will not do this: hand over',
  );
  const goOn = make(
    'a',
    { class: isBeside ? 'press plain' : 'press', 'data-acknowledge': slug, href: '#step' },
    isBeside ? 'Every mains part is outside or covered: go on' : 'I have read this; it is safe for me to go on',
  );
  return make('p', { class: 'gate' }, isBeside ? [refuse, goOn] : [goOn, refuse]);
}
