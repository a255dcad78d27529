/** Findings of the mains side of charging: protective conductor, separation, current through inlet and cable. */
import type { CodeRow } from '../code-row.ts';

type Row = Omit<CodeRow, 'topic'>;

const rows: readonly Row[] = [
  {
    code: 'high-voltage.mains-earth', title: 'The inlet’s protective conductor reaches the bodywork and the charger', formula: 'a way of metal without contacts and fuses from the protective pin of the inlet to the chassis, and to that of the charger',
    sources: ['un-r100', 'iec-61851-1'], why: 'With a first fault the whole vehicle stands at mains voltage, and nothing trips until somebody touches it with a foot on the ground.',
    whenBroken: 'stop', nearMargin: 0,
    wording: {
      holds: 'The protective pin of {about} is joined to {variant} through {through}. Bonds of housings are not in the file: measure each housing against the bodywork.',
      broken: 'No metal joins the protective pin of {about} to {variant}, or only through a contact or a fuse.',
      unknown: 'Whether the protective pin of {about} is joined to {variant} is not known.',
    },
    whatToDo: 'Run a protective conductor, as thick as the line conductors, from the inlet to a bolt of its own on the bodywork and to the charger, with no switch and no fuse in it. Do not plug in before it is there and measured. Mains work belongs to a qualified person.',
  },
  {
    code: 'high-voltage.mains-earth-resistance', title: 'The protective conductor has little resistance', formula: 'metal from the protective pin of the inlet to the chassis, and to that of the charger, at 20 °C ≤ 0.1 Ω',
    sources: ['un-r100', 'iec-60228'], why: 'The fault current has to trip the supply at once; a thin or loose conductor holds it below that and leaves the housing live.',
    whenBroken: 'stop', nearMargin: 0.1,
    wording: {
      holds: 'From the protective pin of {about} to {variant} there are {value} through {through}; {limit} at most. Bonds of housings are not in the file: measure each housing against the bodywork with at least 0.2 A.',
      broken: 'From the protective pin of {about} to {variant} there are {value} through {through}; {limit} at most.',
      unknown: 'The resistance from the protective pin of {about} to {variant} is not known.',
    },
    whatToDo: 'Use a thicker or shorter conductor, bare metal below the lug, and no detour.',
  },
  {
    code: 'high-voltage.mains-apart', title: 'Mains stays away from everything else', formula: 'points of the battery’s circuit, of the 12 V side and of the bodywork that metal joins to a mains pin = 0',
    sources: ['un-r100', 'iec-61851-1'], why: 'Mains on the battery or on the bodywork: shock, and destroyed electronics, as soon as the cable is in.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'No metal leads from the mains pins of {about} to the battery’s circuit, the 12 V side or the bodywork.', broken: 'Metal joins the mains pins of {about} to {strangers}.', unknown: 'Whether the mains side is kept apart is not known.' },
    whatToDo: 'One of the runs on the mains side ends at the wrong port: follow them one by one. Do not plug in before.',
  },
  {
    code: 'high-voltage.mains-inlet-current', title: 'The inlet carries the charging current', formula: 'rms current of a line in the mode ≤ rating of the inlet per line',
    sources: ['iec-61851-1', 'common-practice'], why: 'Charging lasts all night: an overloaded pin chars its socket.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{about} carries {value} a line in mode {variant}; it may carry {limit}.', broken: '{about} carries {value} a line in mode {variant}, but may carry only {limit}.', unknown: 'What {about} may carry is not known; mode {variant} asks {value} of it.' },
    whatToDo: 'Set the charger lower in that mode, or use an inlet with a higher rating.',
  },
  {
    code: 'high-voltage.mains-cable-current', title: 'The charger keeps to the current of the cable', formula: 'rms current of a line in the mode ≤ current that the plug of the cable is coded for (`cable_rating` of the mode; unset: 32 A)',
    sources: ['iec-61851-1'], why: 'The resistor in the plug says what the cable carries; a charger that takes more overheats it on the ground where children play.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'Mode {variant} takes {value} a line through a cable coded for {limit}.', broken: 'Mode {variant} takes {value} a line through a cable coded for {limit}.', unknown: 'What the cable in {about} carries is not known.' },
    whatToDo: 'Set the charger lower in that mode, or use a cable for more. The charger, or what commands it, must read the plug’s code and the pilot’s duty and keep to the smaller.',
  },
];

export const highVoltageMainsCodes: readonly CodeRow[] = rows.map((row) => ({ ...row, topic: 'high-voltage' }));
