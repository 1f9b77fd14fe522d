import { writeFileSync } from 'node:fs';
import { loadContent, pathOfContent } from '#compiler/load.ts';
import { compileContent } from '#compiler/compile-content.ts';
import { Simulator, simulateCircuit, UnsolvedError } from '#build/simulator.ts';
import { hashNetlist } from '#core/model/circuit.ts';

/** Rules that a netlist may break and be simulated: of what stands beside it. */
const beside: ReadonlySet<string> = new Set(['circuit-numbers', 'drawing']);

const usage = `Usage: npm run simulate [-- CIRCUIT ...]
  Simulates the circuits of content/circuits/ whose netlist changed, or those named, and writes their numbers beside them.`;

process.exitCode = await run(process.argv.slice(2));

/** 0 all solved, 1 one was not, 2 the request is wrong. */
async function run(named: readonly string[]): Promise<number> {
  const { library, problems } = compileContent(loadContent(process.cwd()));
  const wrong = problems.filter(({ file, rule }) => file.endsWith('.cir') && !beside.has(rule));
  for (const { file, message } of wrong) console.error(`${file}: ${message}`);
  const missing = named.filter((slug) => !library.circuits.has(slug));
  if (missing.length > 0 || wrong.length > 0) {
    for (const slug of missing) console.error(`No circuit ${slug}.`);
    console.error(usage);
    return 2;
  }
  const chosen = [...library.circuits.values()].filter(({ slug, results, ...rest }) =>
    named.length > 0 ? named.includes(slug) : results?.netlist !== hashNetlist({ slug, ...rest }),
  );
  const simulator = new Simulator();
  let status = 0;
  for (const { results: _, ...circuit } of chosen) {
    const begun = performance.now();
    try {
      const results = await simulateCircuit(circuit, simulator);
      writeFileSync(
        pathOfContent(`content/circuits/${circuit.slug}.json`, process.cwd()),
        `${JSON.stringify(results)}\n`,
      );
      console.log(
        `${circuit.slug}: ${Object.keys(results.states).length} states in ${((performance.now() - begun) / 1000).toFixed(1)} s`,
      );
    } catch (error) {
      if (!(error instanceof UnsolvedError)) throw error;
      console.error(`${error.message}`);
      status = 1;
    }
  }
  await simulator.stop();
  return status;
}
