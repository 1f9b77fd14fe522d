/**
 * Reads all content and prints every problem, or those of some files and of what they name: npm run check -- [files or folders] [--format terminal|json|github]
 * npm run check -- --explain <rule> prints a rule with a wrong and a right example; --worth <tree> what a tree is worth.
 * Exits with 0 where nothing is wrong (warnings aside), 1 for errors, 2 for a wrong call.
 */
import { runCheck } from './run-check.ts';

const { status, said } = runCheck(process.argv.slice(2), process.cwd());
if (said !== '') (status === 2 ? console.error : console.log)(said);
process.exitCode = status;
