import type { Part, PinKind } from '#core/model/part.ts';

/** What a symbol of the symbol set says of one pin. */
export interface SymbolPin {
  readonly name: string;
  readonly type: string;
}

/** Which of our kinds agree with a type of the symbol set: a three-state pin may be drawn as what it does most. */
const kindsOf: Readonly<Record<string, readonly PinKind[]>> = {
  input: ['input'],
  output: ['output'],
  tri_state: ['output', 'bidirectional'],
  bidirectional: ['bidirectional'],
  open_collector: ['open-collector'],
  power_in: ['power', 'ground'],
  power_out: ['power', 'ground'],
  passive: ['passive', 'ground', 'power'],
  no_connect: ['not-connected'],
};

/** Pins that the set types as inputs though no signal goes in: a base, and the supply that only programming needs. */
const notInputs: Readonly<Record<string, PinKind>> = { B: 'passive', VPP: 'power' };

/** What differs in number or kind, in words. A pin that rests on memory is left out: the symbol set is wrong there. */
export function comparePins({ slug, pins }: Part, symbol: ReadonlyMap<string, SymbolPin>): readonly string[] {
  return pins
    .filter(({ status }) => status === undefined)
    .flatMap(({ number, name, kind }) => {
      const other = symbol.get(number);
      if (other === undefined) return `${slug} pin ${number}: ${name}, not in the symbol`;
      return kindsOf[other.type]?.includes(kind) === true || notInputs[other.name] === kind
        ? []
        : `${slug} pin ${number}: ${name}, ${kind}; the symbol says ${other.name}, ${other.type}`;
    });
}
