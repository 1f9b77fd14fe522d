import type { TreeNode } from '../model/fault-tree.ts';
import type { Target } from '../model/target.ts';

/** A stretch of the guide that a step can need. */
export interface Help {
  readonly page: 'method' | 'measure' | 'bench-work';
  readonly part: string;
  readonly words: string;
}

const measure = (part: string, words: string): Help => ({ page: 'measure', part, words });

const byQuantity: Readonly<Record<string, Help>> = {
  'voltage-dc': measure('volts', 'How to measure volts'),
  'voltage-ac': measure('alternating-volts', 'How to measure alternating volts'),
  resistance: measure('ohms', 'How to measure ohms'),
  'diode-test': measure('diodes', 'How to measure diodes'),
  current: measure('amperes', 'How to measure amperes'),
  frequency: measure('frequency', 'How to measure hertz'),
};

const byInstrument: Readonly<Record<string, Help>> = {
  multimeter: measure('clip-first', 'How to measure'),
  oscilloscope: measure('scope', 'How to use a scope'),
  'logic-probe': measure('logic-probe', 'How to use a logic probe'),
  'frequency-counter': measure('frequency', 'How to measure hertz'),
  'capacitance-meter': measure('capacitance', 'How to measure microfarads'),
  'esr-meter': measure('series-resistance', 'How to measure series resistance'),
  thermometer: measure('heat', 'How to judge heat'),
  eyes: measure('eyes-and-ears', 'How to look'),
  ears: measure('eyes-and-ears', 'How to listen'),
  'ears-compare': measure('eyes-and-ears', 'How to listen'),
  'known-good-part': { page: 'method', part: 'swap', words: 'How to swap' },
};

/** What the guide has for a step: by the quantity that its meter reads, else by its first instrument; a cause has to be soldered. */
export function findHelp(node: TreeNode, target: Target | undefined): Help | undefined {
  if (node.kind === 'path') return { page: 'method', part: 'split', words: 'How to split' };
  if (node.kind === 'cause') return { page: 'bench-work', part: 'unsolder', words: 'How to unsolder and refit' };
  if (node.kind !== 'check') return undefined;
  const [first = ''] = node.instruments;
  const isMeter = first === 'multimeter';
  return (isMeter ? byQuantity[target?.quantity ?? ''] : undefined) ?? byInstrument[first];
}
