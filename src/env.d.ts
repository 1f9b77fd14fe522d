declare namespace App {
  interface Locals {
    /** What the MDX of a tree is being rendered for: the whole tree, or one node of it. */
    focus: {
      readonly tree: import('#core/model/fault-tree.ts').FaultTree;
      readonly node: string | undefined;
    };
  }
}
