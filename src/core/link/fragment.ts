import {
  type Answer,
  emptyLinkState,
  isWord,
  keyOfAnswer,
  type LinkState,
  mostAsked,
  printAnswerValue,
  readAnswerValue,
  reworkRepair,
  shorten,
} from '../answer/answer.ts';

/** What a page knows of the names that may stand in its fragment. */
export interface LinkNames {
  /** Kind of each node of this page's tree, by id; the ids a node had before, `tree/node` in another tree, map to what it is called now. */
  readonly nodes: ReadonlyMap<string, { readonly id: string; readonly kind: string }>;
  readonly trees: ReadonlySet<string>;
  readonly units: ReadonlySet<string>;
  /** Slugs of this page's tree: today's and earlier ones. */
  readonly own?: ReadonlySet<string>;
  /** What a tree that was renamed is called now, by its earlier slug. */
  readonly renamed?: ReadonlyMap<string, string>;
  /** Slug of the tree that the page's address names, where its node has moved into this tree since. */
  readonly movedFrom?: string | undefined;
}

const longestFragment = 4096;
const wordPattern = /^[a-z0-9]+(-[a-z0-9]+)*$/;
/** A class, or the reader's own accuracy: per cent and counts. */
const instrumentPattern = /^(?:[a-z0-9]+(?:-[a-z0-9]+)*|own-\d{1,2}(?:\.\d{1,4})?-\d{1,4})$/;

/**
 * Reads a fragment, `#` or not. Hostile until read: 4,096 characters are looked at, nothing throws,
 * what is not understood is told in `problems` and the rest is kept. The last of several equal keys counts.
 * Grammar: `key=value` joined by `&`; values joined by `,`; alphabet a-z A-Z 0-9 . - , /. `with` holds for the readings after it.
 * @example parseLinkState('#unit=quillon-44&trough=4.71V', names).state.unit === 'quillon-44'
 */
export function parseLinkState(
  fragment: string,
  names: LinkNames,
): { readonly state: LinkState; readonly problems: readonly string[] } {
  const problems: string[] = [];
  let text = fragment.startsWith('#') ? fragment.slice(1) : fragment;
  if (text.length > longestFragment) {
    problems.push(`The link is longer than ${longestFragment} characters; the rest was left out.`);
    text = text.slice(0, longestFragment);
    text = text.slice(0, Math.max(0, text.lastIndexOf('&')));
  }
  const single = new Map<'unit' | 'with', string>();
  const lists: Record<'did' | 'ask', readonly string[]> = { did: [], ask: [] };
  const answers = new Map<string, Answer>();
  let worsened: string | undefined;
  for (const pair of text.split('&')) {
    if (pair === '') continue;
    const cut = pair.indexOf('=');
    const key = cut < 0 ? pair : pair.slice(0, cut);
    const value = cut < 0 ? '' : pair.slice(cut + 1);
    if (key === 'unit' || key === 'with') {
      const isKnown = key === 'unit' ? names.units.has(value) : instrumentPattern.test(value) && value.length <= 40;
      if (!isKnown) problems.push(notUnderstood(pair));
      else single.set(key, value);
      continue;
    }
    if (key === 'did' || key === 'ask') {
      const ids = value.split(',').filter((id) => id !== '');
      const known = ids.flatMap((id) => (key === 'did' ? readDone(id, names) : readAsked(id, names)) ?? []);
      if (known.length < ids.length || ids.length === 0) problems.push(notUnderstood(pair));
      if (key === 'did') worsened = known.findLast(({ isWorse }) => isWorse)?.id;
      lists[key] = known.map(({ id }) => id).slice(0, key === 'ask' ? mostAsked : undefined);
      if (known.length > lists[key].length) {
        problems.push(`The link asks for ${known.length} checks; the first ${mostAsked} are asked.`);
      }
      continue;
    }
    const answer = readAnswer(key, value, names, single.get('with'));
    if (answer === undefined) {
      problems.push(notUnderstood(pair));
      continue;
    }
    const answerKey = keyOfAnswer(answer);
    if (answers.delete(answerKey))
      problems.push(`“${shorten(answerKey)}” stands twice in the link; the last one counts.`);
    answers.set(answerKey, answer);
  }
  return {
    state: {
      unit: single.get('unit'),
      instrument: single.get('with'),
      ...lists,
      ...(worsened === undefined ? {} : { worsened }),
      answers: [...answers.values()],
    },
    problems: problems.length > 6 ? [...problems.slice(0, 5), `And ${problems.length - 5} more parts.`] : problems,
  };
}

/** The fragment of a state, without `#`; the inverse of `parseLinkState` for states it can carry. */
export function printLinkState(state: LinkState): string {
  let held: string | undefined;
  const change = (instrument: string | undefined): readonly string[] => {
    if (instrument === undefined || instrument === held) return [];
    held = instrument;
    return [`with=${instrument}`];
  };
  return [
    ...(state.unit === undefined ? [] : [`unit=${state.unit}`]),
    ...state.answers.flatMap((answer) => [
      ...change(answer.instrument),
      `${keyOfAnswer(answer)}=${printAnswerValue(answer)}`,
    ]),
    ...change(state.instrument),
    ...(state.did.length === 0 ? [] : [`did=${printDid(state)}`]),
    ...(state.ask.length === 0 ? [] : [`ask=${state.ask.join(',')}`]),
  ].join('&');
}

/** The mark stands on the last of several equal repairs. */
function printDid({ did, worsened }: LinkState): string {
  const marked = worsened === undefined ? -1 : did.lastIndexOf(worsened);
  return did.map((id, index) => (index === marked ? `${id}/worse` : id)).join(',');
}

/** The state as another tree sees it: answers of this tree become evidence carried in. */
export function carryInto(state: LinkState, from: string, into: string): LinkState {
  return {
    ...emptyLinkState,
    unit: state.unit,
    instrument: state.instrument,
    answers: state.answers
      .filter(({ stage }) => stage === undefined)
      .map((answer) => {
        const tree = answer.tree ?? from;
        return { ...answer, tree: tree === into ? undefined : tree };
      }),
  };
}

function readAnswer(key: string, text: string, names: LinkNames, instrument: string | undefined): Answer | undefined {
  const said = readAnswerValue(text);
  if (said === undefined) return undefined;
  const hasReading = !isWord(said.value) || said.readings !== undefined;
  const given = hasReading && instrument !== undefined ? { ...said, instrument } : said;
  const parts = key.split('/');
  if (parts.length > 2 || parts.some((part) => !wordPattern.test(part))) return undefined;
  const [first = '', second] = parts;
  if (second === undefined) {
    const node = findNamed(first, names)?.id;
    if (node !== undefined) return { tree: undefined, node, stage: undefined, ...given };
    // The rest of the tree that this node once belonged to is evidence from there.
    const tree = names.movedFrom;
    return tree === undefined || !names.trees.has(tree) ? undefined : { tree, node: first, stage: undefined, ...given };
  }
  const path = findNamed(first, names);
  if (path?.kind === 'path') return { tree: undefined, node: path.id, stage: second, ...given };
  const here = names.nodes.get(key) ?? (names.own?.has(first) === true ? names.nodes.get(second) : undefined);
  if (here !== undefined) return { tree: undefined, node: here.id, stage: undefined, ...given };
  const tree = names.renamed?.get(first) ?? first;
  return names.trees.has(tree) ? { tree, node: second, stage: undefined, ...given } : undefined;
}

interface Listed {
  readonly id: string;
  readonly isWorse: boolean;
}

/** A repair that did not cure; `/worse` behind it says that the unit was worse after it. */
function readDone(text: string, names: LinkNames): Listed | undefined {
  const bare = text.replace(/\/worse$/, '');
  const id = findNamed(bare, names)?.id ?? (text === reworkRepair ? text : undefined);
  return id === undefined ? undefined : { id, isWorse: bare !== text };
}

/** Only what can be answered can be asked. */
function readAsked(text: string, names: LinkNames): Listed | undefined {
  const node = findNamed(text, names);
  return node?.kind === 'check' || node?.kind === 'path' ? { id: node.id, isWorse: false } : undefined;
}

/** What a bare name means: a node of this tree by any of its names, or one that came from the tree which the address names. */
function findNamed(
  name: string,
  { nodes, movedFrom }: LinkNames,
): { readonly id: string; readonly kind: string } | undefined {
  return nodes.get(name) ?? (movedFrom === undefined ? undefined : nodes.get(`${movedFrom}/${name}`));
}

function notUnderstood(pair: string): string {
  return `“${shorten(pair)}” was not understood and was left out.`;
}

/** Answers in a fragment that name their tree, whatever tree that is: for pages that belong to none. */
export function parseCarried(fragment: string): readonly (Answer & { readonly tree: string })[] {
  const named = [...fragment.slice(0, longestFragment).matchAll(/(?:^#?|&)([a-z0-9-]{1,40})\//g)].map(
    ([, tree = '']) => tree,
  );
  const { state } = parseLinkState(fragment, { nodes: new Map(), trees: new Set(named), units: new Set() });
  return state.answers.flatMap((answer) => (answer.tree === undefined ? [] : [{ ...answer, tree: answer.tree }]));
}
