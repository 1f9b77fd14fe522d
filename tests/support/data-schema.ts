import { readFileSync } from 'node:fs';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';

/** A validator for one published schema, in ajv's strict mode: a schema with a keyword it does not know is itself refused. */
export function compileSchema(name: 'index' | 'tree' | 'target' | 'caution'): ValidateFunction {
  const ajv = new Ajv2020({ strict: true, allErrors: true });
  addFormats.default(ajv);
  return ajv.compile(JSON.parse(readFileSync(`public/data/schema/${name}.json`, 'utf8')));
}
