import type { Position } from '../position.ts';
import type { Problem } from '../problem.ts';
import type { Rule, RuleContext } from './rule.ts';

/** Runs rules over compiled content and gives each finding its position. */
export function runRules<Context extends RuleContext>(
  rules: readonly Rule<Context>[],
  context: Context,
): readonly Problem[] {
  const positionOf = (file: string, key: string): Position => context.positionsOf.get(file)?.find(key) ?? 'unavailable';
  return rules.flatMap(({ id, severity, find }) =>
    [...find(context)].map(({ file, key, message, help, other }) => ({
      rule: id,
      severity,
      file,
      position: positionOf(file, key),
      message,
      help,
      ...(other === undefined
        ? {}
        : { other: { file: other.file, position: positionOf(other.file, other.key), says: other.says } }),
    })),
  );
}
