import type { Position } from '../position.ts';
import type { Problem } from '../problem.ts';
import type { Rule, RuleContext, RuleFinding } from './rule.ts';

/** Runs rules over compiled content, keeps the findings that are wanted, and gives each its position. */
export function runRules(rules: readonly Rule[], context: RuleContext): readonly Problem[] {
  const positionOf = (file: string, key: string): Position => context.positionsOf.get(file)?.find(key) ?? 'unavailable';
  const isWanted = ({ file }: RuleFinding): boolean => context.only === undefined || file === context.only;
  return rules.flatMap(({ id, severity, find }) =>
    [...find(context)].filter(isWanted).map(({ file, key, position, message, help, other }) => ({
      rule: id,
      severity,
      file,
      position: position ?? positionOf(file, key),
      message,
      help,
      ...(other === undefined
        ? {}
        : { other: { file: other.file, position: positionOf(other.file, other.key), says: other.says } }),
    })),
  );
}
