/** Something that a repair itself often leaves behind. */
export interface ReworkFault {
  readonly id: string;
  readonly title: string;
  /** How to look for it, unplugged and discharged. */
  readonly look: string;
}

/** What rework does, the likely and quickly seen first; common bench practice. */
export const reworkFaults: readonly ReworkFault[] = [
  {
    id: 'connector-off',
    title: 'Connector one pin off, or turned round',
    look: 'Count free pins at both ends of every plug you pulled, and compare with your photograph.',
  },
  {
    id: 'chip-turned',
    title: 'Chip, diode or capacitor the wrong way round',
    look: 'Compare notch, stripe and plus mark with your photograph and with the print on the board.',
  },
  {
    id: 'leg-bent',
    title: 'Leg bent under, or beside its contact',
    look: 'Look along each row of legs from the end, at board height. Count them.',
  },
  {
    id: 'wire-left',
    title: 'Wire, screw or link not put back',
    look: 'Go through the photographs one by one. Count screws and loose parts: nothing may be left over.',
  },
  {
    id: 'bridge',
    title: 'Solder bridge, splash or clipped end',
    look: 'Magnifier and low light over every joint you made and the ones beside it. Then ohms between neighbours.',
  },
  {
    id: 'pad-lifted',
    title: 'Lifted pad, torn hole lining or broken track',
    look: 'Ohms from the leg itself, not from the solder, to the next part on the same track, both sides.',
  },
  {
    id: 'joint-dry',
    title: 'A joint that did not take',
    look: 'Dull, ball-shaped or ringed joints, and any you forgot. Heat them again with fresh solder.',
  },
  {
    id: 'new-part-bad',
    title: 'The new part is bad or the wrong one',
    look: 'Read its marking again. Test it out of circuit as its card says, or fit a second one from another source.',
  },
];
