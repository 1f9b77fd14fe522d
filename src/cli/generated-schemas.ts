import { toJsonSchema } from '@valibot/to-json-schema';
import { format, resolveConfig } from 'prettier';
import { union } from 'valibot';
import { pathSchema, problemSchema } from '#core/diagnosis/problem.ts';
import { jobFileSchema } from '#core/log/job-file.ts';

/** The JSON Schemas that are made from the schemas by which the program itself reads, each as the text of its file. */
export async function makeSchemas(): Promise<ReadonlyMap<string, string>> {
  return new Map([
    [
      'public/data/schema/bench-log.json',
      await printSchema(
        jobFileSchema,
        'A bench log',
        'One job or several as histories: lists of events that are only ever added to. Photographs are JPEG in base64, at most 1,600 pixels on the longer side.',
      ),
    ],
    [
      'public/data/schema/plan-problem.json',
      await printSchema(
        union([problemSchema, pathSchema]),
        'A diagnosis problem, or a signal path',
        'Input of the planner. The names of one kind are unique, and a name stands for something in the same file.',
      ),
    ],
  ]);
}

async function printSchema(
  schema: Parameters<typeof toJsonSchema>[0],
  title: string,
  description: string,
): Promise<string> {
  const { $schema, ...rest } = toJsonSchema(schema, {
    target: 'draft-2020-12',
    // A check is code; what it means for the schema is beside it as metadata.
    ignoreActions: ['check', 'finite', 'readonly'],
    overrideAction: ({ valibotAction, jsonSchema }) =>
      valibotAction.type === 'metadata' && 'metadata' in valibotAction
        ? { ...jsonSchema, ...Object(valibotAction.metadata) }
        : undefined,
  });
  const text = JSON.stringify({ $schema, title, description, ...rest });
  return format(text, { ...(await resolveConfig('package.json')), parser: 'json' });
}
