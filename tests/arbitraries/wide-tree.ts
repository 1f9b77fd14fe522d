import type { FaultTree } from '#core/model/fault-tree.ts';
import { makeCause, makeCheck, makeElsewhere, makeHandOver, makePath, makeTree } from './make-tree.ts';

/** A tree of 25 nodes with long titles, a path of five stages, shared ends and long ways: as wide as trees get. */
export const wideTree: FaultTree = makeTree(
  [
    makeCheck(
      'lead-known-good',
      { 'works-now': 'lead-bad', 'still-silent': 'lamp' },
      { title: 'Is it silent with a lead and loudspeaker known to be good?' },
    ),
    makeCheck(
      'lamp',
      { yes: 'rail-present', no: 'fuse', dim: 'rail-present' },
      { title: 'Does the lamp on the front light?' },
    ),
    makeCheck(
      'fuse',
      { open: 'fuse-again', whole: 'lead-open' },
      { title: 'Is the fuse whole, read out of its holder?' },
    ),
    makeCheck(
      'fuse-again',
      { yes: 'primary-short', no: 'fuse-tired' },
      { title: 'Does a new fuse of the same rating blow?' },
    ),
    makeCheck(
      'rail-present',
      { none: 'regulator-path', low: 'rail-short', in: 'tone-at-pot', high: 'regulator-shorted' },
      { title: 'What does the 5 V rail read at the farthest chip?' },
    ),
    makePath(
      'regulator-path',
      {
        'secondary of the transformer': 'winding-open',
        'bridge rectifier': 'bridge-open',
        'reservoir capacitor': 'reservoir-dry',
        'regulator input pin': 'track-cracked',
        'regulator output pin': 'regulator-open',
      },
      'rail-short',
      { title: 'From the transformer to the regulator output' },
    ),
    makeCheck(
      'rail-short',
      { 'below-1-ohm': 'rail-elsewhere', above: 'reservoir-dry' },
      { title: 'Is the rail shorted with the board unplugged from the supply?' },
    ),
    makeCheck(
      'tone-at-pot',
      { 'low none': 'tone-source', in: 'amplifier-path' },
      { title: 'Is the tone there at the top of the volume control?' },
    ),
    makePath(
      'amplifier-path',
      { 'volume wiper': 'pot-worn', 'amplifier input pin': 'coupling-open', 'amplifier output pin': 'amplifier-dead' },
      'speaker-open',
      { title: 'From the volume control to the loudspeaker' },
    ),
    makeCheck(
      'tone-source',
      { steady: 'coupling-open', 'none low': 'sound-chip', sometimes: 'socket' },
      { title: 'Does the sound chip give its tone at the pin?' },
    ),
    makeCause('lead-bad', { title: 'Signal lead broken at the plug', lies: 'accessory' }),
    makeCause('lead-open', { title: 'Mains lead open' }),
    makeCause('fuse-tired', { title: 'Fuse worn out by age and surges' }),
    makeHandOver('primary-short', { title: 'Short on the mains side: hand over' }),
    makeCause('regulator-shorted', { title: 'Regulator shorted from input to output' }),
    makeCause('winding-open', { title: 'Secondary winding open' }),
    makeCause('bridge-open', { title: 'Bridge rectifier open' }),
    makeCause('reservoir-dry', { title: 'Reservoir capacitor dried out' }),
    makeCause('track-cracked', { title: 'Track cracked at the regulator' }),
    makeCause('regulator-open', { title: 'Regulator dead' }),
    makeElsewhere('rail-elsewhere', { title: 'A short on the board rail' }),
    makeCause('pot-worn', { title: 'Volume control worn through' }),
    makeCause('coupling-open', { title: 'Coupling capacitor open' }),
    makeCause('amplifier-dead', { title: 'Audio amplifier chip dead' }),
    makeCause('speaker-open', { title: 'Loudspeaker voice coil open' }),
    makeCause('sound-chip', { title: 'Sound chip dead, the rest of its bus works' }),
    makeCause('socket', { title: 'Socket contacts tired' }),
  ],
  { slug: 'no-sound', title: 'No sound', block: 'audio' },
);
