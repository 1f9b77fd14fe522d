/** How the template marks what the author has to replace. */
export const templateMark = 'Replace this:';

/** What a new tree is begun with. */
export interface NewTree {
  readonly block: string;
  readonly slug: string;
  readonly title: string;
  /** The day of today, as `2026-11-30`. */
  readonly since: string;
}

/**
 * The text of a small tree to begin from: valid as it is, with the common elements and comments that explain them. What the author
 * has to replace begins with the mark of the rule `template-words`, so that the check names every place that is left.
 */
export function makeTreeTemplate({ block, slug, title, since }: NewTree): string {
  const mark = templateMark;
  const words = slug.replaceAll('-', ' ');
  return `---
# Lines that begin with "${mark}" are yours to write. \`npm run check -- content/trees/${block}/${slug}.mdx\` names those left.
title: ${JSON.stringify(title)}
block: ${block}
# The day it came into the library: the feed of new trees tells it.
since: ${since}
# One sentence: what the unit does, and what it does not.
summary: "${mark} one sentence about a unit with ${words}."
# At least three, as a worried owner types them on a phone: no part names, no diagnosis. No other tree may have them.
symptoms:
  - "${mark} first words for ${words}"
  - "${mark} other words for ${words}"
  - "${mark} third words for ${words}"
# What every such unit may hold, slugs of content/hazards.yaml. Each needs its cautions somewhere below.
hazards: [mains]
# What the owner can see unopened, slugs of content/signs.yaml, yes or no; leave out those that may be either.
signs: {}
---

{/* The first node is where the reader starts. Begin with what is cheap, likely and can be undone: settings, leads, the other unit. */}

<Check id="outside-look" title="${mark} a question, seen from outside" minutes="1" power="off">

  {/* Two to five short sentences: how, where, and what trap there is. A tired beginner follows them word for word. */}

  ${mark} unplug it and open nothing. Say where to look, and for what.

  {/* Without a target the answers are your own words; \`says\` is what the button says. */}

  <Outcome when="set-wrong" to="was-set-wrong" says="It was a setting or a lead" />

  <Outcome when="all-right" to="rail" says="Nothing wrong there" />

</Check>

{/* power="on": \`mains\` comes first. needs: set-ups of content/setups.yaml. instrument: the lesser one that serves. */}

<Check id="rail" title="Is 5 V there at a chip?" minutes="3" power="on" instrument="multimeter" needs="case-open discharged">

  {/* Cautions stand before the instruction. content/cautions/ lists them. */}

  <Caution use="mains" />

  ${mark} clip on with the unit unplugged, name the meter's range, then: hands out, plug in, read, unplug.

  {/* A target is what a healthy circuit reads: content/targets/ lists them, content/points.yaml the test points. */}

  <Target use="rail-5v-at-chip" point="chip-supply" />

  {/* Every band of the target has an outcome; several may share one. Each leads to a node of this tree, never back. */}

  <Outcome when="in" to="part-dead" />

  <Outcome when="low none" to="joint-open" />

  <Outcome when="high" to="rail-too-high" />

</Check>

{/* chance: common, occasional or rare, by experience. shows: what this cause makes other checks read, check=word or check=one|other. */}

<Cause id="part-dead" title="${mark} the part and its failure" chance="occasional" shows="outside-look=all-right">

  {/* The work calls for cautions too: the check tells which. */}

  <Caution use="mains" />

  <Caution use="static" />

  <Caution use="hot-parts" />

  <Caution use="solder-fume" />

  ${mark} what it is, why it fails, what else it takes along.

  <Confirm>

    ${mark} how to be sure before anything is done: not the same reading again, but against a sister, with its neighbour off, or with a good one in its place.

    <Target use="rail-5v-at-chip" point="chip-supply" />

  </Confirm>

  {/* leaves: nothing, mark or damage. success: likely, usual or doubtful. */}

  <Repair minutes="20" needs="board-out discharged" leaves="damage" success="usual">

    <Record>

      ${mark} what to photograph, which marks and directions to note.

    </Record>

    ${mark} the cheap thing first (clean, reseat, resolder), then the part.

    {/* For every new part: its role (npm run check names them), what it must match, how to test it before it goes in. */}

    <Substitute role="logic-chip" part="74LS04" test="${mark} one sentence: how to test the new one first.">

      ${mark} what may stand in for it and what may not.

    </Substitute>

  </Repair>

  {/* Prove: read again what was wrong, and say how long it must hold. */}

  <Prove minutes="10">

    ${mark} what is read or seen when it is repaired.

    <Target use="rail-5v-at-chip" point="chip-supply" />

  </Prove>

</Cause>

<Cause id="joint-open" title="${mark} another part and its failure" chance="common" shows="outside-look=all-right">

  <Caution use="mains" />

  <Caution use="hot-parts" />

  <Caution use="solder-fume" />

  ${mark} what it is and why it fails.

  <Confirm>

    ${mark} how to be sure: against its neighbour, or with the joint bridged.

    <Target use="rail-5v-at-chip" point="chip-supply" />

  </Confirm>

  <Repair minutes="10" needs="board-out discharged" leaves="mark" success="likely">

    ${mark} what to do.

  </Repair>

  <Prove minutes="5">

    ${mark} what is read when it is repaired.

    <Target use="rail-5v-at-chip" point="chip-supply" />

  </Prove>

</Cause>

{/* A signal that passes several stages, one after the other, is a Path with Stages: the guide, "What goes where". */}

{/* Elsewhere opens another tree with the readings taken so far: <Elsewhere id title tree="slug">words</Elsewhere>. */}

{/* A HandOver is an honest end that is not a repair. It stands by itself: what is known, who goes on, how to leave the unit safe. */}

<HandOver id="rail-too-high" title="The supply is too high: stop here" because="beyond-this-page" chance="rare">

  <Caution use="overvoltage" />

  ${mark} what is known now, what a trained person looks at, how to leave the unit.

</HandOver>

<HandOver id="was-set-wrong" title="It was a setting or a lead" because="not-a-fault" chance="common">

  ${mark} what was wrong, and when to come back.

</HandOver>
`;
}
