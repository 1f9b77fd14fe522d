import type { Extension } from '@codemirror/state';
import {
  Decoration,
  type DecorationSet,
  type EditorView,
  MatchDecorator,
  ViewPlugin,
  type ViewUpdate,
} from '@codemirror/view';

const classes = { tag: 'tree-tag', value: 'tree-value', field: 'tree-field', comment: 'tree-comment' } as const;

/** Tags, attribute values, comments, and fields of the front matter: one look at each line that is seen. */
const decorator = new MatchDecorator({
  regexp: /(<\/?[A-Za-z]+|\/>)|(?<==)("[^"]*")|(\{\/\*.*?\*\/\})|(^---$|^[a-z-]+:)/g,
  decoration: ([, tag, value, comment]) => {
    if (tag !== undefined) return Decoration.mark({ class: classes.tag });
    if (value !== undefined) return Decoration.mark({ class: classes.value });
    return Decoration.mark({ class: comment === undefined ? classes.field : classes.comment });
  },
});

/** Sets apart the parts of a tree's file that are seen; no parser runs over what was pasted. */
export const highlightTree: Extension = ViewPlugin.fromClass(
  class {
    decorations: DecorationSet;
    constructor(view: EditorView) {
      this.decorations = decorator.createDeco(view);
    }
    update(update: ViewUpdate): void {
      this.decorations = decorator.updateDeco(update, this.decorations);
    }
  },
  { decorations: (plugin) => plugin.decorations },
);
