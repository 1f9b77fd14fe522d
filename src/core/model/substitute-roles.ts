export interface SubstituteRole {
  readonly title: string;
  /** What a part in this role must match. */
  readonly rule: string;
  /** Cautions that fitting a part in this role compels. */
  readonly cautions: readonly string[];
}

const soldered = ['solder-fume', 'hot-parts'];
const chip = [...soldered, 'static'];
const electrolytic = [...soldered, 'capacitor-burst'];

/**
 * What the replacement must match, by what the part does. The rules are common bench practice;
 * where a number has a published source the target that goes with it names it.
 */
export const substituteRoles: Readonly<Record<string, SubstituteRole>> = {
  reservoir: {
    title: 'Reservoir capacitor',
    rule: 'Same capacitance up to twice it, same voltage or more, same ripple current or more, 105 °C, polarity checked twice.',
    cautions: electrolytic,
  },
  decoupling: {
    title: 'Decoupling capacitor',
    rule: 'Half to twice the value, ceramic for 100 nF, at least twice the rail for tantalum, short leads.',
    cautions: electrolytic,
  },
  coupling: {
    title: 'Coupling capacitor',
    rule: 'Same value or larger, at least 1.5 times the dc across it, polarity to the dc, low leakage.',
    cautions: electrolytic,
  },
  'video-output': {
    title: 'Video output capacitor',
    rule: 'Same value or larger, at least 10 V, low series resistance, plus lead towards the transistor.',
    cautions: electrolytic,
  },
  timing: {
    title: 'Timing capacitor or resistor',
    rule: 'Same value and tolerance, same kind of dielectric, low leakage. Bigger is not better here.',
    cautions: electrolytic,
  },
  'regulator-stability': {
    title: 'Capacitor that keeps a regulator stable',
    rule: 'As the regulator’s sheet says, series resistance included. Tantalum stays tantalum unless the sheet allows otherwise.',
    cautions: electrolytic,
  },
  'oscillator-load': {
    title: 'Oscillator load capacitor',
    rule: 'Same value within 2 pF, C0G ceramic.',
    cautions: soldered,
  },
  transistor: {
    title: 'Transistor',
    rule: 'Same polarity and pin order; voltage, current, power and speed not less; gain at least what the circuit needs.',
    cautions: chip,
  },
  diode: {
    title: 'Diode',
    rule: 'Same kind (plain, fast, Schottky, zener); reverse voltage and current not less.',
    cautions: soldered,
  },
  rectifier: {
    title: 'Rectifier',
    rule: 'Reverse voltage at least three times the secondary’s ac voltage, current at least twice the load. Change the whole bridge.',
    cautions: soldered,
  },
  regulator: {
    title: 'Voltage regulator',
    rule: 'Same number and pinout, same current or more; insulate the tab if the old one was insulated.',
    cautions: chip,
  },
  'logic-chip': {
    title: 'Logic chip',
    rule: 'Same number and family. A change of family needs its input levels and drive compared first.',
    cautions: chip,
  },
  'memory-chip': {
    title: 'Memory chip',
    rule: 'Same organisation and supplies, access time not longer. Never a single-supply chip in a three-supply socket.',
    cautions: chip,
  },
  'op-amp': {
    title: 'Operational amplifier',
    rule: 'Same pin order and supply range; speed, noise and input current not worse; stable at the gain it is used at.',
    cautions: chip,
  },
  comparator: {
    title: 'Comparator',
    rule: 'Same pin order and supply range; an open-collector output stays one. An operational amplifier is not a comparator.',
    cautions: chip,
  },
  processor: { title: 'Processor', rule: 'Same type, speed grade not lower.', cautions: chip },
  'clock-module': { title: 'Oscillator module', rule: 'Same frequency, supply and output level.', cautions: chip },
  crystal: {
    title: 'Crystal',
    rule: 'Same frequency, same load capacitance, same mode (fundamental or overtone).',
    cautions: soldered,
  },
  resistor: {
    title: 'Resistor',
    rule: 'Same value, same power or more, tolerance not wider; fusible stays fusible.',
    cautions: soldered,
  },
  fuse: {
    title: 'Fuse',
    rule: 'Same type letter, current, voltage and breaking capacity, or none at all.',
    cautions: ['fuse', 'mains'],
  },
  switch: {
    title: 'Switch',
    rule: 'Same ac or dc rating and contact arrangement. On the mains side: a competent person, same approval.',
    cautions: soldered,
  },
  lead: { title: 'Lead or cable', rule: 'Same plugs, same wiring, same ratings.', cautions: [] },
  connector: { title: 'Connector', rule: 'Same pitch, same plating, same current per pin.', cautions: soldered },
  socket: { title: 'Chip socket', rule: 'Turned-pin or good dual-wipe, same pitch.', cautions: soldered },
  transformer: {
    title: 'Transformer',
    rule: 'Same primary and secondary voltages, power not less, same insulation class; fitted by a competent person.',
    cautions: ['mains', 'safety-substitute', ...soldered],
  },
  belt: {
    title: 'Belt',
    rule: 'Same inside length and section; a tighter belt wears the bearing.',
    cautions: ['moving-parts'],
  },
  membrane: {
    title: 'Keyboard membrane',
    rule: 'Made for this keyboard; the layout of the tail must match.',
    cautions: [],
  },
  'key-contact': { title: 'Key contact', rule: 'Same switch, or the same conductive pad.', cautions: [] },
  loudspeaker: { title: 'Loudspeaker', rule: 'Same impedance, power not less.', cautions: [] },
  amplifier: { title: 'Amplifier chip', rule: 'Same number; check what the tab is joined to.', cautions: chip },
  potentiometer: {
    title: 'Potentiometer',
    rule: 'Same value and taper (linear or logarithmic), same shaft.',
    cautions: soldered,
  },
  sensor: { title: 'Sensor', rule: 'Same type and orientation.', cautions: soldered },
  'drive-head': {
    title: 'Drive head',
    rule: 'From the same drive; needs alignment with a calibrated disk.',
    cautions: [],
  },
  drive: {
    title: 'Complete drive',
    rule: 'Same size, same heads and tracks, same speed of turning, same plug; drive-number link set as on the old one; its head cleaned first.',
    cautions: ['static', 'moving-parts'],
  },
  motor: {
    title: 'Motor',
    rule: 'Same voltage, speed, turning direction and shaft; what sets the speed often sits on the motor and comes along with it.',
    cautions: ['moving-parts'],
  },
  'donor-board': {
    title: 'Complete board',
    rule: 'Same type and revision, its links set as on the old one, its sockets filled alike.',
    cautions: ['static'],
  },
  'line-driver': { title: 'Line driver or receiver', rule: 'Same number and supply range.', cautions: chip },
  'supply-unit': {
    title: 'External supply',
    rule: 'Same voltage, same kind (ac or dc), same polarity, current not less, approved for sale where you are.',
    cautions: ['overvoltage'],
  },
  cell: {
    title: 'Memory battery',
    rule: 'Same kind, same volts, same plus and minus; one that must not be charged never where the unit charges.',
    cautions: ['lithium-cell', 'irreplaceable-data'],
  },
  display: {
    title: 'Display',
    rule: 'Same pin order and kind: common anode or common cathode, colour, size, drive; a liquid-crystal module of the same controller and contrast range.',
    cautions: chip,
  },
  'mains-safety': {
    title: 'Part in the mains path',
    rule: 'Same type and approval, or none at all; fitted by a competent person.',
    cautions: ['mains', 'safety-substitute', 'safety-parts'],
  },
};

/** Roles whose parts the guide compares line by line; `core/reading/substitute.ts` has the lines. */
export const comparedRoles: ReadonlySet<string> = new Set([
  ...['reservoir', 'regulator-stability', 'decoupling', 'coupling', 'video-output', 'timing', 'resistor'],
  ...['transistor', 'diode', 'rectifier', 'regulator', 'logic-chip', 'fuse', 'mains-safety', 'transformer'],
]);
