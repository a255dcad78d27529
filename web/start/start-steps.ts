/** The questions of the guided start, in the order asked. */
export interface StartQuestion {
  readonly field: string;
  readonly asks: string;
  readonly hint?: string;
  readonly example?: string;
  readonly options?: readonly (readonly [value: string, says: string])[];
}
export interface StartStep { readonly name: 'vehicle' | 'pack' | 'drive' | 'links'; readonly title: string; readonly says: string; readonly questions: readonly StartQuestion[] }

export const steps: readonly StartStep[] = [
  {
    name: 'vehicle', title: 'Vehicle', says: 'The vehicle before the work, complete, as it stands. Write numbers with their unit, and how sure you are: 1.47 m ±5 mm measured, 610 kg ±3 measured, 98 1/2 in. Leave out what you do not know yet.',
    questions: [
      { field: 'name', asks: 'What do you call it?', example: 'Bakery van' },
      { field: 'scenario', asks: 'What is being done, in a sentence?', example: 'a delivery van gets the drive unit and half the modules of a wrecked hatchback' },
      { field: 'units', asks: 'Which units shall the sheets show?', options: [['metric', 'metric'], ['imperial', 'imperial']] },
      { field: 'wheelbase', asks: 'Front axle to rear axle', example: '2.54 m ±5 mm measured' },
      { field: 'front_track', asks: 'Between the front tyres, centre to centre', example: '1.47 m ±5 mm measured' },
      { field: 'rear_track', asks: 'Between the rear tyres, centre to centre', example: '1.46 m ±5 mm measured' },
      { field: 'front_axle_load', asks: 'Scale under the front wheels', example: '610 kg ±3 measured' },
      { field: 'rear_axle_load', asks: 'Scale under the rear wheels', example: '480 kg ±3 measured' },
      { field: 'total_rating', asks: 'Highest permitted mass, from its plate', example: '1700 kg label' },
    ],
  },
  {
    name: 'pack', title: 'Cells and modules', says: 'What you have of the donor’s battery. The label of a module says most of it; a scale and a tape measure say the rest.',
    questions: [
      { field: 'chemistry', asks: 'What are the cells made of?', options: [['nmc', 'NMC: nickel manganese cobalt oxide'], ['nca', 'NCA: nickel cobalt aluminium oxide'], ['lfp', 'LFP: iron phosphate'], ['lmo', 'LMO: manganese oxide'], ['lto', 'LTO: titanate on the negative side']] },
      { field: 'capacity', asks: 'What does one cell hold?', example: '62 Ah label', hint: 'As marked, or as you measured it. Cells in parallel inside a module are asked for below.' },
      { field: 'resistance', asks: 'Inner resistance of one cell', example: '0.95 mΩ ±30 % estimate' },
      { field: 'modules', asks: 'How many modules?', example: '7' },
      { field: 'series', asks: 'How many cell groups in series in each?', example: '12', hint: 'The voltage on its label divided by that of one cell.' },
      { field: 'parallel', asks: 'How many cells in parallel in each group?', example: '1' },
      { field: 'mass', asks: 'What does one module weigh?', example: '12.4 kg ±0.1 measured' },
      { field: 'size', asks: 'How long, wide and high is it, as mounted?', example: '385 x 150 x 110 mm measured' },
    ],
  },
  {
    name: 'drive', title: 'Drive', says: 'What turns the wheels. Its label or data sheet says what voltage and current it bears.',
    questions: [
      { field: 'drive', asks: 'What is it?', options: [['drive_unit', 'drive unit: inverter, motor and gear in one housing'], ['inverter', 'inverter on its own, with a motor']] },
      { field: 'maximum_voltage', asks: 'Highest voltage between its poles', example: '450 V label' },
      { field: 'minimum_voltage', asks: 'Lowest voltage at which it works', example: '220 V label' },
      { field: 'link_capacitance', asks: 'Capacitor between its poles', example: '0.8 mF label', hint: 'Decides the precharge. Leave it out rather than guess.' },
      { field: 'continuous_current', asks: 'Current it may draw for ever', example: '180 A datasheet' },
      { field: 'peak_current', asks: 'Highest current it may draw', example: '400 A datasheet' },
      { field: 'mass', asks: 'What does it weigh?', example: '88 kg ±1 measured' },
      { field: 'size', asks: 'How long, wide and high is it, as mounted?', example: '620 x 480 x 380 mm measured' },
    ],
  },
  {
    name: 'links', title: 'First runs', says: 'Bars that join the modules in a row. They go into the file now; on the vehicle, the last link closes the pack and comes last, with gloves and a second person.',
    questions: [
      { field: 'width', asks: 'Broad side of the bar', example: '20 mm measured' },
      { field: 'thickness', asks: 'Thin side of the bar', example: '3 mm measured' },
      { field: 'material', asks: 'Metal', options: [['copper', 'copper'], ['aluminium', 'aluminium']] },
      { field: 'insulation', asks: 'Covering', options: [['heat_shrink', 'polyolefin sleeve'], ['dipped_pvc', 'dipped in PVC'], ['powder', 'epoxy powder'], ['bare', 'none: bare metal']] },
      { field: 'length', asks: 'Length of one bar', example: '70 mm measured' },
    ],
  },
];
