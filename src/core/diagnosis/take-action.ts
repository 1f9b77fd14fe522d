import { sumSetupMinutes, type Action, type PlanningModel, type PlanningState } from './planning-model.ts';

/** Outcomes less probable than this are rounding. */
const LEAST_PROBABILITY = 1e-300;

/** What a step costs and where it can lead; a cure ends everything and is left out. */
export interface StepResult {
  readonly minutes: number;
  readonly branches: readonly {
    readonly probability: number;
    readonly state: PlanningState;
    readonly outcome: number;
  }[];
}

/** Takes a check or a repair: its minutes with the set-ups still to pay, and the states after it, each with its probability. */
export function takeAction(
  model: PlanningModel,
  state: PlanningState,
  action: Exclude<Action, { readonly kind: 'stop' }>,
): StepResult {
  if (action.kind === 'repair') {
    const needs = model.repairSetups[action.cause] ?? 0;
    const tried = state.tried.slice();
    tried[action.cause] = 1;
    const belief = state.belief.slice();
    belief[action.cause] = (belief[action.cause] ?? 0) * (1 - (model.repairSuccess[action.cause] ?? 0));
    const left = scaleToOne(belief);
    return {
      minutes: (model.repairMinutes[action.cause] ?? 0) + sumSetupMinutes(model.setupMinutes, needs, state.paid),
      branches:
        left > LEAST_PROBABILITY
          ? [{ probability: left, state: { belief, done: state.done, tried, paid: state.paid | needs }, outcome: 0 }]
          : [],
    };
  }
  const { check } = action;
  const needs = model.checkSetups[check] ?? 0;
  const done = state.done.slice();
  done[check] = 1;
  const columns = model.likelihoods[check] ?? new Float64Array();
  const outcomes = Array.from({ length: model.outcomeCounts[check] ?? 0 }, (_, outcome) => {
    const belief = state.belief.map(
      (probability, cause) => probability * (columns[outcome * model.causeCount + cause] ?? 0),
    );
    const probability = scaleToOne(belief);
    return { probability, state: { belief, done, tried: state.tried, paid: state.paid | needs }, outcome };
  });
  return {
    minutes: (model.checkMinutes[check] ?? 0) + sumSetupMinutes(model.setupMinutes, needs, state.paid),
    branches: outcomes.filter((outcome) => outcome.probability > LEAST_PROBABILITY),
  };
}

/** Scales in place to a sum of one; returns what the sum was. */
function scaleToOne(belief: Float64Array): number {
  let total = 0;
  for (let cause = 0; cause < belief.length; cause++) total += belief[cause] ?? 0;
  if (total > 0) for (let cause = 0; cause < belief.length; cause++) belief[cause] = (belief[cause] ?? 0) / total;
  return total;
}
