import { describe, type FieldReader } from './field-reader.ts';
import { mostStages, type PathEvidence, type PathProblem, type PathProbe, type PathStage } from './problem.ts';

const mostMinutes = 1e9;
/** Only ratios of weights matter, so the scale is free; this keeps their sum within what a number holds. */
const mostWeight = 1e100;

/** Reads a signal path from the fields of a file; messages go to the reader. Called by readProblem. */
export function readPath(file: Readonly<Record<string, unknown>>, reader: FieldReader): PathProblem {
  reader.noteOtherKeys(file, '', ['stages', 'probes', 'evidence', '$schema']);
  const stages = reader.readList(file['stages'], 'stages', 1, mostStages).map((item, index): PathStage => {
    const where = `stages[${index}]`;
    const fields = reader.readObject(item, where) ?? {};
    reader.noteOtherKeys(fields, where, ['id', 'weight']);
    return {
      id: reader.readText(fields['id'], `${where}.id`),
      weight: reader.readNumber(fields['weight'], `${where}.weight`, { lowest: 0, highest: mostWeight }),
    };
  });
  const probes = reader.readList(file['probes'], 'probes', 0, mostStages).map((item, index): PathProbe => {
    const where = `probes[${index}]`;
    const fields = reader.readObject(item, where) ?? {};
    reader.noteOtherKeys(fields, where, ['minutes']);
    return { minutes: reader.readNumber(fields['minutes'], `${where}.minutes`, { lowest: 0, highest: mostMinutes }) };
  });
  if (stages.length > 0 && probes.length !== stages.length - 1) {
    reader.fail(
      'probes',
      `Unexpected list of ${probes.length}, expected ${stages.length - 1}: one between each stage and the next`,
    );
  }
  const seen = new Set<string>();
  for (const { id } of stages) {
    if (id !== '' && seen.has(id))
      reader.fail('stages', `Unexpected second ${describe(id)}, expected a name of its own for each`);
    seen.add(id);
  }
  if (stages.length > 0 && stages.every((stage) => stage.weight === 0)) {
    reader.fail('stages', 'Unexpected weight 0 for every stage, expected at least one above 0');
  }
  return { kind: 'path', stages, probes, evidence: readPathEvidence(file['evidence'], reader, probes.length) };
}

function readPathEvidence(value: unknown, reader: FieldReader, probeCount: number): readonly PathEvidence[] {
  return reader.readList(value, 'evidence', 0, 2 * mostStages).flatMap((item, index): readonly PathEvidence[] => {
    const where = `evidence[${index}]`;
    const fields = reader.readObject(item, where);
    if (fields === undefined) return [];
    reader.noteOtherKeys(fields, where, ['probe', 'outcome', 'likelihood']);
    const probe = reader.readNumber(fields['probe'], `${where}.probe`, {
      lowest: 0,
      highest: Math.max(0, probeCount - 1),
    });
    if (!Number.isInteger(probe))
      reader.fail(`${where}.probe`, `Unexpected ${describe(probe)}, expected a whole number`);
    if (fields['likelihood'] !== undefined) {
      const numbers = reader
        .readList(fields['likelihood'], `${where}.likelihood`, 2, 2)
        .map((number, place) =>
          reader.readNumber(number, `${where}.likelihood[${place}]`, { lowest: 0, highest: mostWeight }),
        );
      const [good = 0, bad = 0] = numbers;
      if (numbers.length === 2 && good === 0 && bad === 0) {
        reader.fail(`${where}.likelihood`, 'Unexpected zeros only, expected good or bad to agree with the reading');
      }
      return [{ probe, likelihood: [good, bad] }];
    }
    const outcome = fields['outcome'];
    if (outcome !== 'good' && outcome !== 'bad') {
      reader.fail(`${where}.outcome`, `Unexpected ${describe(outcome)}, expected \`good\` or \`bad\``);
    }
    return [{ probe, likelihood: outcome === 'good' ? [1, 0] : [0, 1] }];
  });
}
