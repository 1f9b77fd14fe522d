import type { Target } from './target.ts';

/**
 * Voltages above these are treated as dangerous to touch: 60 V dc, 30 V ac rms, 42.4 V peak.
 * Source: IEC 61010-1 normal condition and IEC 62368-1 ES1 (from memory); 42.4 V peak in IEC 60335-1 clause 8.1.4 (read).
 * Below them nothing is promised: broken or wet skin lowers the limit.
 */
export const touchLimits = { dcVolts: 60, acVoltsRms: 30, peakVolts: 42.4 } as const;

const voltsPerUnit: Readonly<Record<string, number>> = {
  V: 1,
  mV: 1e-3,
  kV: 1e3,
  'V rms': 1,
  'mV rms': 1e-3,
  Vpp: 1,
  mVpp: 1e-3,
};

/** Whether a healthy reading of this target may be above the touch limits. Targets that are no voltage never are. */
export function exceedsTouchLimit(target: Target): boolean {
  const volts = Object.hasOwn(voltsPerUnit, target.unit) ? voltsPerUnit[target.unit] : undefined;
  if (volts === undefined) return false;
  const healthy = target.bands.find(({ name }) => name === 'in');
  const highest =
    Math.max(...[healthy?.from, healthy?.to, target.nominal].map((value) => Math.abs(value ?? 0))) * volts;
  switch (target.quantity) {
    case 'voltage-dc':
      return highest > touchLimits.dcVolts;
    case 'voltage-ac':
      return highest > touchLimits.acVoltsRms;
    case 'voltage-pp':
      return highest / 2 > touchLimits.peakVolts;
    default:
      return false;
  }
}
