/** What an author is told about a message beyond its one line: printed by `--explain`, and in the guide’s reference. */
export interface Explanation {
  /** What is asked for, in one sentence. */
  readonly says: string;
  /** What goes wrong at a bench, in a build or for the next author where it is not so. */
  readonly why: string;
  /** Content that the message is about. */
  readonly wrong: string;
  /** The same content, mended. */
  readonly right: string;
  /** The whole of what one sentence only names: one line each. */
  readonly all?: readonly string[];
  /** The kind of file the two examples are from; a tree where left out. */
  readonly from?:
    | 'a target'
    | 'a caution'
    | 'a unit'
    | 'a part'
    | 'a picture'
    | 'a circuit'
    | 'instruments.yaml'
    | 'thesaurus.yaml'
    | 'the folder content/';
}

/**
 * What the readers say before any rule runs, by the id printed behind each message: syntax first, then structure, then the
 * front matter and the reference files. The ids are a type, so that no message goes out unexplained.
 */
export const readerMessages = {
  syntax: {
    says: 'The file can be read: every element is closed, every attribute is in quotes, and `<` begins an element only.',
    why: 'Where the text cannot be taken apart nothing else of the file is checked.',
    wrong: 'Below <5 V it stops.',
    right: 'Below 5 V it stops.',
  },
  'no-code': {
    says: 'Content is data: no import, no export, and nothing in braces but `{/* comments */}`.',
    why: 'What stands in braces would be run on the machine of the person who builds the site.',
    wrong: 'Read {1 + 1} volts.',
    right: 'Read 2 volts. {/* one volt a cell */}',
  },
  'hidden-character': {
    says: 'A file holds no character that nobody sees: control characters, zero-width and bidirectional marks, soft hyphens, odd blanks.',
    why: 'What a reader cannot see can carry a word past every rule, and can make two programs read two different files.',
    wrong: 'Read the r\u200Bail at the farthest chip.',
    right: 'Read the rail at the farthest chip.',
  },
  'other-script': {
    says: 'Words are written in Latin letters, with plain digits and hyphens; Greek letters are units and symbols: kΩ, µF, ΔV, π.',
    why: 'A letter of another script that looks like ours makes a word that no search finds and no safety rule knows.',
    wrong: 'Re\u0430d the rail at the farthest chip.',
    right: 'Read the rail at the farthest chip.',
  },
  'too-large': {
    says: 'A file is of a size and a depth that one tree needs: its characters, nodes, nesting and marks are counted first.',
    why: 'What a parser cannot read in a moment would hold up the build, and the page that checks a draft as it is typed.',
    wrong: '> > > > > > > > > > > Read.',
    right: 'Read.',
  },
  'unknown-element': {
    says: 'Only the elements of a tree are used; raw HTML is none of them.',
    why: 'An element nobody knows is drawn by nobody: the reader would not see it.',
    wrong: '<Warning>Mind the heat.</Warning>',
    right: '<Caution use="hot-parts" />',
  },
  'element-place': {
    says: 'Each element stands where its table allows it.',
    why: 'A target outside a check, or a repair outside a cause, belongs to nothing and is shown nowhere.',
    wrong: '<Prove minutes="1">Read.</Prove>\n\n<Check id="inside"',
    right: '<Check id="inside"',
  },
  'element-twice': {
    says: 'A check has one target, a cause one Confirm, one Repair, one Prove.',
    why: 'Of two, the page would have to choose.',
    wrong:
      '<Prove minutes="3">Put it back, use it for an hour and read again.</Prove>\n\n<Prove minutes="5">Run it.</Prove>',
    right: '<Prove minutes="3">Put it back, use it for an hour and read again.</Prove>',
  },
  'element-inside-text': {
    says: 'An element stands on lines of its own, with a blank line before and after.',
    why: 'In the middle of a sentence it is part of the sentence, and the page cannot put it where it belongs.',
    wrong: 'Read <Caution use="mains" /> it.',
    right: '<Caution use="mains" />\n\nRead it.',
  },
  'prose-only': {
    says: 'Prose is paragraphs, lists, emphasis and links.',
    why: 'Headings, pictures, tables and code have no place on a page that one screen holds.',
    wrong: '# Read the rail',
    right: 'Read the rail.',
  },
  'prose-outside-node': {
    says: 'Below the front matter there are only nodes; words stand inside them.',
    why: 'Words between nodes belong to no page.',
    wrong: 'Some words.\n\n<Check id="inside"',
    right: '<Check id="inside"',
  },
  'prose-place': {
    says: 'Target, Outcome, Caution and Stage hold attributes only.',
    why: 'Words inside them are shown nowhere.',
    wrong: '<Outcome when="in" to="inside" says="Healthy">It is fine.</Outcome>',
    right: '<Outcome when="in" to="inside" says="Healthy" />',
  },
  'prose-missing': {
    says: 'Every node, Confirm, Repair, Record and Prove says something in words.',
    why: 'A title alone tells nobody what to do with their hands.',
    wrong: '<Prove minutes="3"></Prove>',
    right: '<Prove minutes="3">Put it back, use it for an hour and read again.</Prove>',
  },
  'link-address': {
    says: 'A link leads to a page of this site, written from its root.',
    why: 'Other sites come and go, and an address may hide a script. Other sources are named in sources.yaml.',
    wrong: 'See [this](javascript:alert(1)) first.',
    right: 'See [this](/targets/rail-5v/) first.',
  },
  'missing-attribute': {
    says: 'Every attribute that the element’s table calls required is there.',
    why: 'Without it the page, the plan or the address cannot be made.',
    wrong: '<Outcome when="yes" />',
    right: '<Outcome when="yes" to="rail" />',
  },
  'unknown-attribute': {
    says: 'Only the attributes of the element’s table are used.',
    why: 'An attribute nobody reads is a thought of its author that gets lost.',
    wrong: '<Outcome when="yes" goto="rail" to="rail" />',
    right: '<Outcome when="yes" to="rail" />',
  },
  'attribute-value': {
    says: 'An attribute has a value in quotes.',
    why: 'An empty one says neither yes nor no.',
    wrong: '<Outcome when="yes" to="rail" says />',
    right: '<Outcome when="yes" to="rail" />',
  },
  'attribute-twice': {
    says: 'Each attribute stands once.',
    why: 'Of two values, one is not what its author meant.',
    wrong: '<Outcome when="yes" to="rail" to="inside" />',
    right: '<Outcome when="yes" to="rail" />',
  },
  'attribute-choice': {
    says: 'An attribute with set choices has one of them.',
    why: 'The plan counts with these words; another word counts for nothing.',
    wrong: 'because="too-hard"',
    right: 'because="licensed"',
  },
  'number-shape': {
    says: 'Minutes and counts are plain numbers.',
    why: 'The plan adds them up.',
    wrong: 'minutes="one" power="off" sign',
    right: 'minutes="1" power="off" sign',
  },
  'text-length': {
    says: 'Titles and buttons keep to their length.',
    why: 'They must fit a phone, a graph and a browser’s tab.',
    wrong: 'title="Is the rail in range at the chip that is farthest from the regulator?"',
    right: 'title="Is the rail in range?"',
  },
  'id-shape': {
    says: 'An id is small letters, digits and single hyphens, at most 24 characters; the name of a file, at most 40.',
    why: 'It becomes part of an address that people read out and type.',
    wrong: '<Cause id="Socket_Worn"',
    right: '<Cause id="socket-worn"',
  },
  'id-reserved': {
    says: 'An id is none of the words that addresses and bands use themselves.',
    why: 'In an address `low` could then mean two things.',
    wrong: '<Cause id="low"',
    right: '<Cause id="socket-worn"',
  },
  'word-shape': {
    says: 'Outcome words and lists of slugs are small letters, digits and hyphens, with spaces between.',
    why: 'They stand in addresses too.',
    wrong: '<Outcome when="Dark!" to="leave-it" />',
    right: '<Outcome when="dark" to="leave-it" />',
  },
  'shows-shape': {
    says: '`shows` is pairs such as check=outcome or check=one|other, with spaces between.',
    why: 'What a cause makes checks read is computed from these pairs.',
    wrong: 'shows="lamp:no rail=none|low"',
    right: 'shows="lamp=no rail=none|low"',
  },
  'duplicate-id': {
    says: 'Each id stands once in a tree.',
    why: 'Two nodes cannot have one address.',
    wrong: '<Check id="rail" title="Any dark spot?"',
    right: '<Check id="inside" title="Any dark spot?"',
  },
  'front-matter': {
    says: 'A file begins with its front matter between two lines of ---.',
    why: 'Title, block and symptoms stand there: without them the tree cannot be found.',
    wrong: 'title: About mains',
    right: '---\ntitle: About mains',
    from: 'a caution',
  },
  'yaml-syntax': {
    says: 'Front matter and tables are YAML, indented with two spaces, each key once.',
    why: 'Where it cannot be read, nothing of it is.',
    wrong: 'hazards: [static, mains',
    right: 'hazards: [static, mains]',
  },
  'missing-field': {
    says: 'Every field that the file needs is there.',
    why: 'Without it the page, the search or the honesty of a number is not complete.',
    wrong: 'symptoms:\n  - five volt rail is low',
    right: 'summary: The five volt rail reads low or nothing.\nsymptoms:\n  - five volt rail is low',
  },
  'unknown-field': {
    says: 'Only known fields are used.',
    why: 'A misspelt field is a thought of its author that gets lost.',
    wrong: 'wass: [old-sample]',
    right: 'was: [old-sample]',
  },
  'field-value': {
    says: 'A field holds what its file’s table says: words, a number, a slug, one of some choices.',
    why: 'Pages and computations rely on it without looking again.',
    wrong: 'block: Power Supply',
    right: 'block: power',
  },
  'limit-order': {
    says: 'The limits of a target rise: none, low, high, with the nominal between; bands share their edges and one is `in`.',
    why: 'With low above high no reading is healthy.',
    wrong: 'low: 5.5\nnominal: 5\nhigh: 5.25',
    right: 'low: 4.75\nnominal: 5\nhigh: 5.25',
    from: 'a target',
  },
  netlist: {
    says: 'A circuit is a netlist of at most 60 plain elements, with points, tolerances and faults that it has.',
    why: 'A netlist is data from a stranger: it reads no file, runs no command and ends soon.',
    wrong: '.include /etc/models.lib',
    right: 'VCC rail 0 5',
    from: 'a circuit',
  },
  drawing: {
    says: 'A circuit is drawn as its netlist has it: every element once or under `not-drawn`, every pin on a wire of its own node and of no other, and nothing on top of anything else.',
    why: 'A drawing that contradicts the netlist sends the probe to the wrong place.',
    wrong: 'chip: 9,2 12,2',
    right: 'chip: 7,2 12,2',
    from: 'a circuit',
  },
  'circuit-numbers': {
    says: 'Beside each circuit lie its simulated numbers, of just this netlist.',
    why: 'Numbers of another netlist would be wrong evidence.',
    wrong: '"seconds":"long"',
    right: '"seconds":0',
    from: 'a circuit',
  },
  'caution-length': {
    says: 'The text of a caution has at most 60 words.',
    why: 'It is read at a glance, or not at all.',
    wrong: `text: ${'Mind the heat of it. '.repeat(13).trim()}`,
    right: 'text: Mind it.',
    from: 'a caution',
  },
  'instrument-class': {
    says: 'A class of instruments has a known family, known units, and ranges from the lowest up.',
    why: 'Every verdict on a reading counts with these figures.',
    wrong: 'family: multimetre',
    right: 'family: multimeter',
    from: 'instruments.yaml',
  },
  'tree-empty': {
    says: 'A tree has nodes below its front matter.',
    why: 'Without a check there is nothing to ask, and no page.',
    wrong:
      '---\ntitle: Rail too high\nblock: power\nsummary: The five volt rail reads high.\nsymptoms: [chips run hot]\n---',
    right:
      '---\ntitle: Rail too high\nblock: power\nsummary: …\n---\n\n<Check id="glow" title="Is it hot?" minutes="1" power="off">',
  },
  'file-place': {
    says: 'A file lies where its kind is read, has its kind’s ending, and its name can stand in an address.',
    why: 'A file in another place, or with another ending, is read by nobody: the tree would be missing without a word.',
    wrong: 'content/trees/power/Rail High.md',
    right: 'content/trees/power/rail-high.mdx',
    from: 'the folder content/',
  },
  'missing-file': {
    says: 'Every table that content rests on is there.',
    why: 'Without the list of cautions or set-ups nothing that names one can be checked.',
    wrong: 'content/ without signs.yaml',
    right: 'content/ with signs.yaml',
    from: 'the folder content/',
  },
} as const satisfies Record<string, Explanation>;

export type ReaderMessageId = keyof typeof readerMessages;
