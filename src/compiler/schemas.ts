import * as v from 'valibot';
import { idPattern } from './read-attributes.ts';

const text = (maxLength: number): v.GenericSchema<string, string> =>
  v.pipe(v.string(), v.trim(), v.nonEmpty('some words'), v.maxLength(maxLength, `at most ${maxLength} characters`));
const slug: v.GenericSchema<string, string> = v.pipe(
  v.string(),
  v.regex(idPattern, 'small letters, digits and single hyphens'),
  v.maxLength(40, 'at most 40 characters'),
);
const slugs = v.optional(v.array(slug), []);
const yesNo = v.picklist(['yes', 'no'], '`yes` or `no` in quotes');
const status = v.picklist(['read', 'memory', 'practice', 'computed'], '`read`, `memory`, `practice` or `computed`');
const number = v.pipe(v.number(), v.finite());
const limits = v.strictObject({
  low: v.optional(number),
  nominal: v.optional(number),
  high: v.optional(number),
});

export const treeSchema = v.strictObject({
  title: text(60),
  block: slug,
  summary: text(200),
  symptoms: v.pipe(v.array(text(80)), v.minLength(3, 'at least three phrases')),
  hazards: slugs,
  signs: v.optional(v.record(slug, yesNo), {}),
  was: slugs,
});

export const targetSchema = v.strictObject({
  title: text(50),
  quantity: slug,
  unit: text(10),
  low: v.optional(number),
  nominal: v.optional(number),
  high: v.optional(number),
  none: v.optional(number),
  bands: v.optional(
    v.array(v.strictObject({ name: slug, from: v.optional(number), to: v.optional(number) })),
  ),
  words: slugs,
  compare: v.optional(v.picklist(['value', 'magnitude']), 'value'),
  sign: v.optional(v.picklist(['positive', 'negative']), 'positive'),
  conditions: text(200),
  instrument: text(80),
  source: slug,
  status,
  variants: v.optional(v.record(slug, limits), {}),
  'source-resistance': v.optional(number),
  misreads: v.optional(
    v.array(v.strictObject({ instrument: slug, from: v.optional(number), to: v.optional(number), says: text(200) })),
    [],
  ),
  'relative-to': v.optional(text(80)),
});

export const cautionSchema = v.strictObject({
  title: text(60),
  severity: v.picklist(['stop', 'danger', 'care'], '`stop`, `danger` or `care`'),
  text: text(500),
  actions: v.optional(v.array(text(200)), []),
  source: slug,
  status,
});

export const boardSchema = v.strictObject({
  title: text(50),
  summary: text(200),
  mains: v.picklist(['outside', 'inside-covered', 'inside-bare', 'unknown']),
  tube: yesNo,
  'stores-charge': yesNo,
  variants: slugs,
  points: v.record(slug, text(160)),
  targets: v.optional(v.record(slug, limits), {}),
  differs: v.optional(v.record(slug, text(400)), {}),
});

export const blocksSchema = v.record(slug, v.strictObject({ title: text(40), summary: text(160) }));
export const pointsSchema = v.record(slug, v.strictObject({ title: text(40), find: text(300) }));
export const setupsSchema = v.record(
  slug,
  v.strictObject({
    title: text(60),
    minutes: number,
    cautions: slugs,
    ends: v.optional(v.picklist(['power-on'])),
    text: text(300),
  }),
);
export const hazardsSchema = v.record(
  slug,
  v.strictObject({ title: text(60), cautions: slugs, setup: v.optional(slug) }),
);
export const instrumentsSchema = v.looseObject({
  families: v.record(
    slug,
    v.strictObject({ title: text(40), reliability: v.pipe(v.number(), v.minValue(0.5), v.maxValue(1)) }),
  ),
});
export const signsSchema = v.record(slug, v.strictObject({ question: text(100), yes: text(60), no: text(60) }));
export const sourcesSchema = v.record(slug, v.strictObject({ title: text(120), detail: text(300), status }));
