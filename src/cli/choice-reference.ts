import { loadLibrary } from '#build/library.ts';
import { substituteRoles } from '#core/model/substitute-roles.ts';

/** The roles a new part can have, as a Markdown table. */
export function printRoles(): string {
  const rows = Object.entries(substituteRoles).map(
    ([role, { rule, cautions }]) =>
      `| \`${role}\` | ${rule} | ${cautions.map((caution) => `\`${caution}\``).join(' ')} |`,
  );
  return ['| role | a new part must match | cautions it compels |', '| --- | --- | --- |', ...rows].join('\n');
}

/** The families of instruments a check can name, as one line, the most trusted first. */
export function printFamilies(): string {
  return [...loadLibrary().instruments]
    .toSorted(([, first], [, second]) => second.reliability - first.reliability)
    .map(([slug]) => `\`${slug}\``)
    .join(', ');
}
