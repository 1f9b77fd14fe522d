import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { sampleCount, writeNetlist } from '#core/circuit/netlist.ts';
import { measureWaveform, sampleTrace, summarise, type Waveform } from '#core/circuit/waveform.ts';
import {
  type CircuitResults,
  type FigureName,
  figureNames,
  hashNetlist,
  healthy,
  type Netlist,
  type PointReading,
} from '#core/model/circuit.ts';

/** Name and version of the simulator, as the results carry it. */
export const engineName = 'eecircuit-engine 1.8.0';
/** What the worker answers to a netlist: voltages by node, or what the simulator complained of. */
export type SimulatorAnswer =
  | { readonly seconds: readonly number[]; readonly volts: Readonly<Record<string, readonly number[]>> }
  | { readonly complaint: string };

/** Milliseconds after which a run is given up; the first one waits for the simulator to start. */
const patience = { first: 60_000, run: 60_000 };
const traceLength = 120;

/** A netlist that the simulator did not solve. */
export class UnsolvedError extends Error {
  override readonly name = 'UnsolvedError';
}

/** The trade's reference simulator in a thread of its own, which is ended when a run does not come back. */
export class Simulator {
  #worker: Worker | undefined;

  /** Voltages of the nodes that the netlist saves. Throws an UnsolvedError where the simulator gives none, or none in time. */
  async run(netlist: string): Promise<Extract<SimulatorAnswer, { seconds: unknown }>> {
    const limit = this.#worker === undefined ? patience.first : patience.run;
    const worker = this.#worker ?? new Worker(fileURLToPath(new URL('simulator-worker.ts', import.meta.url)));
    this.#worker = worker;
    const answer = await new Promise<SimulatorAnswer>((resolve) => {
      const timer = setTimeout(() => resolve({ complaint: `no answer within ${limit / 1000} s` }), limit);
      worker.once('message', (message: SimulatorAnswer) => {
        clearTimeout(timer);
        resolve(message);
      });
      worker.postMessage(netlist);
    });
    if ('seconds' in answer) return answer;
    await this.stop();
    throw new UnsolvedError(answer.complaint);
  }

  async stop(): Promise<void> {
    await this.#worker?.terminate();
    this.#worker = undefined;
  }
}

/**
 * Simulates a circuit in every state: nominal, and `samples` times with its parts spread over their tolerances.
 * Throws an UnsolvedError that names the state and the sample.
 */
export async function simulateCircuit(
  circuit: Netlist,
  simulator: Simulator,
  samples: number = sampleCount,
): Promise<CircuitResults> {
  const states: Record<string, Record<string, PointReading>> = {};
  let seconds = 0;
  for (const state of [healthy, ...Object.keys(circuit.faults)]) {
    const runs: Record<string, Waveform>[] = [];
    for (let sample = 0; sample <= samples; sample += 1) {
      try {
        runs.push(readPoints(circuit, await simulator.run(writeNetlist(circuit, state, sample))));
      } catch (error) {
        if (!(error instanceof UnsolvedError)) throw error;
        throw new UnsolvedError(`${circuit.slug}, ${state}, sample ${sample}: ${error.message}`);
      }
    }
    states[state] = Object.fromEntries(
      Object.keys(circuit.points).flatMap((point) => {
        const waves = runs.flatMap((run) => run[point] ?? []);
        const [nominal] = waves;
        if (nominal === undefined) return [];
        seconds = (nominal.seconds.at(-1) ?? 0) - (nominal.seconds[0] ?? 0);
        const figures = waves.map(measureWaveform);
        const summary = (name: FigureName): readonly number[] => {
          const [own = 0, ...others] = figures.map((figure) => figure[name]);
          return summarise(own, others);
        };
        const spreads = Object.fromEntries(figureNames.map((name) => [name, summary(name)])) as Record<
          FigureName,
          readonly number[]
        >;
        return [[point, { ...spreads, trace: seconds > 0 ? sampleTrace(nominal, traceLength) : [] }]];
      }),
    );
  }
  return { engine: engineName, netlist: hashNetlist(circuit), seconds: Number(seconds.toPrecision(4)), states };
}

function readPoints(
  { points }: Pick<Netlist, 'points'>,
  { seconds, volts }: Extract<SimulatorAnswer, { seconds: unknown }>,
): Record<string, Waveform> {
  const at = (node: string): readonly number[] => (node === '0' ? seconds.map(() => 0) : (volts[node] ?? []));
  return Object.fromEntries(
    Object.entries(points).map(([point, { red, black }]) => {
      const ground = at(black);
      return [point, { seconds, volts: at(red).map((volt, index) => volt - (ground[index] ?? 0)) }];
    }),
  );
}
