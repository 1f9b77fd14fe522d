import { defaultKeymap, history, historyKeymap, isolateHistory } from '@codemirror/commands';
import { type Diagnostic, lintGutter, nextDiagnostic, previousDiagnostic, setDiagnostics } from '@codemirror/lint';
import { EditorState, type Extension, type Text } from '@codemirror/state';
import {
  Decoration,
  type DecorationSet,
  drawSelection,
  EditorView,
  highlightActiveLine,
  keymap,
  lineNumbers,
  MatchDecorator,
  ViewPlugin,
  type ViewUpdate,
} from '@codemirror/view';
import type { Problem } from '#compiler/problem.ts';
import { makeElement } from '../kit/elements.ts';

/** The text field of the drafting page, with numbers and messages beside its lines. */
export interface DraftEditor {
  readonly readText: () => string;
  /** Puts another text in place of all; Undo brings the old one back. */
  readonly replaceText: (text: string) => void;
  readonly showProblems: (problems: readonly Problem[]) => void;
  /** Moves cursor, view and focus to a place, counted from 1. */
  readonly goTo: (line: number, column: number) => void;
}

interface EditorOptions {
  readonly text: string;
  /** Accessible name. */
  readonly label: string;
  readonly onChange: () => void;
  /** The line of the cursor, counted from 1, whenever it moves to another. */
  readonly onLine: (line: number) => void;
}

/** Marks drawn beside and under the text; all problems stand in the list below it. */
const mostMarks = 300;

/** The sheet's ink, paper and signal colour for the editor; errors and warnings differ in letter and line as well. */
const editorTheme: Extension = EditorView.theme({
  '&': {
    height: 'min(70vh, 42rem)',
    backgroundColor: 'var(--card)',
    color: 'var(--ink)',
    fontSize: '0.95rem',
  },
  '&.cm-focused': { outline: '3px solid var(--signal)', outlineOffset: '2px' },
  '.cm-scroller': { fontFamily: 'ui-monospace, "Cascadia Mono", Menlo, Consolas, monospace', lineHeight: '1.5' },
  '.cm-content': { caretColor: 'var(--ink)', padding: '0.5rem 0' },
  '.cm-cursor': { borderLeftColor: 'var(--ink)', borderLeftWidth: '2px' },
  '&.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground, .cm-selectionBackground': {
    backgroundColor: 'var(--hair)',
  },
  '.cm-activeLine': { backgroundColor: 'transparent', boxShadow: 'inset 3px 0 var(--signal)' },
  '.tree-tag, .tree-field': { fontWeight: '700' },
  '.tree-value': { color: 'var(--signal)' },
  '.tree-comment': { fontStyle: 'italic', color: 'var(--faint)' },
  '.cm-gutters': { backgroundColor: 'var(--paper)', color: 'var(--faint)', borderRight: '1px solid var(--rule)' },
  '.cm-gutter-lint': { width: '1.4em' },
  '.cm-gutter-lint .cm-gutterElement': { padding: '0' },
  '.cm-lint-marker': {
    width: '1.4em',
    height: '1.5em',
    textAlign: 'center',
    fontWeight: '700',
    color: 'var(--on-signal)',
  },
  '.cm-lint-marker-error': { content: 'normal', backgroundColor: 'var(--signal)' },
  '.cm-lint-marker-error::before': { content: '"E"' },
  '.cm-lint-marker-warning': { content: 'normal', color: 'var(--ink)', border: '1px dashed var(--ink)' },
  '.cm-lint-marker-warning::before': { content: '"W"' },
  '.cm-lintRange-error': { backgroundImage: 'none', textDecoration: 'underline wavy var(--signal) 2px' },
  '.cm-lintRange-warning': { backgroundImage: 'none', textDecoration: 'underline dashed var(--ink) 2px' },
  '.cm-lintPoint::after': { borderBottomColor: 'var(--signal)' },
  '.cm-tooltip': {
    maxWidth: 'min(32rem, 90vw)',
    border: '1.5px solid var(--ink)',
    backgroundColor: 'var(--card)',
    color: 'var(--ink)',
  },
  '.cm-diagnostic': { padding: '0.4rem 0.6rem', borderLeft: '0', fontFamily: 'system-ui, sans-serif' },
});

/** Tags, attribute values, comments, and fields of the front matter. */
const decorator = new MatchDecorator({
  regexp: /(<\/?[A-Za-z]+|\/>)|(?<==)("[^"]*")|(\{\/\*.*?\*\/\})|(^---$|^[a-z-]+:)/g,
  decoration: ([, tag, value, comment]) => {
    const part =
      tag !== undefined ? 'tag' : value !== undefined ? 'value' : comment !== undefined ? 'comment' : 'field';
    return Decoration.mark({ class: `tree-${part}` });
  },
});

/** Marks the parts of a tree's file line by line, as they come into view; no parser runs over what was pasted. */
const highlightTree: Extension = ViewPlugin.define<{
  decorations: DecorationSet;
  update: (update: ViewUpdate) => void;
}>(
  (view) => ({
    decorations: decorator.createDeco(view),
    update(update) {
      this.decorations = decorator.updateDeco(update, this.decorations);
    },
  }),
  { decorations: (plugin) => plugin.decorations },
);

/**
 * Opens the editor in a shadow root of `host`: there the library styles itself by constructed style sheets, which the
 * page's policy allows, and not by a style element, which it forbids. Tab leaves it, as it leaves any field.
 */
export function openDraftEditor(host: HTMLElement, options: EditorOptions): DraftEditor {
  const root = host.attachShadow({ mode: 'open' });
  let line = 1;
  const view = new EditorView({
    parent: root,
    root,
    state: EditorState.create({
      doc: options.text,
      extensions: [
        lineNumbers(),
        lintGutter(),
        history(),
        drawSelection(),
        highlightActiveLine(),
        EditorView.lineWrapping,
        highlightTree,
        editorTheme,
        keymap.of([
          { key: 'F8', run: nextDiagnostic },
          { key: 'Shift-F8', run: previousDiagnostic },
          ...defaultKeymap,
          ...historyKeymap,
        ]),
        EditorView.contentAttributes.of({
          'aria-label': options.label,
          tabindex: '0',
          spellcheck: 'true',
          autocapitalize: 'off',
          'data-editor': '',
        }),
        EditorView.updateListener.of((update) => {
          if (update.docChanged) options.onChange();
          const now = update.state.doc.lineAt(update.state.selection.main.head).number;
          if (now !== line) options.onLine(now);
          line = now;
        }),
      ],
    }),
  });
  return {
    readText: () => view.state.doc.toString(),
    replaceText: (text) =>
      view.dispatch({
        changes: { from: 0, to: view.state.doc.length, insert: text },
        selection: { anchor: 0 },
        scrollIntoView: true,
        annotations: isolateHistory.of('full'),
      }),
    showProblems: (problems) => {
      const marks = problems.slice(0, mostMarks).map((problem) => makeMark(problem, view.state.doc));
      view.dispatch(setDiagnostics(view.state, marks));
    },
    goTo: (toLine, column) => {
      const anchor = findOffset(view.state.doc, toLine, column);
      view.dispatch({ selection: { anchor }, effects: EditorView.scrollIntoView(anchor, { y: 'center' }) });
      view.focus();
    },
  };
}

function makeMark(problem: Problem, text: Text): Diagnostic {
  const { line, column } = problem.position === 'unavailable' ? { line: 1, column: 1 } : problem.position;
  const from = findOffset(text, line, column);
  const rest = text.lineAt(from);
  const word = /^[^\s=>]+/u.exec(rest.text.slice(from - rest.from, from - rest.from + 60))?.[0].length ?? 0;
  return {
    from,
    to: Math.min(rest.to, from + word),
    severity: problem.severity,
    message: `${problem.severity}: ${problem.message}`,
    renderMessage: () =>
      makeElement(
        'span',
        {},
        makeElement('strong', {}, problem.severity === 'error' ? 'Error. ' : 'Warning. '),
        `${problem.message} ${problem.help} [${problem.rule}]`,
      ),
  };
}

function findOffset(text: Text, line: number, column: number): number {
  const found = text.line(Math.min(Math.max(1, line), text.lines));
  return Math.min(found.to, found.from + Math.max(0, column - 1));
}
