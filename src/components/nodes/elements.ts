import Nothing from '../Nothing.astro';
import ProseLink from '../ProseLink.astro';
import TargetCard from '../TargetCard.astro';
import Confirm from './Confirm.astro';
import FocusedNode from './FocusedNode.astro';
import Prove from './Prove.astro';
import Record from './Record.astro';
import Repair from './Repair.astro';
import SubstituteCard from './SubstituteCard.astro';

/** What each element of a tree, and a link in its prose, is drawn with. */
export const elements = {
  a: ProseLink,
  Check: FocusedNode,
  Path: FocusedNode,
  Cause: FocusedNode,
  Elsewhere: FocusedNode,
  HandOver: FocusedNode,
  Target: TargetCard,
  Outcome: Nothing,
  Caution: Nothing,
  Stage: Nothing,
  Confirm,
  Repair,
  Record,
  Substitute: SubstituteCard,
  Prove,
};
