/** Findings of the subject pack. */
import type { CodeRow } from '../code-row.ts';

type Row = Omit<CodeRow, 'topic'>;
const topic = 'pack' as const;

const layoutRows: readonly Row[] = [
  {
    code: 'pack.has-cells', title: 'The battery has cells', formula: 'at least one part made of cells when any part has high-voltage ports',
    sources: ['common-practice'], why: 'Without a source nothing else on the high-voltage side can be computed.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'The build has battery modules.', broken: 'The build has high-voltage parts but no battery module.', unknown: 'Whether the build has battery modules is not known.' },
    whatToDo: 'Add the battery modules to `parts` and what they are made of to `cells`.',
  },
  {
    code: 'pack.module-counted', title: 'Every module counts', formula: 'cell, series count and all values of the cell given; cell temperature within -30..60 °C',
    sources: ['common-practice'], why: 'A module that is left out makes every voltage too low: the pack is then more dangerous than this file says.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{about} counts in the pack.', broken: '{about} does not count in the pack.', unknown: '{about} is not counted in the pack, so every voltage here is too low.' },
    whatToDo: 'Give the missing values of the module or of its cell.',
  },
  {
    code: 'pack.modules-connected', title: 'Every module is joined to something', formula: 'at least one terminal of each module has a run',
    sources: ['common-practice'], why: 'A loose module gives nothing, and its bare terminals still hold its full voltage.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'Every module is joined to something.', broken: '{about} is not joined to anything.', unknown: 'Whether every module is joined is not known.' },
    whatToDo: 'Add the runs to its terminals, or take the module out of the file; cover the terminals of a module that lies about.',
  },
  {
    code: 'pack.module-not-shorted', title: 'No module is short-circuited', formula: 'no way through metal from a module’s positive terminal to its own negative one, every contact closed',
    sources: ['common-practice'], why: 'The short drives hundreds to thousands of amperes at the moment the last joint is made: metal sprays and cells burn.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'No module has its own terminals joined.', broken: '{about} is short-circuited through {through}.', unknown: 'Whether a module is short-circuited is not known.' },
    whatToDo: 'Do not make that joint. Find which of the runs and parts named belongs elsewhere, and correct the file before touching metal.',
  },
  {
    code: 'pack.string-not-shorted', title: 'No string is short-circuited', formula: 'no way through metal from a string’s positive end to its negative end, every contact closed',
    sources: ['common-practice'], why: 'The short lies across many modules at once: full voltage, full current, an arc that does not go out.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'The string {modules} has no metal from end to end.', broken: 'The string {modules} is short-circuited: its ends are joined through {through}.', unknown: 'Whether the string from {about} is short-circuited is not known.' },
    whatToDo: 'Do not make that joint. Find which of the runs and parts named belongs elsewhere, and correct the file before touching metal.',
  },
  {
    code: 'pack.modules-not-reversed', title: 'All modules of a string look the same way', formula: 'modules turned against the others in the chain from negative to positive end = 0; strings in parallel pole to like pole',
    sources: ['common-practice'], why: 'A reversed module takes its voltage off twice, is charged backwards under load and can catch fire; a reversed string is a short circuit of two.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'All modules of the string {modules} look the same way.', broken: '{reversed}: turned the wrong way round in the string {modules}.', unknown: 'The direction of the modules in the string from {about} is not known.' },
    whatToDo: 'Exchange the runs at that module’s terminals, in the file and in the car; prove each joint’s polarity with a meter before it is bolted.',
  },
  {
    code: 'pack.one-group', title: 'All modules belong to one battery', formula: 'groups of modules that nothing joins = 1',
    sources: ['common-practice'], why: 'A missing run leaves two live pieces where one battery is meant.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'All joined modules are one battery: {groups}.', broken: 'The modules form {value} separate groups: {groups}.', unknown: 'Whether all modules belong to one battery is not known.' },
    whatToDo: 'Add the run that joins the groups; if they are meant to be apart, take this as a reminder that each of them is live.',
  },
  {
    code: 'pack.two-ends', title: 'The strings make a battery with two ends', formula: 'strings in series and in parallel reduce to one source between two ends',
    sources: ['common-practice'], why: 'A string that hangs on by one end, or bridges two others, carries current where nobody expects it; voltage, energy and power of the whole cannot be stated.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'The strings from {strings} make one battery with two ends.', broken: 'The strings from {strings} hang together, but not as a battery with two ends.', unknown: 'The ends of the battery are not known.' },
    whatToDo: 'Look at the pack on its sheet: join the string that hangs by one end, or take out the run that bridges or shorts a string.',
  },
  {
    code: 'pack.one-cell-type', title: 'One type of cell in a string', formula: 'different cells (or numbers in parallel) in one string = 1',
    sources: ['common-practice'], why: 'All modules of a string carry the same current; the smallest is emptied below its limit and overfilled first. Different chemistries do not even agree on what is full.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'The string {modules} is made of one type of cell: {types}.', broken: 'The string {modules} mixes {value} types: {types}.', unknown: 'The cells of the string from {about} are not known.' },
    whatToDo: 'Put modules of one type into a string. If only capacity differs, the smallest decides; every cell must then be watched by itself.',
  },
  {
    code: 'pack.same-series-count', title: 'Parallel strings have the same number of cells in series', formula: 'largest − smallest number of cells in series over parallel strings = 0',
    sources: ['common-practice'], why: 'Strings of different voltage charge each other without limit as soon as they are joined, and never come to rest.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'The parallel strings have the same number of cells in series ({counts}).', broken: 'The parallel strings differ by {value} cells in series ({counts}).', unknown: 'The series counts of the parallel strings are not known.' },
    whatToDo: 'Do not join them. Make the strings alike, or use one of them.',
  },
];

const voltageRows: readonly Row[] = [
  {
    code: 'pack.voltage-class', title: 'The voltage class of the battery', formula: 'every cell at its highest voltage ≤ 1500 V, the upper end of class B; above 60 V it is class B',
    sources: ['iso-6469-3', 'un-r100'], why: 'Class B asks for covered live parts, orange cable, isolation, interlock, discharge and trained hands. Above it none of the rules used here apply.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'The battery reaches {value}: {class}.', broken: 'The battery reaches {value}, beyond class B, which ends at {limit}.', unknown: 'The voltage class of the battery is not known.' },
    whatToDo: 'Put fewer modules in series.',
  },
  {
    code: 'pack.equipment-maximum-voltage', title: 'A full battery does not exceed what each part takes', formula: 'cells in series × highest cell voltage ≤ highest voltage of the part',
    sources: ['common-practice'], why: 'Capacitors and power transistors fail above their voltage, at once and often as a short circuit.',
    whenBroken: 'stop', nearMargin: 0.02,
    wording: { holds: '{about} takes {limit}; the full battery reaches {value}.', broken: 'The full battery reaches {value}, more than the {limit} that {about} takes.', unknown: 'What {about} takes at most is not known.' },
    whatToDo: 'Put fewer cells in series, choose a part for the higher voltage, or charge to a lower cell voltage and say so in `cells`.',
  },
  {
    code: 'pack.equipment-minimum-voltage', title: 'An empty battery still keeps each part working', formula: 'cells in series × lowest cell voltage ≥ lowest voltage of the part',
    sources: ['common-practice'], why: 'The part switches off while there is still energy in the battery: on the road that is a loss of drive or of the 12 V supply.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: '{about} works down to {limit}; the empty battery has {value}.', broken: 'The empty battery has {value}; {about} needs {limit} and stops before.', unknown: 'The lowest voltage at which {about} works is not known.' },
    whatToDo: 'Put more cells in series, choose a part for the lower voltage, or end discharge at a higher cell voltage and say so in `cells`.',
  },
];

const modeRows: readonly Row[] = [
  {
    code: 'pack.charge-voltage', title: 'The charger ends below the battery’s highest voltage', formula: 'voltage that the mode sets on the charger (unset: its highest) ≤ cells in series × highest cell voltage',
    sources: ['common-practice'], why: 'A charger goes on until the battery has the voltage it is set to. Above the highest voltage of the cells they plate metal, gas and may burn, when nobody is there.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'In mode {variant} {about} charges up to {value}; the full battery has {limit}.', broken: 'In mode {variant} {about} charges up to {value} ({set_by}), but the full battery has {limit}.', unknown: 'Up to what voltage {about} charges is not known.' },
    whatToDo: 'Set `voltage` of {about} in that mode, and in the charger itself, to {limit} or less. A battery monitor that stops the charger at the first full cell is needed besides.',
  },
  {
    code: 'pack.cell-maximum-when-full', title: 'No mode overcharges a full battery', formula: 'at the highest charge at which the mode is used (`highest_charge`; absent: full): open voltage + cell current × 10 s resistance ≤ highest cell voltage',
    sources: ['common-practice'], why: 'What holds at the charge in the file may overcharge at the top of a hill with a full battery: cells plate metal, and the battery’s own electronics may cut the car off while it brakes.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'In mode {about} at {charge} of charge a cell of {module} rises to {value} with {current} put in; its highest is {limit}.', broken: 'In mode {about} at {charge} of charge a cell of {module} would rise to {value} with {current} put in; its highest is {limit}.', unknown: 'The cell voltage in mode {about} with a full battery is not known.' },
    whatToDo: 'The controller must stop putting back near full: let it fade the current out, and write the charge above which it gives none into `highest_charge` of the mode. A charger needs a lower voltage.',
  },
  {
    code: 'pack.charge-cold', title: 'No cell is charged in the cold', formula: 'cell temperature ≥ coldest temperature at which the cell may be charged; 0 °C where its file entry is silent, no limit for titanate',
    sources: ['common-practice'], why: 'Below 0 °C lithium goes onto graphite as metal instead of into it: capacity is lost at once, and a short inside the cell may come later.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'Mode {about} puts {current} into cells of {module} at {value}; they may be charged down to {limit}.', broken: 'Mode {about} puts {current} into cells of {module} at {value}; they may be charged only down to {limit}.', unknown: 'Whether the cells may be charged in mode {about} is not known.' },
    whatToDo: 'Let the controller refuse to charge and to give back below that temperature, or warm the cells first. If the cell’s sheet allows colder, write `minimum_charge_temperature` into `cells`.',
  },
  {
    code: 'pack.operating-point', title: 'The battery can give what each mode asks', formula: 'the network of the car settles with every load taking what the mode asks',
    sources: ['common-practice'], why: 'No source gives more than V²/4R; what asks for more pulls the voltage down until something drops out.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'Mode {about} has an operating point.', broken: 'Mode {about} has none: {reason}.', unknown: 'Mode {about} could not be looked at.' },
    whatToDo: 'Look at what the mode sets on the part named: ask for less, or wire it so that the voltage reaches it.',
  },
  {
    code: 'pack.cell-minimum-under-load', title: 'No cell falls below its lowest voltage', formula: 'open voltage − cell current × 10 s resistance ≥ lowest cell voltage, at the car’s charge and temperature',
    sources: ['common-practice'], why: 'Below its lowest voltage a cell is damaged, and the battery’s own electronics cut the car off.',
    whenBroken: 'fix', nearMargin: 0.02,
    wording: { holds: 'In mode {about} a cell of {module} is at {value} with {current} drawn; its lowest is {limit}.', broken: 'In mode {about} a cell of {module} falls to {value} with {current} drawn; its lowest is {limit}.', unknown: 'The cell voltage in mode {about} is not known.' },
    whatToDo: 'Ask for less power in that mode, at that charge and temperature, or put more strings in parallel.',
  },
  {
    code: 'pack.cell-maximum-under-charge', title: 'No cell is charged above its highest voltage', formula: 'open voltage + cell current × 10 s resistance ≤ highest cell voltage, at the car’s charge and temperature',
    sources: ['common-practice'], why: 'Above its highest voltage a lithium cell plates metal, gases and may burn.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'In mode {about} a cell of {module} rises to {value} with {current} put in; its highest is {limit}.', broken: 'In mode {about} a cell of {module} rises to {value} with {current} put in; its highest is {limit}.', unknown: 'The cell voltage in mode {about} is not known.' },
    whatToDo: 'Lower the current or the voltage that the mode asks for; limit what the drive gives back when the battery is full.',
  },
  {
    code: 'pack.discharge-current', title: 'No cell gives more current than it may', formula: 'cell current ≤ 10 s limit in modes of at most 10 s, else ≤ continuous limit',
    sources: ['common-practice'], why: 'Cells beyond their current heat from inside, where no sensor is, and age in hours.',
    whenBroken: 'fix', nearMargin: 0.05,
    wording: { holds: 'In mode {about} each cell of {module} gives {value}; it may give {limit} {for_how_long}.', broken: 'In mode {about} each cell of {module} gives {value}, more than the {limit} it may give {for_how_long}.', unknown: 'How much current the cells {about} may give is not known.' },
    whatToDo: 'Ask for less in that mode, say how long it lasts if it is short, or put more cells or strings in parallel.',
  },
  {
    code: 'pack.charge-current', title: 'No cell is charged with more current than it may be', formula: 'cell current into the cell ≤ continuous charge limit; in modes of at most 10 s more is at `watch`',
    sources: ['common-practice'], why: 'Too much charge current plates lithium, most of all in the cold: lost capacity first, a short inside the cell later.',
    whenBroken: 'fix', nearMargin: 0.05,
    wording: { holds: 'In mode {about} each cell of {module} takes {value}; it may take {limit} {for_how_long}.', broken: 'In mode {about} each cell of {module} takes {value}, more than the {limit} it may take {for_how_long}.', unknown: 'How much current the cells {about} may take is not known.' },
    whatToDo: 'Lower the charge current of that mode; limit what the drive gives back; below 0 °C ask the cell’s sheet, most allow next to nothing.',
  },
];

const readingRows: readonly Row[] = [
  {
    code: 'pack.measured-spread', title: 'The measured modules of a string agree', formula: 'highest − lowest module voltage per cell ≤ 20 mV; 5 mV for iron phosphate, whose curve is flat',
    sources: ['common-practice', 'piecewise-ocv-open-data'], why: 'Modules of one string that stand at different charge: the lowest is empty first, the highest full first, and balancing boards take days for a few per cent.',
    whenBroken: 'fix', nearMargin: 0,
    wording: {
      holds: 'The modules of the string from {about} lie within {value} a cell, {lowest} lowest and {highest} highest: about {worth} of charge.{caveat}',
      broken: 'The modules of the string from {about} lie {value} a cell apart ({limit} is usual at most), {lowest} lowest and {highest} highest: about {worth} of charge.{caveat}',
      unknown: 'Whether the modules of the string from {about} agree is not known.',
    },
    whatToDo: 'Bring the modules named to one charge before they are joined: charge or discharge each by itself with a current limit, rest for hours, and measure again.',
  },
  {
    code: 'pack.module-in-line', title: 'No module stands out', formula: '|module voltage per cell − median of its string| ≤ 20 mV; 5 mV for iron phosphate',
    sources: ['common-practice', 'piecewise-ocv-open-data'], why: 'One module out of line is a weak cell, a leak across its terminals, or a reading with a wrong count of cells.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{about} reads {per_cell} a cell, the middle of its string {median}.', broken: '{about} reads {per_cell} a cell where the middle of its string reads {median}: {value} out of line.{caveat}', unknown: 'Whether {about} is in line is not known.' },
    whatToDo: 'Measure it again, check its series count, then its cells one by one. Bring it to the charge of the others and see whether it stays there for a week.',
  },
  {
    code: 'pack.measured-lowest', title: 'No module is deep-discharged', formula: 'lowest module voltage / cells in series ≥ lowest cell voltage',
    sources: ['common-practice'], why: 'A lithium cell that has been below its limit may have copper dissolved in it; charging it can short it from inside.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'The lowest module of the string from {about} is {module} with {value} a cell.', broken: '{module} reads {terminal}: {value} a cell, below the {limit} it may be emptied to.', unknown: 'The lowest module of the string from {about} is not known.' },
    whatToDo: 'Check its series count and the reading. If they are right, do not charge the module and do not build it in.',
  },
  {
    code: 'pack.measured-highest', title: 'No module is overcharged', formula: 'highest module voltage / cells in series ≤ highest cell voltage',
    sources: ['common-practice'], why: 'An overcharged cell is unstable; or the count of cells is wrong, and with it every voltage here.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'The highest module of the string from {about} is {module} with {value} a cell.', broken: '{module} reads {terminal}: {value} a cell, above the {limit} it may be charged to.', unknown: 'The highest module of the string from {about} is not known.' },
    whatToDo: 'Check its series count and the reading. If they are right, discharge it gently, out of doors, before anything else.',
  },
  {
    code: 'pack.charge-agrees', title: 'The charge in the file is the one the meter shows', formula: '|charge that the curve gives for the median reading − conditions.state_of_charge| ≤ 10 %',
    sources: ['common-practice', 'lgm50-open-data', 'piecewise-ocv-open-data'], why: 'Voltages and currents here are computed for the charge in the file; predictions at the meter go wrong with it.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: 'The readings of the string from {about} stand for {by_meter} of charge; the file says {in_file}.{caveat}', broken: 'The readings of the string from {about} stand for {by_meter} of charge, the file says {in_file}.{caveat}', unknown: 'The charge of the string from {about} by the meter is not known.' },
    whatToDo: 'Write the charge that the meter shows into `conditions.state_of_charge`, or check chemistry and series count.',
  },
  {
    code: 'pack.joining-current', title: 'Parallel strings are close enough to be joined', formula: 'first current ΔV / (R1 + R2 + leads) ≤ what the emptier string may be charged with; 0.2 C where its cells do not say',
    sources: ['closed-form', 'common-practice'], why: 'The fuller string charges the emptier one with nothing to limit it but their own resistance: contacts weld, fuses open, cells plate.',
    whenBroken: 'stop', nearMargin: 0.1,
    wording: {
      holds: 'Joined now, the string from {fuller} stands {difference} above the one from {emptier}: {value} at first, dying away with {time}, {moved} moved and {heat} lost. Allowed is {limit} ({limit_from}).',
      broken: 'Joined now, the string from {fuller} stands {difference} above the one from {emptier}: {value} would flow at first, dying away with {time}, {moved} moved and {heat} lost. Allowed is {limit} ({limit_from}).',
      unknown: 'What flows when the strings from {about}, {others} are joined is not known.',
    },
    whatToDo: 'Do not join them yet. Charge the emptier or discharge the fuller until they differ by a few millivolts a cell (iron phosphate: bring both to full, voltage says little), measure after hours of rest, then join.',
  },
];

export const packCodes: readonly CodeRow[] = [...layoutRows, ...voltageRows, ...modeRows, ...readingRows].map((row) => ({ ...row, topic }));
