import type { Action, PlanningModel, PlanningState } from '#core/diagnosis/model.ts';
import { sumSetupMinutes } from '#core/diagnosis/model.ts';
import { firstOfFixedOrder } from '#core/diagnosis/repair-order.ts';
import { screenChecks } from '#core/diagnosis/screen-checks.ts';
import { takeAction } from '#core/diagnosis/model.ts';

/** One unit on the bench: what is wrong, how each check comes out, whether each repair works. Fixed before anyone acts. */
export interface Unit {
  readonly cause: number;
  readonly outcomes: readonly number[];
  readonly cures: readonly boolean[];
}

/** Draws a unit from the problem's own probabilities. */
export function drawUnit(model: PlanningModel, belief: Float64Array, random: () => number): Unit {
  const cause = drawIndex(belief.length, (index) => belief[index] ?? 0, random());
  return {
    cause,
    outcomes: model.likelihoods.map((columns, check) =>
      drawIndex(
        model.outcomeCounts[check] ?? 1,
        (outcome) => columns[outcome * model.causeCount + cause] ?? 0,
        random(),
      ),
    ),
    cures: Array.from(model.repairSuccess, (success) => random() < success),
  };
}

/** Minutes until the unit works, or until stopping, which is charged. */
export function simulateRepair(
  model: PlanningModel,
  start: PlanningState,
  unit: Unit,
  choose: (state: PlanningState) => Action,
): number {
  let state = start;
  let minutes = 0;
  for (;;) {
    const action = choose(state);
    if (action.kind === 'stop') return minutes + model.giveUpMinutes;
    const step = takeAction(model, state, action);
    minutes += step.minutes;
    if (action.kind === 'repair' && action.cause === unit.cause && unit.cures[action.cause] === true) return minutes;
    const outcome = action.kind === 'check' ? (unit.outcomes[action.check] ?? 0) : 0;
    const branch = step.branches.find((candidate) => candidate.outcome === outcome);
    if (branch === undefined) throw new Error('an outcome happened that the model excludes');
    state = branch.state;
  }
}

/**
 * The policy to beat: the check with most information per minute until one cause is 90 % certain (or no check tells anything),
 * then repairs by probability of cure per minute; a failed repair may bring it back to checks. To be fair it may stop as well,
 * as soon as repairing what is left in the best order would cost more than stopping.
 */
export function chooseByInformation(model: PlanningModel, state: PlanningState): Action {
  const likeliest = state.belief.reduce((most, probability) => Math.max(most, probability), 0);
  const [best] = likeliest >= 0.9 ? [] : screenChecks(model, state);
  if (best !== undefined) return { kind: 'check', check: best.check };
  if (likeliest < 0.9 && firstOfFixedOrder(model, state).kind === 'stop') return { kind: 'stop' };
  let cause = -1;
  let bestRate = 0;
  for (let candidate = 0; candidate < model.causeCount; candidate++) {
    if (state.tried[candidate] === 1) continue;
    const minutes =
      (model.repairMinutes[candidate] ?? 0) +
      sumSetupMinutes(model.setupMinutes, model.repairSetups[candidate] ?? 0, state.paid);
    const rate = ((state.belief[candidate] ?? 0) * (model.repairSuccess[candidate] ?? 0)) / minutes;
    if (rate <= bestRate) continue;
    cause = candidate;
    bestRate = rate;
  }
  return cause < 0 ? { kind: 'stop' } : { kind: 'repair', cause };
}

function drawIndex(count: number, weightOf: (index: number) => number, random: number): number {
  let left = random;
  for (let index = 0; index < count; index++) {
    left -= weightOf(index);
    if (left < 0) return index;
  }
  return count - 1;
}
