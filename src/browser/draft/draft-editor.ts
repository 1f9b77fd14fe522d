import { defaultKeymap, history, historyKeymap, isolateHistory } from '@codemirror/commands';
import { type Diagnostic, lintGutter, nextDiagnostic, previousDiagnostic, setDiagnostics } from '@codemirror/lint';
import { EditorState, type Text } from '@codemirror/state';
import { drawSelection, EditorView, highlightActiveLine, keymap, lineNumbers } from '@codemirror/view';
import type { Problem } from '#compiler/problem.ts';
import { editorTheme } from './editor-theme.ts';
import { highlightTree } from './highlight-tree.ts';
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
