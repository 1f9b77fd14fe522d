import type { Cause, Check, FaultTree, SignalPath, TargetUse, TreeNode } from '#core/model/fault-tree.ts';
import type { Caution, References } from '#core/model/library.ts';
import { findNode } from '#core/model/links.ts';
import { needsOf } from '#core/model/needs-of.ts';
import { cautionsOf } from '#core/model/node-cautions.ts';
import { listParagraphs, type Prose } from '#core/model/prose.ts';
import { substituteRoles } from '#core/model/substitute-roles.ts';
import { printBand, printHealthy, printLimit, printWord, statusWords } from '#core/model/target-text.ts';
import { kindWords } from '#core/figure/sheet.ts';
import { makeElement } from '../kit/elements.ts';

export interface PreviewOptions {
  readonly tree: FaultTree;
  readonly references: References;
  /** Titles of other trees, by slug. */
  readonly titles: ReadonlyMap<string, string>;
  /** A way on was pressed. */
  readonly open: (node: string) => void;
}

/** A node's sheet in the order in which the phone shows it: cautions, title, set-up, words, target, ways on. */
export function previewNode(node: TreeNode, options: PreviewOptions): HTMLElement {
  const { references } = options;
  return makeElement(
    'article',
    { class: `node ${node.kind}` },
    makeElement('div', { class: 'cautions' }, ...cautionsOf(node, references).map(makeCaution)),
    makeElement('h3', { class: 'heading' }, node.title),
    makeTitleBlock(node, references),
    ...makeSetups(needsOf(node), references),
    makeElement('div', { class: 'prose' }, ...makeProse(node.prose)),
    ...makeBody(node, options),
  );
}

function makeBody(node: TreeNode, options: PreviewOptions): readonly HTMLElement[] {
  switch (node.kind) {
    case 'check':
      return [
        ...makeTargets(node.target === undefined ? [] : [node.target], options.references),
        makeOutcomes(node, options),
      ];
    case 'path':
      return [makeStages(node, options)];
    case 'cause':
      return makeCauseParts(node, options.references);
    case 'elsewhere':
      return [makeEnd(`Open “${options.titles.get(node.tree) ?? node.tree}”`, 'Your readings go with you.')];
    case 'hand-over':
      return [makeEnd('How to hand over well', 'What to write down, how to leave the unit safe.')];
  }
}

const severityWords = { stop: 'Stop', danger: 'Danger', care: 'Care' } as const;

function makeCaution({ severity, title, text }: Caution): HTMLElement {
  return makeElement(
    'div',
    { class: `caution ${severity}` },
    makeElement('p', {}, makeElement('strong', { class: 'severity' }, severityWords[severity]), ` ${title}`),
    ...(severity === 'care' ? [] : [makeElement('p', { class: 'text' }, text)]),
  );
}

function makeTitleBlock(node: TreeNode, { instruments }: References): HTMLElement {
  const isStep = node.kind === 'check' || node.kind === 'path';
  const cells: readonly (readonly [string, string])[] = [
    ['Sheet', kindWords[node.kind]],
    ...(isStep
      ? ([
          ['Power', node.power === 'on' ? 'ON' : 'off'],
          ['With', node.instruments.map((slug) => instruments.get(slug)?.title ?? slug).join(' or ')],
        ] as const)
      : []),
    ...(node.kind === 'check' ? ([['Time', `${node.minutes} min`]] as const) : []),
    ...(node.kind === 'cause' ? ([['Chance', node.chance]] as const) : []),
  ];
  return makeElement(
    'dl',
    { class: 'title-block' },
    ...cells.map(([name, value]) =>
      makeElement(
        'div',
        { class: value === 'ON' ? 'live' : undefined },
        makeElement('dt', {}, name),
        makeElement('dd', {}, value),
      ),
    ),
  );
}

function makeSetups(needs: readonly string[], { setups }: References): readonly HTMLElement[] {
  const found = needs.map((slug) => setups.get(slug)).filter((setup) => setup !== undefined);
  if (found.length === 0) return [];
  return [
    makeElement(
      'p',
      { class: 'setups' },
      makeElement('span', { class: 'flag' }, 'First'),
      ` ${found.map(({ title }) => title).join(' · ')}`,
    ),
  ];
}

function makeProse(prose: Prose): readonly HTMLElement[] {
  return listParagraphs(prose).map((paragraph) => makeElement('p', {}, paragraph));
}

function makeTargets(uses: readonly TargetUse[], { targets, points }: References): readonly HTMLElement[] {
  return uses.flatMap(({ target: slug, point }) => {
    const target = targets.get(slug);
    if (target === undefined) return [];
    const place = point === undefined ? undefined : points.get(point);
    return [
      makeElement(
        'section',
        { class: 'target' },
        makeElement('h4', {}, target.title),
        ...(place === undefined
          ? []
          : [
              makeElement(
                'p',
                { class: 'place' },
                makeElement('span', { class: 'flag' }, 'Where'),
                ` ${place.title}: ${place.find}`,
              ),
            ]),
        makeElement(
          'p',
          { class: 'reading' },
          makeElement(
            'span',
            { class: 'nominal' },
            target.nominal === undefined ? printHealthy(target) : printLimit(target.nominal, target),
          ),
          ...(target.nominal === undefined ? [] : [makeElement('span', { class: 'limits' }, printHealthy(target))]),
        ),
        makeElement('p', { class: 'basis' }, `${target.conditions} (${statusWords[target.status]})`),
      ),
    ];
  });
}

function makeOutcomes(check: Check, { references, open }: PreviewOptions): HTMLElement {
  const target = check.target === undefined ? undefined : references.targets.get(check.target.target);
  return makeElement(
    'div',
    { class: 'outcomes' },
    ...check.outcomes.map(({ when, to, says }) => {
      const bands = target === undefined ? [] : when.flatMap((word) => printBand(word, target) ?? []);
      return makeWay(says ?? when.map(printWord).join(' or '), bands.join(', or '), () => open(to));
    }),
  );
}

function makeStages(path: SignalPath, { tree, references, open }: PreviewOptions): HTMLElement {
  const titleOf = (id: string): string => findNode(tree, id)?.title ?? id;
  const stages = path.stages.map((stage) => {
    const target = stage.target === undefined ? undefined : references.targets.get(stage.target);
    const point = stage.point === undefined ? undefined : references.points.get(stage.point);
    return makeElement(
      'li',
      {},
      makeElement('h4', {}, stage.title),
      makeElement('p', { class: 'place' }, stage.says ?? point?.find ?? ''),
      ...(target === undefined
        ? []
        : [makeElement('p', { class: 'reading' }, makeElement('span', { class: 'nominal' }, printHealthy(target)))]),
      makeWay('First bad here', titleOf(stage.fault), () => open(stage.fault)),
    );
  });
  return makeElement(
    'div',
    {},
    makeElement('ol', { class: 'stages' }, ...stages),
    makeElement(
      'div',
      { class: 'outcomes' },
      makeWay('Good to the end', titleOf(path.good), () => open(path.good)),
    ),
  );
}

function makeCauseParts({ confirm, repair, prove }: Cause, references: References): readonly HTMLElement[] {
  const part = (heading: string, ...inside: readonly HTMLElement[]): HTMLElement =>
    makeElement('section', { class: 'part' }, makeElement('h4', {}, heading), ...inside);
  return [
    ...(confirm === undefined
      ? []
      : [part('Make sure', ...makeProse(confirm.prose), ...makeTargets(confirm.targets, references))]),
    ...(repair === undefined
      ? []
      : [
          part(
            `Repair, ${repair.minutes} min`,
            ...makeSetups(repair.needs, references),
            ...(repair.record.length === 0 ? [] : [makeElement('h5', {}, 'Record first'), ...makeProse(repair.record)]),
            ...makeProse(repair.prose),
            ...repair.substitutes.map(({ role, part: number, value, voltage, test, prose }) =>
              makeElement(
                'div',
                { class: 'substitute' },
                makeElement(
                  'h5',
                  {},
                  `New part: ${Object.hasOwn(substituteRoles, role) ? (substituteRoles[role]?.title ?? role) : role}`,
                ),
                makeElement(
                  'p',
                  { class: 'rating' },
                  [number, value, voltage].filter((text) => text !== undefined).join(' · '),
                ),
                ...makeProse(prose),
                makeElement('p', { class: 'test' }, makeElement('strong', {}, 'Test the new part first.'), ` ${test}`),
              ),
            ),
          ),
        ]),
    ...(prove === undefined
      ? []
      : [part(`Prove it, ${prove.minutes} min`, ...makeProse(prove.prose), ...makeTargets(prove.targets, references))]),
  ];
}

function makeWay(label: string, detail: string, press: () => void): HTMLElement {
  const way = makeElement(
    'button',
    { class: 'outcome' },
    makeElement('span', { class: 'label' }, label),
    makeElement('span', { class: 'detail' }, detail),
  );
  way.type = 'button';
  way.addEventListener('click', press);
  return way;
}

function makeEnd(label: string, detail: string): HTMLElement {
  return makeElement(
    'p',
    { class: 'outcome' },
    makeElement('span', { class: 'label' }, label),
    makeElement('span', { class: 'detail' }, detail),
  );
}
