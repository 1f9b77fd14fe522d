import { parentPort } from 'node:worker_threads';
import { Simulation } from 'eecircuit-engine';
import type { SimulatorAnswer } from './simulator.ts';

const simulation = new Simulation();
const started = simulation.start();
// It prints what it complains of, and `simulator.ts` says it again with the state and the sample.
console.warn = () => {};
console.error = () => {};
console.log = () => {};

parentPort?.on('message', (netlist: string) => {
  solve(netlist).then(
    (answer) => parentPort?.postMessage(answer),
    (error: unknown) => parentPort?.postMessage({ complaint: String(error) } satisfies SimulatorAnswer),
  );
});

/** A steady solution comes without a time: it lasts no time at all. */
async function solve(netlist: string): Promise<SimulatorAnswer> {
  await started;
  simulation.setNetList(netlist);
  const result = await simulation.runSim();
  const volts: Record<string, readonly number[]> = {};
  let seconds: readonly number[] | undefined;
  for (const { name, values } of result.data) {
    const real = values.map((value) => (typeof value === 'number' ? value : value.real));
    const node = /^v\((.+)\)$/i.exec(name)?.[1];
    if (node !== undefined) volts[node.toLowerCase()] = real;
    else if (name.toLowerCase() === 'time') seconds = real;
  }
  const complaint = simulation.getError().join(' ').trim();
  const lengths = Object.values(volts).map(({ length }) => length);
  if (
    lengths.length === 0 ||
    Math.min(...lengths) === 0 ||
    /error|too small|singular|no convergence/i.test(complaint)
  ) {
    return { complaint: complaint === '' ? 'no voltages' : complaint };
  }
  return { seconds: seconds ?? [0], volts };
}
