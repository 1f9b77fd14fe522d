import type { EventDraft, PartStatus } from '#core/bench-log/event.ts';
import { partWords } from '#core/bench-log/describe-event.ts';
import { textOf } from './form-values.ts';
import { readProofForm } from './proof-form.ts';

/**
 * What a form of the job's view says when it is sent, as drafts; a text where something is missing. `pressed` is the button.
 * Forms that do more than write (photo, carry, bench, unit) are not among these.
 */
export function readJobForm(form: HTMLFormElement, pressed: HTMLElement | null): readonly EventDraft[] | string {
  const fields = new FormData(form);
  const isYes = pressed?.getAttribute('value') === 'yes';
  switch (form.dataset['form']) {
    case 'meter': {
      const reading = textOf(fields, 'reading');
      const check = meterChecks.find((name) => name === form.dataset['check']);
      return check === undefined
        ? []
        : [{ kind: 'meter', check, isGood: isYes, ...(reading === '' ? {} : { reading }) }];
    }
    case 'part': {
      const name = textOf(fields, 'name');
      const status = readPartStatus(textOf(fields, 'status'));
      return name === '' || status === undefined ? 'Name the part.' : [{ kind: 'part', name, status }];
    }
    case 'waiting': {
      const what = textOf(fields, 'what');
      return what === '' ? 'What is the job waiting for?' : [{ kind: 'waiting', what }];
    }
    case 'note': {
      const text = textOf(fields, 'text');
      return text === '' ? 'The note is empty.' : [{ kind: 'note', text }];
    }
    case 'point': {
      const name = textOf(fields, 'name');
      return [{ kind: 'point', point: textOf(fields, 'point'), ...(name === '' ? {} : { name }) }];
    }
    case 'proof': {
      const proof = readProofForm(form, isYes);
      return typeof proof === 'string' ? proof : [proof];
    }
    case 'close': {
      const summary = textOf(fields, 'summary');
      const how = endings.find((name) => name === textOf(fields, 'how'));
      return how === undefined
        ? 'Say how it ended.'
        : [{ kind: 'closed', how, ...(summary === '' ? {} : { summary }) }];
    }
    default:
      return [];
  }
}

/** The state of a part that a select names. */
export function readPartStatus(value: string): PartStatus | undefined {
  return partStatuses.find((status) => status === value);
}

const meterChecks = ['leads-shorted', 'fresh-cell', 'known-part'] as const;
const endings = ['cured', 'cured-by-disturbance', 'handed-over', 'stopped'] as const;
// `partWords` has every state as a key: a parsed boundary.
const partStatuses = Object.keys(partWords) as readonly PartStatus[];
