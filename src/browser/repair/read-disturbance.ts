import { type Disturbance, disturbances, type EventOf } from '#core/log/event.ts';

type Disturbed = Pick<EventOf<'result'>, 'result' | 'acts' | 'touched'>;

/** What the form says was disturbed; a text where it says nothing. */
export function readDisturbance(form: HTMLFormElement): Disturbed | string {
  const fields = new FormData(form);
  const named = fields.getAll('acts');
  const acts: readonly Disturbance[] = disturbances.filter((act) => named.includes(act));
  const touched = String(fields.get('touched') ?? '')
    .trim()
    .slice(0, 300);
  if (acts.length === 0 && touched === '') return 'Say what was done to it, or what was touched.';
  return {
    result: 'cured-by-disturbance',
    ...(acts.length === 0 ? {} : { acts: [...acts] }),
    ...(touched === '' ? {} : { touched }),
  };
}
