import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Answer, emptyLinkState, type LinkState, withAnswer } from '#core/answer/answer.ts';
import { carryInto, type LinkNames, parseCarried, parseLinkState, printLinkState } from '#core/link/fragment.ts';
import { makeTreeMap } from '#core/link/make-tree-map.ts';
import { namesOf } from '#core/link/tree-map.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { arbitraryFaultTree } from '../../arbitraries/fault-tree.ts';
import { makeCause, makeCheck, makePath, makeTree } from '../../arbitraries/make-tree.ts';

const tree = makeTree(
  [
    makeCheck('lamp', { yes: 'follow', no: 'fuse-open' }, { was: ['light'] }),
    makePath('follow', { input: 'fuse-open', middle: 'regulator-open', chip: 'socket-worn' }, 'socket-worn'),
    makeCause('fuse-open', { was: ['fuse', 'fuse-blown'] }),
    makeCause('regulator-open'),
    makeCause('socket-worn'),
  ],
  { slug: 'psu-dead' },
);
const [quillon, bracken] = ['quillon-44', 'bracken'].map((slug) => ({ slug, title: slug }));
const units = [quillon, bracken].filter((unit) => unit !== undefined);
const names: LinkNames = namesOf(makeTreeMap(tree, ['psu-dead', 'clock-dead'], units));

function stateOf(change: Partial<LinkState>): LinkState {
  return { ...emptyLinkState, ...change };
}

function answer(node: string, value: string, change: Partial<Answer> = {}): Answer {
  return { tree: undefined, stage: undefined, node, value, ...change };
}

describe('parseLinkState', () => {
  it('reads unit, instrument, answers, repairs done and questions asked', () => {
    const fragment =
      '#unit=quillon-44&with=dmm-3-digit&lamp=yes&follow/stage-1=bad&clock-dead/beat=4.71V&did=fuse-open,socket-worn&ask=lamp';

    expect(parseLinkState(fragment, names)).toEqual({
      state: {
        unit: 'quillon-44',
        instrument: 'dmm-3-digit',
        did: ['fuse-open', 'socket-worn'],
        ask: ['lamp'],
        answers: [
          answer('lamp', 'yes'),
          answer('follow', 'bad', { stage: 'stage-1' }),
          answer('beat', '4.71V', { tree: 'clock-dead', instrument: 'dmm-3-digit' }),
        ],
      },
      problems: [],
    });
  });

  it('lets each reading keep the instrument it was taken with, and words none', () => {
    const { state } = parseLinkState(
      'with=multimeter-2000&lamp=4.7V&follow=good&with=own-0.5-2&clock-dead/beat=5V',
      names,
    );

    expect(state.instrument).toBe('own-0.5-2');
    expect(state.answers.map(({ instrument }) => instrument)).toEqual(['multimeter-2000', undefined, 'own-0.5-2']);
  });

  it('reads after which repair the unit was worse, and that one’s own work was looked over', () => {
    const { state, problems } = parseLinkState('did=fuse/worse,rework&lamp=no', names);

    expect(problems).toEqual([]);
    expect(state).toMatchObject({ did: ['fuse-open', 'rework'], worsened: 'fuse-open' });
    expect(printLinkState(state)).toBe('lamp=no&did=fuse-open/worse,rework');
    expect(parseLinkState('did=rework/worse,fuse', names).state.did).toEqual(['fuse-open']);
  });

  it('reads a word with the readings behind it, and readings of equal neighbours', () => {
    const { state, problems } = parseLinkState('lamp=odd-one,4.9V,0.1V&follow=4.9V,OL', names);

    expect(problems).toEqual([]);
    expect(state.answers).toEqual([
      answer('lamp', 'odd-one', { readings: ['4.9V', '0.1V'] }),
      answer('follow', '4.9V', { readings: ['4.9V', 'OL'] }),
    ]);
  });

  it.each(['', '#', '&', '#&&&'])('reads "%s" as nothing, without a complaint', (fragment) => {
    expect(parseLinkState(fragment, names)).toEqual({ state: emptyLinkState, problems: [] });
  });

  it('takes earlier ids for the nodes they name now', () => {
    const { state, problems } = parseLinkState('light=no&did=fuse,fuse-blown&ask=light', names);

    expect(problems).toEqual([]);
    expect(state.answers).toEqual([answer('lamp', 'no')]);
    expect(state.did).toEqual(['fuse-open', 'fuse-open']);
    expect(state.ask).toEqual(['lamp']);
  });

  it('lets today’s id win over an earlier one of the same name', () => {
    const reused = makeTree([makeCheck('lamp', { yes: 'a', no: 'b' }, { was: ['b'] }), makeCause('a'), makeCause('b')]);
    const known = namesOf(makeTreeMap(reused, [], []));

    expect(parseLinkState('did=b', known).state.did).toEqual(['b']);
  });

  it('counts the last of several equal keys, says so, and keeps its place last', () => {
    const { state, problems } = parseLinkState('lamp=yes&follow=good&lamp=no', names);

    expect(state.answers).toEqual([answer('follow', 'good'), answer('lamp', 'no')]);
    expect(problems).toEqual(['“lamp” stands twice in the link; the last one counts.']);
  });

  it.each([
    ['a board nobody knows', 'board=unknown-board'],
    ['a node nobody knows', 'nowhere=yes'],
    ['a tree nobody knows', 'elsewhere/lamp=yes'],
    ['a stage of a node that is no path', 'lamp/stage-1=yes'],
    ['a key of three parts', 'clock-dead/beat/stage=yes'],
    ['HTML in a value', 'follow=<img src=x onerror=alert(1)>'],
    ['HTML in a key', '<script>=yes'],
    ['broken percent signs', 'follow=%E0%A4%A&x'],
    ['a lone percent sign', '%=%'],
    ['a script address', 'unit=javascript:alert(1)'],
    ['a key of the object prototype', '__proto__=yes'],
    ['another key of the object prototype', 'constructor=yes'],
    ['an empty list', 'did='],
    ['a key without a value', 'follow'],
    ['a value in another script', 'follow=٤٫٧'],
    ['emoji', '🔥=🔥'],
    ['a right-to-left override', 'follow=\u202Eyes'],
    ['a second word among readings', 'follow=4.9V,low'],
    ['an empty place among readings', 'follow=4.9V,,4.8V'],
    ['more readings than any check compares', `follow=${Array.from({ length: 41 }, () => '1V').join(',')}`],
    ['an accuracy of words', 'with=own-good-meter.x'],
    ['a value of 41 letters', `follow=${'a'.repeat(41)}`],
  ])('leaves out %s and keeps the rest', (_what, part) => {
    const { state, problems } = parseLinkState(`unit=bracken&${part}&lamp=yes`, names);

    expect(state).toEqual(stateOf({ unit: 'bracken', answers: [answer('lamp', 'yes')] }));
    expect(problems.length).toBeGreaterThan(0);
    for (const problem of problems) expect(problem).toMatch(/^“.*” was not understood and was left out\.$/s);
  });

  it('keeps the known ids of a list that names an unknown one', () => {
    const { state, problems } = parseLinkState('did=fuse-open,nothing,socket-worn', names);

    expect(state.did).toEqual(['fuse-open', 'socket-worn']);
    expect(problems).toHaveLength(1);
  });

  it('looks at 4,096 characters of a fragment of megabytes, cut between two parts', () => {
    const start = 'lamp=yes&';
    const { state, problems } = parseLinkState(`${start}${'follow=good&'.repeat(300_000)}unit=quillon-44`, names);

    expect(state.unit).toBeUndefined();
    expect(state.answers).toEqual([answer('lamp', 'yes'), answer('follow', 'good')]);
    expect(problems[0]).toBe('The link is longer than 4096 characters; the rest was left out.');
    expect(problems.length).toBeLessThanOrEqual(6);
  });

  it('answers with short problems, six at most, whatever comes in', () => {
    const hostile = fc.oneof(
      fc.string({ maxLength: 5000 }),
      fc
        .array(fc.constantFrom('&', '=', ',', '/', '%', '#', 'lamp', 'unit', 'did', '<b>', 'yes', '\ud800'), {
          maxLength: 500,
        })
        .map((parts) => parts.join('')),
    );
    fc.assert(
      fc.property(hostile, (fragment) => {
        const { state, problems } = parseLinkState(fragment, names);

        expect(problems.length).toBeLessThanOrEqual(6);
        for (const problem of problems) expect(problem.length).toBeLessThanOrEqual(100);
        // What is kept can be printed into an address that needs no escapes, and means the same again.
        expect(printLinkState(state)).toMatch(/^[A-Za-z0-9.,/=&-]*$/);
        expect(parseLinkState(printLinkState(state), names)).toEqual({ state, problems: [] });
      }),
    );
  });
});

const word = fc.stringMatching(/^[a-z0-9]{1,6}(-[a-z0-9]{1,6})?$/);
const value = fc.oneof(word, fc.stringMatching(/^-?[0-9]{1,3}(\.[0-9]{1,3})?(V|mV|kHz|Ohm)$/));

describe('what a link asks for', () => {
  it('is something that can be answered: a check or a path, no cause', () => {
    const { state, problems } = parseLinkState('ask=fuse-open,follow', names);

    expect(state.ask).toEqual(['follow']);
    expect(problems).toEqual(['“ask=fuse-open,follow” was not understood and was left out.']);
  });
});

function checksOf({ nodes }: FaultTree): string[] {
  return nodes.flatMap(({ id, kind }) => (kind === 'check' || kind === 'path' ? [id] : []));
}

describe('printLinkState', () => {
  it('writes the fragment that the grammar shows', () => {
    const state = stateOf({
      unit: 'bracken',
      answers: [answer('lamp', '-4.71V'), answer('follow', 'good', { stage: 'input' })],
      did: ['a', 'b'],
    });

    expect(printLinkState(state)).toBe('unit=bracken&lamp=-4.71V&follow/input=good&did=a,b');
    expect(printLinkState(emptyLinkState)).toBe('');
  });

  it('is undone by parseLinkState for every state of any tree', () => {
    fc.assert(
      fc.property(
        arbitraryFaultTree({ mostInner: 8, mostEnds: 6 }).chain((made) => {
          const known = namesOf(makeTreeMap(made, ['clock-dead', 'other-tree'], units));
          const ids = made.nodes.map(({ id }) => id);
          const paths = made.nodes.flatMap((node) => (node.kind === 'path' ? [node] : []));
          const here = fc.record({
            tree: fc.constant(undefined),
            node: fc.constantFrom(...ids),
            stage: fc.constant(undefined),
            value,
          });
          const there = fc.record({
            tree: fc.constantFrom(
              ...['clock-dead', 'other-tree'].filter((slug) => known.nodes.get(slug)?.kind !== 'path'),
            ),
            node: word,
            stage: fc.constant(undefined),
            value,
          });
          const onPath = paths.map((path) =>
            fc.record({
              tree: fc.constant(undefined),
              node: fc.constant(path.id),
              stage: fc.constantFrom(...path.stages.map(({ id }) => id)),
              value,
            }),
          );
          return fc.record({
            known: fc.constant(known),
            state: fc.record({
              unit: fc.constantFrom(undefined, 'bracken'),
              instrument: fc.option(word, { nil: undefined }),
              did: fc.array(fc.constantFrom(...ids), { maxLength: 4 }),
              ask: fc.subarray(checksOf(made)).map((asked) => asked.slice(0, 5)),
              answers: fc.uniqueArray(fc.oneof(here, there, ...onPath), {
                maxLength: 10,
                selector: (given) => [given.tree, given.node, given.stage].join('/'),
              }),
            }),
          });
        }),
        ({ known, state }) => {
          expect(parseLinkState(`#${printLinkState(state)}`, known)).toEqual({ state, problems: [] });
        },
      ),
    );
  });
});

describe('a link made before every node and the tree itself were renamed', () => {
  it('means what it meant, by today’s names, from whichever tree it speaks', () => {
    fc.assert(
      fc.property(
        arbitraryFaultTree({ mostInner: 8, mostEnds: 6 }).chain((made) =>
          fc.record({
            made: fc.constant(made),
            answered: fc.uniqueArray(fc.tuple(fc.constantFrom(...checksOf(made)), value, fc.boolean()), {
              maxLength: 8,
              selector: ([node]) => node,
            }),
            ask: fc.subarray(checksOf(made)).map((asked) => asked.slice(0, 5)),
          }),
        ),
        ({ made, answered, ask }) => {
          const today = (id: string): string => `today-${id}`.slice(0, 24);
          const renamed: FaultTree = {
            ...made,
            slug: 'renamed-tree',
            was: [made.slug],
            nodes: made.nodes.map((node) => ({ ...node, id: today(node.id), was: [node.id] })),
          };
          fc.pre(new Set(made.nodes.map(({ id }) => today(id))).size === made.nodes.length);
          // A path of the same name as the tree takes `path/stage` for itself.
          fc.pre(!checksOf(made).includes(made.slug));
          const map = makeTreeMap(renamed, ['renamed-tree'], [], [renamed]);
          const link = answered.map(([node, said, isCarried]) =>
            isCarried ? `${made.slug}/${node}=${said}` : `${node}=${said}`,
          );
          const { state, problems } = parseLinkState(`${link.join('&')}&ask=${ask.join(',')}`, namesOf(map));

          expect(problems.filter((problem) => !problem.startsWith('“ask=”'))).toEqual([]);
          expect(state.answers).toEqual(answered.map(([node, said]) => answer(today(node), said)));
          expect(state.ask).toEqual(ask.map(today));
        },
      ),
    );
  });
});

describe('withAnswer', () => {
  it('replaces an earlier answer to the same question and puts it last', () => {
    const first = withAnswer(
      withAnswer(emptyLinkState, answer('lamp', 'yes')),
      answer('follow', 'bad', { stage: 'input' }),
    );

    expect(withAnswer(first, answer('lamp', 'no')).answers).toEqual([
      answer('follow', 'bad', { stage: 'input' }),
      answer('lamp', 'no'),
    ]);
  });

  it('keeps answers of two stages, and of two trees, apart', () => {
    const state = [
      answer('follow', 'good', { stage: 'input' }),
      answer('follow', 'bad', { stage: 'chip' }),
      answer('follow', 'good', { tree: 'clock-dead' }),
    ].reduce(withAnswer, emptyLinkState);

    expect(state.answers).toHaveLength(3);
  });
});

describe('carryInto', () => {
  const state = stateOf({
    unit: 'bracken',
    instrument: 'scope',
    did: ['fuse-open'],
    ask: ['lamp'],
    answers: [
      answer('lamp', 'no'),
      answer('follow', 'bad', { stage: 'input' }),
      answer('beat', '4V', { tree: 'clock-dead' }),
    ],
  });

  it('names the tree an answer came from, and drops that name where it comes home', () => {
    expect(carryInto(state, 'psu-dead', 'clock-dead')).toEqual(
      stateOf({
        unit: 'bracken',
        instrument: 'scope',
        answers: [answer('lamp', 'no', { tree: 'psu-dead' }), answer('beat', '4V')],
      }),
    );
  });

  it('gives the answers back unchanged on the way there and back, stages aside', () => {
    const back = carryInto(carryInto(state, 'psu-dead', 'clock-dead'), 'clock-dead', 'psu-dead');

    expect(back.answers).toEqual(state.answers.filter(({ stage }) => stage === undefined));
  });
});

describe('parseCarried', () => {
  it('reads the answers that name their tree, and no other', () => {
    expect(parseCarried('#lamp=yes&psu-dead/lamp=no&clock-dead/beat=4.71V&<b>/x=1')).toEqual([
      answer('lamp', 'no', { tree: 'psu-dead' }),
      answer('beat', '4.71V', { tree: 'clock-dead' }),
    ]);
  });
});
