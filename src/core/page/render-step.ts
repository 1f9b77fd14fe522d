import type {
  Cause,
  Check,
  FaultTree,
  Power,
  SignalPath,
  Substitute,
  TargetUse,
  TreeNode,
} from '../model/fault-tree.ts';
import { kindWords } from '../figure/sheet.ts';
import type { References, TestPoint } from '../model/library.ts';
import {
  cautionsOf,
  findNode,
  isBeforeSwitchMode,
  isDoneWithoutScope,
  isHealthyEnd,
  isOpenLive,
  needsOf,
  opensCase,
  isStep,
} from '../model/node.ts';
import type { Prose } from '../model/prose.ts';
import { comparedRoles, substituteRoles } from '../model/substitute-roles.ts';
import { printBands, printHealthy, printLimit, printWord, statusWords } from '../model/target-text.ts';
import { addressOf } from '../link/address.ts';
import { dependsOnMains } from '../model/limits.ts';
import { findFirstStage } from '../answer/path-state.ts';
import type { Target } from '../model/target.ts';
import { fieldsOf } from '../reading/formula.ts';
import { type Attributes, type Child, make, type Markup } from './markup.ts';
import { closing, renderCaution } from './render-caution.ts';
import { saySettings } from '../model/picture.ts';
import { drawPicture } from './draw-picture.ts';
import { findHelp } from './help.ts';
import { renderFigurePlace } from './render-figure.ts';
import { renderProse } from './render-prose.ts';

/** What a step is drawn for, and what it refers to. */
export interface StepPlace {
  readonly tree: FaultTree;
  readonly references: References;
  /** Title of another tree, by slug. */
  readonly titleOf: (tree: string) => string | undefined;
  /** Path below which the site lies: `/` or `/sub-path/`. */
  readonly base: string;
  /**
   * `page`: its own page, where it is answered. `paper`: among all the steps of its tree. `draft`: beside an editor, where
   * the ways on are buttons, since the steps they lead to have no page yet.
   */
  readonly use: 'page' | 'paper' | 'draft';
}

/** A step of a tree, whole: its cautions, then title, set-ups, words, target and ways on. */
export function renderStep(node: TreeNode, place: StepPlace): Markup {
  const { tree, references, base, use } = place;
  const isAlone = use === 'page';
  const isPowered = isStep(node) && node.power === 'on';
  // Unplugged and shut, a check holds back for nothing but the mains, which a fuse or the plug's pins carry outside the case.
  const isOutside = node.kind === 'check' && !isPowered && !opensCase(node);
  const cautions = cautionsOf(node, references);
  const firstPlug = isAlone && isPowered && references.cautions.get('first-plug');
  const ofSetups = new Set(needsOf(node).flatMap((setup) => references.setups.get(setup)?.cautions ?? []));
  const state = isOpenLive(node, references) ? 'live' : isPowered ? 'shut' : 'off';
  // With the case closed its question asks for the mains too; with the case open, what the mains asks decides whether a plug goes in.
  const plugPlace = cautions.findIndex(({ slug }) => slug === 'mains') + (state === 'live' ? 1 : 0);
  const shown = firstPlug ? cautions.toSpliced(plugPlace, 0, firstPlug) : cautions;
  const hasGrave = cautions.some(({ severity }) => severity === 'danger' || severity === 'warning');
  const title = isAlone || use === 'draft' ? node.title : makeLink(addressTo(place, node.id), node.title);
  return make(
    'article',
    {
      class: ['node', node.kind, ...(isAlone ? ['alone'] : [])].join(' '),
      id: use === 'paper' ? node.id : undefined,
      'data-node': node.id,
      'data-kind': node.kind,
      'data-risky': isRisky(node) || cautions.some(({ slug }) => slug === 'irreplaceable-data'),
    },
    shown.length > 0 &&
      make(
        'div',
        { class: 'cautions' },
        shown.map((caution) =>
          renderCaution(caution, {
            base,
            isDerived: caution.slug === 'mains' && (isPowered || !node.cautions.includes('mains')),
            isOfSetup: caution.slug !== 'mains' && ofSetups.has(caution.slug),
            isOptional: isAlone && caution.slug === 'scope-ground' && isDoneWithoutScope(node, references),
            isSpared: isAlone && caution.slug === 'switch-mode-primary' && isBeforeSwitchMode(tree, node),
            isGate: isAlone && !(isOutside && caution.slug !== 'mains'),
            state,
          }),
        ),
        use !== 'paper' && hasGrave && make('p', { class: 'closing' }, closing),
      ),
    isAlone && shown.length > 0 && make('script', { src: `${base}gate.js` }),
    make(
      'div',
      { class: 'step', id: isAlone ? 'step' : undefined },
      makeHeading(place, 0, { class: 'heading' }, title),
      renderTitleBlock(node, place),
      renderSetups('needs' in node ? node.needs : [], references),
      node.kind === 'check' && renderFigureOf(node.target?.point ?? node.point, node.instruments[0], place, false),
      make('div', { class: 'prose' }, renderProse(node.prose, base)),
      renderWaysOn(node, place, tree),
      isAlone &&
        make('p', { class: 'trail' }, [
          makeLink(addressOf({ kind: 'tree', tree: tree.slug }, base), tree.title),
          ...linkHelp(node, place),
        ]),
    ),
  );
}

/** The stretch of the guide that a beginner needs here. */
function linkHelp(node: TreeNode, { references, base }: StepPlace): readonly Child[] {
  const target = node.kind === 'check' && node.target ? references.targets.get(node.target.target) : undefined;
  const help = findHelp(node, target);
  if (help === undefined) return [];
  const { page, part, words } = help;
  return [makeLink(`${addressOf({ kind: 'guide-page', page }, base)}#${part}`, words)];
}

function renderWaysOn(node: TreeNode, place: StepPlace, tree: FaultTree): Child {
  switch (node.kind) {
    case 'check':
      return [
        node.target ? renderTarget(node.target, place) : renderPoint(node.point, place),
        renderAnswers(node, place),
      ];
    case 'path':
      return renderStages(node, place, tree);
    case 'cause':
      return [
        renderParts(node, place),
        // Filled by its script.
        place.use === 'page' &&
          make('repair-result', {
            class: 'repair-result part',
            'data-cause': node.id,
            'data-after-repair': true,
            hidden: true,
          }),
      ];
    case 'elsewhere': {
      const { tree: other, node: at } = node;
      const href = addressOf(
        at === undefined ? { kind: 'tree', tree: other } : { kind: 'node', tree: other, node: at },
        place.base,
      );
      const label = `Open “${place.titleOf(other) ?? other}”`;
      return make(
        'nav',
        { class: 'outcomes', 'aria-label': 'Open the other tree' },
        makeOutcome('a', { href, 'data-carry': other }, label, 'Your readings go with you.'),
      );
    }
    case 'hand-over':
      if (isHealthyEnd(node)) {
        return make(
          'nav',
          { class: 'outcomes', 'aria-label': 'Nothing to repair' },
          makeOutcome(
            'a',
            { href: addressOf({ kind: 'log' }, place.base) },
            'Close the job',
            'Write down what it was.',
          ),
        );
      }
      return make(
        'nav',
        { class: 'outcomes', 'aria-label': 'Hand over' },
        makeOutcome(
          'a',
          { href: addressOf({ kind: 'hand-over' }, place.base), 'data-hand-over': true },
          'How to hand over well',
          'What to write down, how to leave the unit safe.',
        ),
      );
  }
}

/** Where the probe goes, drawn; undefined where the point lies on no part. */
function renderFigureOf(
  point: string | undefined,
  instrument: string | undefined,
  { references, base }: StepPlace,
  isBrief: boolean,
): Child {
  return renderFigurePlace(references.points.get(point ?? ''), instrument, { references, base, isBrief });
}

/** What leaves something behind, or feeds a disk, can lose what must not be lost. */
function isRisky(node: TreeNode): boolean {
  if (node.kind === 'check') return node.leaves !== 'nothing' || node.swap !== undefined;
  return node.kind === 'cause' && (node.lies === 'medium' || (node.repair?.leaves ?? 'nothing') !== 'nothing');
}

const powerWords: Readonly<Record<Power, string>> = {
  on: 'ON',
  off: 'off',
  accessory: 'unit off, what is beside it on',
};

function renderTitleBlock(node: TreeNode, { references: { instruments, pictures } }: StepPlace): Markup {
  const cells: readonly (readonly [name: string, value: string | false])[] = [
    ['Step', node.kind !== 'check' && (isHealthyEnd(node) ? 'Not a fault' : kindWords[node.kind])],
    ['Power', isStep(node) && powerWords[node.power]],
    ['With', isStep(node) && node.instruments.map((slug) => instruments.get(slug)?.title ?? slug).join(' or ')],
    ['Scope', node.kind === 'check' && settingsOf(node, pictures)],
    ['Time', node.kind === 'check' && `${node.minutes} min`],
    ['Wait', node.kind === 'check' && node.waitMinutes > 0 && `${node.waitMinutes} min first`],
    [
      'Leaves',
      node.kind === 'check' && node.leaves !== 'nothing' && (node.leaves === 'mark' ? 'a mark' : 'damage if wrong'),
    ],
    ['How common', node.kind === 'cause' && node.chance],
    ['Where', node.kind === 'cause' && node.lies !== 'unit' && node.lies],
  ];
  return make(
    'dl',
    { class: 'title-block' },
    cells.map(
      ([name, value]) =>
        value !== false &&
        make('div', { class: value === 'ON' ? 'live' : undefined }, make('dt', {}, name), make('dd', {}, value)),
    ),
  );
}

/** The settings that show what the buttons show, where a scope is one of the instruments. */
function settingsOf({ instruments, outcomes }: Check, pictures: References['pictures']): string | false {
  if (!instruments.includes('oscilloscope')) return false;
  const traces = outcomes.flatMap(({ figure }) => pictures.get(figure ?? '')?.shown ?? []);
  const trace = traces.find(({ kind }) => kind === 'trace');
  return trace?.kind === 'trace' && saySettings(trace);
}

function renderSetups(needs: readonly string[], { setups }: References): Child {
  const found = needs.map((slug) => setups.get(slug)).filter((setup) => setup !== undefined);
  if (found.length === 0) return undefined;
  return make(
    'details',
    // What ends at every power-on is never taken as done: it is read out again each time.
    { class: 'setups', open: found.some(({ endedBy }) => endedBy === 'power-on') },
    make(
      'summary',
      {},
      make('span', { class: 'flag' }, 'First'),
      ' ',
      make('span', { class: 'names' }, found.map(({ title }) => title).join(' · ')),
    ),
    make(
      'ul',
      {},
      found.map(({ slug, title, text, minutes, endedBy }) => {
        const again = endedBy === 'power-on' ? ', again after every power-on' : '';
        return make('li', { 'data-setup': slug }, make('strong', {}, title), ` (${minutes} min${again}). ${text}`);
      }),
    ),
  );
}

function renderTarget({ target: slug, point }: TargetUse, place: StepPlace): Child {
  const target = place.references.targets.get(slug);
  if (target === undefined) return undefined;
  const found = point === undefined ? undefined : place.references.points.get(point);
  const healthy = printHealthy(target);
  return make(
    'section',
    {
      class: 'target',
      'data-target': slug,
      'data-point': point,
      'data-mains': dependsOnMains(target),
      'aria-label': `Target: ${target.title}`,
    },
    makeHeading(place, 1, {}, makeLink(addressOf({ kind: 'target', slug }, place.base), target.title)),
    found && renderPlace(found),
    make(
      'p',
      { class: 'reading' },
      make('span', { class: 'nominal' }, target.nominal === undefined ? healthy : printLimit(target.nominal, target)),
      target.nominal !== undefined && make('span', { class: 'limits', 'data-limits': true }, healthy),
    ),
    make(
      'p',
      { class: 'basis' },
      `${target.conditions} `,
      make('span', { class: 'status' }, `(${statusWords[target.status]})`),
    ),
  );
}

/** Where a check without a target looks. */
function renderPoint(point: string | undefined, { references }: StepPlace): Child {
  const found = references.points.get(point ?? '');
  return found && make('div', { 'data-point': found.slug }, renderPlace(found));
}

function renderPlace({ title, find }: TestPoint): Markup {
  return make(
    'details',
    { class: 'place' },
    make('summary', {}, make('span', { class: 'flag' }, 'Where'), ` ${title}`),
    make('span', { 'data-place': true }, find),
  );
}

function renderAnswers(check: Check, place: StepPlace): Child {
  const target = check.target === undefined ? undefined : place.references.targets.get(check.target.target);
  const { siblings } = check;
  const isAlone = place.use === 'page';
  return [
    make(
      'div',
      { class: 'answers' },
      isAlone &&
        siblings !== undefined &&
        make(
          'reading-field',
          { 'data-siblings': String(siblings) },
          make('p', { class: 'entry' }, makeKeys(`Compare ${siblings} readings`)),
        ),
      isAlone && siblings === undefined && target && renderReadingField('reading', target),
      make(
        'nav',
        { class: 'outcomes', 'aria-label': 'What did you find?' },
        check.outcomes.map(({ when, to, says, figure, supply }) => {
          const bands = target === undefined ? '' : printBands(when, target);
          const label = says ?? when.map(printWord).join(' or ');
          const picture = place.references.pictures.get(figure ?? '');
          const drawn = picture && drawPicture(picture, 100, false);
          const marks = { 'data-answers': when.join(' '), 'data-supply': supply.length > 0 && supply.join(' ') };
          return makeWay(place, to, marks, label, bands, drawn);
        }),
      ),
    ),
    isAlone && renderRareAnswers(),
  ];
}

function renderStages(path: SignalPath, place: StepPlace, tree: FaultTree): Child {
  const { references, base } = place;
  const isAlone = place.use === 'page';
  const titleOf = (id: string): string => findNode(tree, id)?.title ?? id;
  const next = isAlone ? findFirstStage(path, tree) : undefined;
  const stages = path.stages.map(({ id, title, says, target: slug, point, fault }) => {
    const target = slug === undefined ? undefined : references.targets.get(slug);
    const found = point === undefined ? undefined : references.points.get(point);
    return make(
      'li',
      { 'data-stage': id, class: id === next ? 'next' : undefined },
      makeHeading(place, 2, {}, title),
      isAlone && make('p', { class: 'stretch', 'data-stretch': true }, id === next && 'probe here first'),
      (says ?? found) !== undefined &&
        make(
          'p',
          { class: 'place', 'data-point': point },
          says !== undefined && `${says} `,
          make('span', { 'data-place': true }, says === undefined && found?.find),
        ),
      isAlone && renderFigureOf(point, path.instruments[0], place, true),
      target &&
        make(
          'p',
          { class: 'reading', 'data-target': target.slug, 'data-mains': dependsOnMains(target) },
          make(
            'a',
            { href: addressOf({ kind: 'target', slug: target.slug }, base) },
            make('span', { class: 'nominal' }, printHealthy(target)),
          ),
        ),
      isAlone &&
        make(
          'p',
          { class: 'marks', role: 'group', 'aria-label': title },
          makeButton('Good', { 'data-mark': 'good', 'aria-pressed': 'false' }),
          makeButton('Bad', { 'data-mark': 'bad', 'aria-pressed': 'false' }),
        ),
      isAlone && target && renderReadingField(`reading-${id}`, target, { 'data-stage': id }, title),
      makeWay(place, fault, { 'data-answers': 'bad', 'data-stage-bad': id }, 'First bad here', titleOf(fault)),
    );
  });
  return [
    make(
      'p',
      {},
      'Work along the stages in any order; the middle of what is left halves the work. The fault lies between the last good stage and the first bad one.',
    ),
    make('ol', { class: 'stages' }, stages),
    isAlone && make('p', { class: 'found', 'data-found': true, role: 'status', hidden: true }),
    make(
      'nav',
      { class: 'outcomes', 'aria-label': 'All stages good' },
      makeWay(place, path.good, { 'data-answers': 'good' }, 'Good to the end', titleOf(path.good)),
    ),
  ];
}

/** The parts of a cause in which readings are taken. */
const partTitles = { confirm: 'Make sure', prove: 'Prove it' } as const;

function renderParts({ confirm, repair, prove }: Cause, place: StepPlace): Child {
  const said = (prose: Prose, targets: readonly TargetUse[], part?: keyof typeof partTitles): Child => [
    renderProse(prose, place.base),
    targets.map((use, index) => {
      const target = place.references.targets.get(use.target);
      const isRead = target !== undefined && part !== undefined && place.use === 'page';
      const marks = { 'data-proves': use.target, 'data-part': part };
      const figure = place.use === 'page' && renderFigureOf(use.point, target?.instruments[0], place, true);
      const name = isRead ? `${partTitles[part]}: ${target.title}` : undefined;
      return [
        figure,
        renderTarget(use, place),
        isRead && renderReadingField(`${part}-${index + 1}`, target, marks, name),
      ];
    }),
  ];
  return [
    confirm && renderPart('confirm', partTitles.confirm, 0, place, said(confirm.prose, confirm.targets, 'confirm')),
    repair &&
      renderPart('repair', 'Repair', repair.minutes, place, [
        renderSetups(repair.needs, place.references),
        repair.record.length > 0 &&
          renderPart('record', 'Record first', 0, place, [
            renderProse(repair.record, place.base),
            place.use === 'page' && make('photo-taker', { class: 'photo-taker', hidden: true }),
          ]),
        said(repair.prose, repair.targets),
        repair.substitutes.map((substitute) => renderSubstitute(substitute, place)),
        linkSubstitutes(repair.substitutes, place),
      ]),
    prove && renderPart('prove', partTitles.prove, prove.minutes, place, said(prove.prose, prove.targets, 'prove')),
  ];
}

function renderPart(kind: string, title: string, minutes: number, place: StepPlace, inside: Child): Markup {
  const time = minutes > 0 && [' ', make('span', { class: 'minutes' }, `${minutes} min`)];
  return make('section', { class: `part ${kind}` }, makeHeading(place, 1, {}, title, time), inside);
}

/** Where another part is compared with the old one, once for all parts of a cause; paper has no use for it. */
function linkSubstitutes(substitutes: readonly Substitute[], { use, base }: StepPlace): Child {
  const compared = substitutes.find(({ role }) => comparedRoles.has(role));
  if (compared === undefined || use !== 'page') return undefined;
  const address = `${addressOf({ kind: 'guide-page', page: 'part' }, base)}#${compared.role}`;
  return make('p', {}, makeLink(address, 'Will another part do?'));
}

function renderSubstitute({ role, part, value, voltage, test, prose }: Substitute, place: StepPlace): Markup {
  const known = Object.hasOwn(substituteRoles, role) ? substituteRoles[role] : undefined;
  const rating = [part, value, voltage].filter((text) => text !== undefined).join(' · ');
  return make(
    'section',
    { class: 'substitute' },
    makeHeading(place, 2, {}, `New part: ${known?.title ?? role}`),
    rating !== '' && make('p', { class: 'rating' }, rating),
    known && make('p', {}, `${known.rule} `, make('span', { class: 'status' }, '(common bench practice)')),
    renderProse(prose, place.base),
    make('p', { class: 'test' }, make('strong', {}, 'Test the new part first.'), ` ${test}`),
  );
}

/**
 * One field for each figure that a target is judged by; `id` is unique on the page, `marks` say what the reading is for, and `name`
 * tells the field from others of its page.
 */
function renderReadingField(id: string, target: Target, marks: Attributes = {}, name?: string): Markup {
  const fields = fieldsOf(target);
  return make(
    'reading-field',
    marks,
    fields.map(({ title, unit }, index) => {
      const input = index === 0 ? id : `${id}-${index + 1}`;
      const isLast = index === fields.length - 1;
      const label = fields.length > 1 ? title.charAt(0).toUpperCase() + title.slice(1) : 'Reading';
      return make(
        'p',
        { class: fields.length > 1 ? 'entry figure' : 'entry' },
        make('label', { for: input }, label),
        ' ',
        make('input', {
          id: input,
          'aria-label': name === undefined ? undefined : `${label}, ${name}`,
          type: 'text',
          inputmode: 'decimal',
          enterkeyhint: isLast ? 'done' : 'next',
          autocomplete: 'off',
          autocapitalize: 'off',
          spellcheck: 'false',
          placeholder: target.entered[index]?.isOptional === true ? '0' : undefined,
        }),
        ' ',
        make('span', { class: 'unit-sign' }, unit),
        ' ',
        isLast && makeKeys('Keys'),
      );
    }),
  );
}

function makeKeys(text: string): Markup {
  return makeButton(text, { 'data-keys': true, 'aria-expanded': 'false' });
}

/** Answers that any check takes. Without script they cannot be kept, so they are not shown. */
function renderRareAnswers(): Markup {
  const count = { type: 'text', inputmode: 'numeric', maxlength: '3', autocomplete: 'off' };
  return make(
    'details',
    { class: 'rare-answers', 'data-rare-answers': true },
    make('summary', {}, 'It comes and goes, or it did not show'),
    make(
      'p',
      {},
      make('label', {}, 'Seen ', make('input', count)),
      ' ',
      make('label', {}, 'times in ', make('input', count), ' tries'),
    ),
    make(
      'p',
      { class: 'moves' },
      makeButton('Only sometimes', { 'data-sometimes': true }),
      ' ',
      makeButton('Not seen while testing', { 'data-not-seen': true }),
    ),
    make('p', { role: 'status', 'data-said': true }),
  );
}

/** A way on to a node of the same tree. */
function makeWay(
  place: StepPlace,
  to: string,
  attributes: Attributes,
  label: string,
  detail: string,
  picture?: Markup,
): Markup {
  const way = { ...attributes, 'data-to': to };
  if (place.use === 'draft') return makeOutcome('button', { type: 'button', ...way }, label, detail, picture);
  return makeOutcome('a', { ...way, href: addressTo(place, to) }, label, detail, picture);
}

function makeOutcome(
  name: 'a' | 'button',
  attributes: Attributes,
  label: string,
  detail: string,
  picture?: Markup,
): Markup {
  return make(
    name,
    { class: 'outcome', ...attributes },
    picture,
    make('span', { class: 'label' }, label),
    detail !== '' && [' ', make('span', { class: 'detail' }, detail)],
  );
}

function makeButton(text: string, attributes: Attributes): Markup {
  return make('button', { type: 'button', class: 'press plain', ...attributes }, text);
}

function makeLink(href: string, text: string): Markup {
  return make('a', { href }, text);
}

function addressTo({ tree, base }: StepPlace, node: string): string {
  return addressOf({ kind: 'node', tree: tree.slug, node }, base);
}

const titleLevel = { page: 1, paper: 2, draft: 3 } as const;

/** A heading so many levels below the step's title. */
function makeHeading({ use }: StepPlace, below: number, attributes: Attributes, ...children: readonly Child[]): Markup {
  return make(`h${titleLevel[use] + below}`, attributes, children);
}
