import { readOwnFigure } from './own-values.ts';

/** What one line, or the whole, comes to. */
export type Fit = 'fits' | 'fits with care' | 'not known yet' | 'does not fit';

/** How what is at hand is compared with what was fitted. */
type Rule =
  /** As a multiple of the old one at least `from`; up to `to` it fits, up to `most` with care. */
  | { readonly by: 'number'; readonly from: number; readonly to: number; readonly most: number }
  /** Equal fits, and so do the pairs `old>new` of `fits`; those of `care` with care, any other does not. */
  | { readonly by: 'choice'; readonly fits: readonly string[]; readonly care: readonly string[] }
  | { readonly by: 'family' }
  /** What only the reader can compare: the first choice fits, the second comes to `other`. */
  | { readonly by: 'eye'; readonly other: Fit };

export interface Criterion {
  readonly name: string;
  readonly unit: string;
  /** Empty where a number, or the number of a chip, is typed. */
  readonly choices: readonly string[];
  readonly rule: Rule;
  readonly why: string;
  readonly basis: string;
}

const practice = 'common bench practice';
const fuses = 'IEC 60127, from memory';
const seen = 'makers’ sheets, read; the choice is practice';

const number =
  (from: number, to: number, most: number) =>
  (name: string, unit: string, why: string, basis = practice): Criterion => ({
    ...{ name, unit, why, basis, choices: [] },
    rule: { by: 'number', from, to, most },
  });
const least = number(1, Infinity, Infinity);
const most = number(0, 1, 1);
const exact = number(0.999, 1.001, 1.001);

const choose = (
  name: string,
  choices: string,
  why: string,
  { fits = '', care = '', basis = practice }: { fits?: string; care?: string; basis?: string } = {},
): Criterion => ({
  ...{ name, unit: '', why, basis, choices: choices.split(', ').filter((one) => one !== '') },
  rule: { by: 'choice', fits: fits.split(', '), care: care.split(', ') },
});

const compare = (
  name: string,
  why: string,
  choices = 'the same, different',
  other: Fit = 'does not fit',
  basis = practice,
): Criterion => ({ name, unit: '', why, basis, choices: choices.split(', '), rule: { by: 'eye', other } });

const makes = 'aluminium, tantalum, ceramic, film';
const eitherElectrolytic = 'tantalum>aluminium, aluminium>tantalum';
const volts = least('Voltage', 'V', 'Above its volts it leaks, heats up and can burst.');
const heat = choose('Class', '85 °C, 105 °C, 125 °C', 'Beside warm parts a lower class soon dries out.', {
  fits: '85 °C>105 °C, 85 °C>125 °C, 105 °C>125 °C',
});
const legs = compare('Size and legs', 'It must sit flat, its legs unbent, with nothing hot or bare beside it.');
const pins = compare(
  'Order of the legs',
  'A like case or number is no proof: TO-92 comes as E-B-C and as C-B-E, and 78xx and 79xx differ.',
  ...(['the same, different', 'does not fit', 'makers’ sheets'] as const),
);
const tab = compare('Tab and its insulation', 'The tab is joined to a leg, and not always to the same one.');
const passing = [
  number(1, 2, 10)('Capacitance', 'µF', 'Less loses low notes or tilts the picture; far more thumps at switch-on.'),
  volts,
  choose('Made as', makes, 'Electrolytics leak some dc, and ceramic ones bend the signal.', {
    fits: 'aluminium>film, tantalum>film, ceramic>film',
    care: `${eitherElectrolytic}, film>ceramic`,
  }),
  choose('Polarity', 'plus and minus, either way', 'Plus goes to the side with the higher dc.', {
    fits: 'plus and minus>either way',
  }),
  legs,
];
const transistor = [
  choose('Polarity', 'NPN, PNP, N-channel, P-channel', 'The other polarity conducts where it must not.'),
  choose('Material', 'silicon, germanium', 'Germanium opens at 0.2 V and silicon at 0.6 V.'),
  least('Collector volts', 'V', 'This is VCEO of the sheets. Above it the transistor breaks down.'),
  least('Collector current', 'A', 'Lamps, relays and motors take more at the start.'),
  least('Power', 'W', 'One of less power gets hotter at the same work.'),
  least('Gain', '', 'Take the least of the sheet, at the current of your circuit.'),
  least('Speed', 'MHz', 'This is fT of the sheets. A slower one rounds the edges.'),
  pins,
];
const rectifier = [
  choose(
    'Kind',
    'plain, fast, Schottky, small signal',
    'A plain one overheats in a switch-mode supply, and a Schottky leaks. A zener must have the same volts and watts.',
    {
      ...{ fits: 'plain>fast', care: 'plain>Schottky, fast>Schottky', basis: seen },
    },
  ),
  least('Reverse volts', 'V', 'It sees up to three times the secondary’s ac volts. Many a Schottky stands 20 V only.'),
  least('Current', 'A', 'The first surge into the reservoir is many times the mean.'),
  compare('Ring and legs', 'The ring is the cathode. Thick legs may not pass the holes.'),
];

/** What must match, by role (`substituteRoles`); nothing where no other part is ever called fit. */
export const partCriteria: Readonly<Record<string, readonly Criterion[]>> = {
  reservoir: [
    number(1, 2, 2)('Capacitance', 'µF', 'Less lets ripple through; more than twice strains rectifier and fuse.'),
    volts,
    heat,
    least('Ripple current', 'A', 'The ripple heats it from inside.'),
    choose('Made as', makes, 'Only the kind that was there bears this ripple and the first surge.'),
    legs,
  ],
  'regulator-stability': [
    number(1, 10, 50)('Capacitance', 'µF', 'The regulator’s sheet names the least.'),
    volts,
    choose('Made as', makes, 'Its series resistance is part of the circuit. Tantalum needs twice the rail’s volts.', {
      care: `${eitherElectrolytic}, ceramic>film, film>ceramic`,
      basis: '79xx sheets, from memory: 1 µF of tantalum or 25 µF of aluminium',
    }),
    compare(
      'What its sheet asks',
      'A 7805 is stable without one at its output; 79xx and low drop-out kinds are not.',
      'kept, not kept',
    ),
  ],
  decoupling: [
    number(0.5, 2, 10)('Capacitance', 'nF', 'Half to twice is usual.'),
    volts,
    choose('Made as', makes, 'An electrolytic alone is too slow. Tantalum needs twice the rail’s volts.', {
      care: `film>ceramic, ceramic>film, tantalum>ceramic, aluminium>ceramic, ${eitherElectrolytic}`,
    }),
    compare('Length of the legs', 'A long leg is a coil to an edge.', 'as short, longer'),
  ],
  coupling: passing,
  'video-output': passing,
  timing: [
    exact('Capacitance', 'nF', 'Another value is another time. Bigger is not better here.'),
    most('Tolerance', '%', 'A wider one may not trim to the right time.'),
    volts,
    choose('Made as', makes, 'Each kind drifts and leaks in its own way.'),
    compare('Dielectric', 'Polystyrene, polyester, C0G and X7R drift by very different amounts.'),
  ],
  transistor,
  'power-transistor': [...transistor, tab],
  diode: rectifier,
  rectifier,
  regulator: [
    choose('Sign', 'positive, negative', 'The legs differ as well.', { basis: seen }),
    exact('Output', 'V', 'What hangs on it is made for this voltage.'),
    least('Current', 'A', '78L gives 0.1 A, 78M 0.5 A, a plain 78 about 1 A.', 'makers’ sheets, from memory'),
    choose(
      'Kind',
      'standard, low drop-out, switching',
      'A low drop-out kind has its own output capacitor, a module makes hash.',
      {
        ...{ care: 'standard>low drop-out, standard>switching, low drop-out>switching', basis: seen },
      },
    ),
    pins,
    tab,
  ],
  'logic-chip': [
    choose('Number behind the letters', '', 'Another number is another chip, however alike.'),
    {
      ...{ name: 'Family', unit: '', choices: ['74', '74LS', '74S', '74F', '74HC', '74HCT', '4000'] },
      rule: { by: 'family' },
      why: 'Its neighbours are taken to be of the old family, at 5 V. Each must promise what the other needs.',
      basis: 'sheets of 74, 74LS, 74HC and 4000B, read; 74S, 74F, 74HCT and all speeds from memory',
    },
    compare('Pins in both sheets', 'A few numbers have two pin-outs.'),
  ],
  resistor: [
    exact('Resistance', 'Ω', 'Two in series or side by side may make the value.'),
    most('Tolerance', '%', 'A wider one may miss what the circuit was set to.'),
    least('Power', 'W', 'A smaller one runs hotter and browns the board.'),
    choose('Kind', 'ordinary, fusible or flame-proof', 'A fusible one is there to open without fire.'),
  ],
  fuse: [
    compare(
      'Where it sits',
      'On the mains side never another fuse, and a competent person fits it: a wrong one burns unit and house.',
      'low-voltage side, mains side',
      'fits with care',
    ),
    exact('Current', 'A', 'A bigger one lets wires and windings burn first.', fuses),
    choose('Speed', 'FF, F, M, T, TT', 'A slower one lets more through, a faster one blows at every start.', {
      basis: fuses,
    }),
    choose(
      'Breaking capacity',
      'low (L), enhanced (E), high (H)',
      'A glass one bursts on what a sand-filled one stops.',
      { basis: fuses },
    ),
    least('Voltage', 'V', 'Above it the arc does not go out.', fuses),
    choose('Size', '5 × 20 mm, 6.3 × 32 mm, another', 'One that is loose in its holder heats it.', { basis: fuses }),
    choose('System', 'IEC, UL', 'The same amperes mean different currents in the two.', {
      basis: 'fuse makers’ note, read',
    }),
    compare(
      'Why the old one blew',
      'A new one into the same fault is spent at once, or something burns.',
      'found, not found',
    ),
  ],
  'mains-safety': [],
  transformer: [],
};

/** Of one family at 5 V: volts promised and needed, milliamperes sunk and taken by one input, nanoseconds of a gate. */
const families = {
  '74': { high: 2.4, low: 0.4, needs: 2, allows: 0.8, sinks: 16, takes: 1.6, slow: 10 },
  '74LS': { high: 2.7, low: 0.5, needs: 2, allows: 0.8, sinks: 8, takes: 0.4, slow: 10 },
  '74S': { high: 2.7, low: 0.5, needs: 2, allows: 0.8, sinks: 20, takes: 2, slow: 3 },
  '74F': { high: 2.5, low: 0.5, needs: 2, allows: 0.8, sinks: 20, takes: 0.6, slow: 4 },
  '74HC': { high: 3.84, low: 0.33, needs: 3.5, allows: 1.5, sinks: 4, takes: 0, slow: 9 },
  '74HCT': { high: 3.84, low: 0.33, needs: 2, allows: 0.8, sinks: 4, takes: 0, slow: 10 },
  '4000': { high: 4.6, low: 0.4, needs: 3.5, allows: 1.5, sinks: 0.44, takes: 0, slow: 100 },
};

type Said = readonly [fit: Fit, says: string];

/** One family in the place of another, among neighbours of the old one. */
function judgeFamily(before: keyof typeof families, after: keyof typeof families): Said {
  const [old, fresh] = [families[before], families[after]];
  const loads = Math.floor(fresh.sinks / old.takes);
  const sources = Math.floor(old.sinks / fresh.takes);
  const pace = fresh.slow / old.slow;
  const found: readonly (readonly [isSo: boolean, ...Said])[] = [
    [
      old.high < fresh.needs || old.low > fresh.allows,
      'does not fit',
      `Its neighbours promise ${old.high} V for a high, and it needs ${fresh.needs} V: it may work cool and fail warm.`,
    ],
    [
      fresh.high < old.needs || fresh.low > old.allows,
      'does not fit',
      `It promises ${fresh.high} V for a high, and its neighbours need ${old.needs} V.`,
    ],
    [loads < 2, 'does not fit', `It sinks ${fresh.sinks} mA, and one old input gives ${old.takes} mA.`],
    [
      sources < 2,
      'does not fit',
      `One of its inputs gives ${fresh.takes} mA, and an old output sinks ${old.sinks} mA.`,
    ],
    [pace > 3, 'does not fit', 'It is far slower.'],
    [loads >= 2 && loads < 10, 'fits with care', `It drives ${loads} old inputs and no more, so count them.`],
    [sources >= 2 && sources < 10, 'fits with care', `An old output drives ${sources} of its inputs and no more.`],
    [pace > 1.5 && pace <= 3, 'fits with care', 'It is slower.'],
    [pace < 0.5, 'fits with care', 'It is much faster, and its edges ring on long tracks.'],
    [
      old.takes > 0 && fresh.takes === 0,
      'fits with care',
      'Open inputs read high in the old family. Tie each of them.',
    ],
    [before === '4000', 'fits with care', 'It stands little more than 5 V, and a 4000 chip may have up to 15 V.'],
  ];
  const met = found.filter(([isSo]) => isSo);
  return [worst(met.map(([, fit]) => fit)), met.map(([, , says]) => says).join(' ') || 'Levels and drive are enough.'];
}

function worst(fits: readonly Fit[]): Fit {
  return (['does not fit', 'not known yet', 'fits with care'] as const).find((fit) => fits.includes(fit)) ?? 'fits';
}

/** What was typed or chosen for one line: of the part that was fitted, and of the one at hand. Empty where it is not known. */
export type Pair = readonly [fitted: string, hand: string];

export interface Line {
  readonly name: string;
  readonly fit: Fit;
  readonly says: string;
}

/** Compares a part at hand with the one that was fitted, line by line. What is not known never counts as fit. */
export function judgePart(
  kind: string,
  pairs: readonly Pair[],
): { readonly fit: Fit; readonly lines: readonly Line[] } {
  const criteria = (Object.hasOwn(partCriteria, kind) ? partCriteria[kind] : undefined) ?? [];
  const lines = criteria.map((criterion, index) => {
    const [fit, says] = judgeLine(criterion, pairs[index] ?? ['', '']);
    return { name: criterion.name, fit, says };
  });
  return { fit: lines.length === 0 ? 'does not fit' : worst(lines.map(({ fit }) => fit)), lines };
}

function judgeLine({ rule, unit, choices, name, why }: Criterion, pair: Pair): Said {
  const [before, after] = [pair[0].trim(), pair[1].trim()];
  const unknown: Said = ['not known yet', why];
  if (rule.by === 'eye') {
    if (!choices.includes(after)) return unknown;
    return after === choices[0] ? ['fits', 'Compared.'] : [rule.other, why];
  }
  const sign = unit === '' ? '' : `\u00a0${unit}`;
  const both = `${after}${sign} instead of ${before}${sign}`;
  if (rule.by === 'number') {
    const about = { name, unit, example: 0, tolerance: 0 };
    const ratio = (readOwnFigure(after, '0', about)?.value ?? 0) / (readOwnFigure(before, '0', about)?.value ?? 0);
    if (!(ratio > 0 && ratio < Infinity)) return unknown;
    if (ratio < rule.from) return ['does not fit', `${both} is too little. ${why}`];
    if (ratio > rule.most) return ['does not fit', `${both} is too much. ${why}`];
    return ratio > rule.to ? ['fits with care', `${both} is more than usual. ${why}`] : ['fits', `${both}.`];
  }
  const isChosen =
    choices.length === 0 ? before !== '' && after !== '' : [before, after].every((one) => choices.includes(one));
  if (!isChosen) return unknown;
  if (before.toUpperCase() === after.toUpperCase()) return ['fits', `${after}, as before.`];
  if (rule.by === 'family') return judgeFamily(before as keyof typeof families, after as keyof typeof families);
  if (rule.fits.includes(`${before}>${after}`)) return ['fits', `${both}.`];
  return [rule.care.includes(`${before}>${after}`) ? 'fits with care' : 'does not fit', `${both}. ${why}`];
}
