/**
 * The sections of the build file in the field language, as far as they do not depend on a kind.
 * The reader, the JSON Schema and the reference page are all made from these.
 */
import { choice, count, flag, fromHandbook, list, nameOf, optional, position, required, size, text } from '../part/field.ts';
import type { Fields } from '../part/field.ts';

/** Version of the file format that this reader understands. */
export const FORMAT_VERSION = 1;

/** The single values at the top of the file. */
export const fileFields = {
  halfshaft: count('version of the file format; the first line of every build file', { minimum: FORMAT_VERSION, maximum: FORMAT_VERSION, example: '1' }),
  name: text('what the builder calls the vehicle', { need: 'required', example: 'Bakery van' }),
  scenario: text('one sentence: what is being done to which vehicle', { example: 'a delivery van gets the drive unit and half the modules of a wrecked hatchback' }),
  units: choice(['metric', 'imperial'], 'units in which results are shown; numbers in the file may use any unit', { need: 'optional', fallback: 'metric' }),
} satisfies Fields;

export const vehicleFields = {
  wheelbase: required('length', 'front axle line to rear axle line', { example: '2.54 m ±5 mm measured', minimum: 0, aboveMinimum: true }),
  front_track: required('length', 'between the centres of the front tyres on the ground', { example: '1.47 m ±5 mm measured', minimum: 0, aboveMinimum: true }),
  rear_track: required('length', 'between the centres of the rear tyres on the ground', { example: '1.46 m ±5 mm measured', minimum: 0, aboveMinimum: true }),
  front_axle_load: required('mass', 'what the scale under the front wheels shows before the work, vehicle complete', { example: '610 kg ±3 measured', minimum: 0, aboveMinimum: true }),
  rear_axle_load: required('mass', 'what the scale under the rear wheels shows before the work, vehicle complete', { example: '480 kg ±3 measured', minimum: 0, aboveMinimum: true }),
  left_load: optional('mass', 'what the scales under both left wheels show before the work', { example: '550 kg ±3 measured', minimum: 0, aboveMinimum: true }),
  centre_of_gravity_height: optional('length', 'height of the centre of gravity above the ground before the work', { example: '560 mm ±40 estimate', minimum: 0, aboveMinimum: true }),
  front_axle_rating: optional('mass', 'highest permitted load on the front axle', { isLimit: true, example: '850 kg label', minimum: 0, aboveMinimum: true }),
  rear_axle_rating: optional('mass', 'highest permitted load on the rear axle', { isLimit: true, example: '900 kg label', minimum: 0, aboveMinimum: true }),
  total_rating: optional('mass', 'highest permitted mass of the vehicle', { isLimit: true, example: '1700 kg label', minimum: 0, aboveMinimum: true }),
} satisfies Fields;

/** Absolute zero is not a condition a garage meets; the range is that of road vehicles with room to spare. */
const COLDEST = 200;
const HOTTEST = 600;

export const conditionFields = {
  ambient: fromHandbook('temperature', 'conditions.ambient', 'air around the vehicle', { example: '35 °C', minimum: COLDEST, maximum: 350 }),
  cell_temperature: fromHandbook('temperature', 'conditions.cell_temperature', 'temperature of the cells', { example: '20 °C', minimum: COLDEST, maximum: 400 }),
  state_of_charge: fromHandbook('ratio', 'conditions.state_of_charge', 'state of charge of the cells', { example: '50 %', minimum: 0, maximum: 1 }),
} satisfies Fields;

/** What is taken out of the vehicle: it was on the scale before and is no longer there. */
export const removedFields = {
  mass: required('mass', 'what it weighs', { example: '142 kg ±3 measured', minimum: 0, aboveMinimum: true }),
  at: position('where its centre of gravity was', 'required'),
  note: text('anything worth remembering', { example: 'with oil, without starter' }),
} satisfies Fields;

export const cellFields = {
  chemistry: choice(['nmc', 'nca', 'lfp', 'lmo', 'lto'], 'what the cell is made of; decides its voltage curve', {
    explain: { nmc: 'nickel manganese cobalt oxide', nca: 'nickel cobalt aluminium oxide', lfp: 'iron phosphate', lmo: 'manganese oxide', lto: 'titanate on the negative side' },
  }),
  capacity: required('charge', 'what one cell holds now, aged as it is', { example: '62 Ah ±3 measured', minimum: 0, aboveMinimum: true }),
  resistance: required('resistance', 'of one cell, from the voltage drop after 10 s of load, at 25 °C and 50 % charge', { example: '0.95 mΩ ±15 % estimate', minimum: 0, aboveMinimum: true }),
  minimum_voltage: fromHandbook('voltage', 'cell.minimum_voltage.{chemistry}', 'lowest voltage of one cell in service', { isLimit: true, example: '3.0 V datasheet', minimum: 0, aboveMinimum: true, maximum: 6 }),
  nominal_voltage: fromHandbook('voltage', 'cell.nominal_voltage.{chemistry}', 'what the maker calls the voltage of one cell', { isLimit: true, example: '3.65 V datasheet', minimum: 0, aboveMinimum: true, maximum: 6 }),
  maximum_voltage: fromHandbook('voltage', 'cell.maximum_voltage.{chemistry}', 'highest voltage of one cell in service', { isLimit: true, example: '4.2 V datasheet', minimum: 0, aboveMinimum: true, maximum: 6 }),
  activation_energy: fromHandbook('number', 'cell.activation_energy', 'how strongly cold below 25 °C raises its resistance, in J/mol', { example: '20000', minimum: 0, aboveMinimum: true, maximum: 200000 }),
  activation_energy_warm: fromHandbook('number', 'cell.activation_energy_warm', 'how strongly warmth above 25 °C lowers its resistance, in J/mol', { example: '8000', minimum: 0, aboveMinimum: true, maximum: 200000 }),
  continuous_discharge: optional('current', 'highest discharge current that may last', { isLimit: true, example: '120 A datasheet', minimum: 0, aboveMinimum: true }),
  peak_discharge: optional('current', 'highest discharge current for 10 s', { isLimit: true, example: '350 A datasheet', minimum: 0, aboveMinimum: true }),
  continuous_charge: optional('current', 'highest charge current that may last', { isLimit: true, example: '60 A datasheet', minimum: 0, aboveMinimum: true }),
  minimum_charge_temperature: optional('temperature', 'coldest that it may be charged; silent: 0 °C, and for `lto` no limit', { isLimit: true, example: '-10 °C datasheet', minimum: COLDEST, maximum: 350 }),
  note: text('anything worth remembering', { example: 'module 7 sat in the rain' }),
} satisfies Fields;

/** What hands have done to a part or run since it last worked: fault finding looks there first. */
const disturbed = (what: string) => list(choice(['spliced', 'extended', 're_crimped', 'moved', 'opened', 'wetted'], 'one thing done to it', {
  explain: { spliced: 'cut and joined again', extended: 'made longer', re_crimped: 'a new terminal or lug on it', moved: 'taken off and put back, or laid elsewhere', opened: 'taken apart', wetted: 'it stood in water or was washed' },
}), `what was done to ${what} since it last worked; fault finding looks there first`);

/** Every part may have these, whatever its kind; a kind may describe one of them more strictly. */
export const commonPartFields = {
  mass: optional('mass', 'what the part weighs; 0 kg when it was on the scale already', { example: '12.4 kg ±0.1 measured', minimum: 0 }),
  size: size('outside dimensions along x, y and z, as mounted'),
  at: position('the centre of its box'),
  terminals: choice(['bare', 'covered', 'finger_proof'], 'whether hands can reach its high-voltage terminals while the battery is put together; silent counts as bare', {
    need: 'optional', explain: { bare: 'can be touched at any time', covered: 'a cover goes on once everything is joined there', finger_proof: 'cannot be touched even while open (IPXXB)' },
  }),
  disturbed: disturbed('it'),
  note: text('anything worth remembering', { example: 'bracket still to be made' }),
} satisfies Fields;

/** Every run has these, whatever its kind. */
export const commonRunFields = {
  from: nameOf('ports', 'port where it starts', { example: 'M1.pos' }),
  to: nameOf('ports', 'port where it ends', { example: 'M2.neg' }),
  stock: nameOf('stock', 'what it is cut from; without it, give `kind` and the fields of that kind here', { need: 'optional', example: 'hv50' }),
  length: optional('length', 'cut length; when absent, the way from part to part through `via`, plus slack', { example: '1.85 m ±1 cm measured', minimum: 0, aboveMinimum: true }),
  via: list(position('a point of the route', 'required'), 'points of the route, in order from start to end'),
  slack: optional('ratio', 'added to the route for bends and terminations', { example: '5 %', minimum: 0, maximum: 2 }),
  ambient: optional('temperature', 'air around the run where it is hottest', { example: '60 °C', minimum: COLDEST, maximum: HOTTEST }),
  bend_radius: optional('length', 'tightest bend, to the inside of the run', { example: '90 mm', minimum: 0, aboveMinimum: true }),
  bundled: count('how many loaded conductors lie together, this one included', { need: 'optional', minimum: 1, maximum: 1000, example: '3' }),
  alone: flag('it lies in a conduit and sheath of its own, away from the other pole, so that it cannot meet its cables'),
  after: list(nameOf('runs', 'a run', { example: 'W1' }), 'runs that must be joined before this one, because it covers them'),
  before: list(nameOf('runs', 'a run', { example: 'W2' }), 'runs that can only be joined after this one'),
  torque: optional('torque', 'of its bolts, for the procedure', { isLimit: true, example: '9 N·m datasheet', minimum: 0, aboveMinimum: true }),
  hardware: text('bolts, washers and caps at its ends, for the procedure', { example: 'M6 flange nut, brass' }),
  joint_resistance: fromHandbook('resistance', 'run.joint_resistance', 'of the joint at each end', { example: '0.05 mΩ ±50 % estimate', minimum: 0 }),
  disturbed: disturbed('it or its ends'),
  note: text('anything worth remembering', { example: 'in conduit behind the seat' }),
} satisfies Fields;

/** A year; what lasts longer lasts for good [s]. */
const LONGEST = 31_557_600;

/** A mode, except what it sets: that is described by the kinds of the parts. */
export const modeFields = {
  meaning: text('what the vehicle does in this mode', { example: 'power to the wheels' }),
  from: list(nameOf('modes', 'a mode', { example: 'ready' }), 'modes from which it may be entered'),
  lasts: optional('time', 'how long it may last at a stretch; absent: as long as you like', { isLimit: true, example: '10 s', minimum: 0, aboveMinimum: true, maximum: LONGEST }),
  every: optional('time', 'how long until it may be repeated', { isLimit: true, example: '120 s', minimum: 0, aboveMinimum: true, maximum: LONGEST }),
  highest_charge: optional('ratio', 'highest state of charge at which the vehicle still does this: the controller sees to it; absent: full', { isLimit: true, example: '90 %', minimum: 0, maximum: 1 }),
  needs: list(text('a condition', { need: 'required', example: "V('K_pos.out', 'K_neg.out') > 0.95 * V('M7.pos', 'M1.neg')" }), 'what must be true before it is entered, each a condition on settings, inputs and voltages: see docs/method/power-up.md'),
  asserts: list(text('a condition', { need: 'required', example: "V('DCDC.lv_pos') > voltage('13 V')" }), 'what must be true once it is entered, besides what `set` says: a condition each'),
  needs_in_words: list(text('something that no wire tells', { need: 'required', example: 'nobody under the car' }), 'what a person must see to before it is entered, in words; nothing checks it'),
} satisfies Fields;

/** The sections in the order of the reference page. */
export const sectionMeanings = {
  vehicle: 'The vehicle before the work, as measured and weighed.',
  conditions: 'What the analysis assumes around and in the vehicle. Leave it out to use the handbook.',
  removed: 'What is taken out, one entry a thing.',
  cells: 'The cells that battery parts are made of, one entry a type of cell.',
  stock: 'Cable, wire and bar that runs are cut from, one entry a stock.',
  parts: 'Everything with ports, one entry a part.',
  runs: 'What joins two ports, one entry a run.',
  modes: 'What the vehicle is asked to do, one entry a mode.',
} as const;
export type SectionName = keyof typeof sectionMeanings;
