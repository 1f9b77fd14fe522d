/** Makes the published JSON Schemas from the schemas by which the program reads: npm run docs. A test checks that they are current. */
import { readFileSync, writeFileSync } from 'node:fs';
import { makeSchemas } from './generated-schemas.ts';

for (const [path, text] of await makeSchemas()) {
  const isCurrent = readFileSync(path, 'utf8') === text;
  if (!isCurrent) writeFileSync(path, text);
  console.log(isCurrent ? `${path} is current.` : `${path} was written.`);
}
