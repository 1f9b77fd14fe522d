import { EditorView } from '@codemirror/view';
import type { Extension } from '@codemirror/state';

/** The sheet's ink, paper and signal colour for the editor; errors and warnings differ in letter and line as well. */
export const editorTheme: Extension = EditorView.theme({
  '&': {
    height: 'min(70vh, 42rem)',
    border: '2px solid var(--ink)',
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
