import type { PlanningState } from './planning-model.ts';

/** A state that was reached but not visited. */
export interface WaitingState {
  readonly key: string;
  readonly state: PlanningState;
  readonly probability: number;
}

/** A heap of states, the likeliest first, each key once. */
export interface StateQueue {
  readonly add: (key: string, state: PlanningState, probability: number) => void;
  readonly takeLikeliest: () => WaitingState;
  readonly size: () => number;
  readonly states: () => ReadonlyMap<string, PlanningState>;
}

/** Makes an empty queue. Taking from an empty one is a mistake of the caller and throws. */
export function createStateQueue(): StateQueue {
  const heap: WaitingState[] = [];
  const states = new Map<string, PlanningState>();
  const probabilityAt = (place: number): number => heap[place]?.probability ?? -1;
  const swap = (first: number, second: number): void => {
    const kept = heap[first];
    const other = heap[second];
    if (kept === undefined || other === undefined) return;
    heap[first] = other;
    heap[second] = kept;
  };
  return {
    add(key, state, probability) {
      if (states.has(key)) return;
      states.set(key, state);
      let place = heap.push({ key, state, probability }) - 1;
      while (place > 0 && probabilityAt((place - 1) >> 1) < probabilityAt(place)) {
        swap(place, (place - 1) >> 1);
        place = (place - 1) >> 1;
      }
    },
    takeLikeliest() {
      const top = heap[0];
      const last = heap.pop();
      if (top === undefined || last === undefined) throw new RangeError('the queue is empty');
      states.delete(top.key);
      if (heap.length === 0) return top;
      heap[0] = last;
      for (let place = 0; ;) {
        const left = 2 * place + 1;
        const larger = probabilityAt(left + 1) > probabilityAt(left) ? left + 1 : left;
        if (probabilityAt(larger) <= probabilityAt(place)) return top;
        swap(place, larger);
        place = larger;
      }
    },
    size: () => heap.length,
    states: () => states,
  };
}
