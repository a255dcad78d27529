/** Findings of the subject high-voltage: fuses, runs, contactors and faults. What charges and empties the circuit has its rows in high-voltage-precharge.ts. */
import type { CodeRow } from '../code-row.ts';
import { highVoltageMainsCodes } from './high-voltage-mains.ts';
import { highVoltagePrechargeCodes } from './high-voltage-precharge.ts';

type Row = Omit<CodeRow, 'topic'>;
const topic = 'high-voltage' as const;

const networkRows: readonly Row[] = [
  {
    code: 'high-voltage.mode-computed', title: 'Every mode has an operating point', formula: 'the network of the car settles with every load taking what the mode asks',
    sources: ['common-practice'], why: 'Without an operating point nothing can be said about currents and voltages in that mode.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'Mode {about} has an operating point.', broken: 'Mode {about} cannot be computed: {reason}.', unknown: 'Mode {about} could not be looked at.' },
    whatToDo: 'Look at what the mode sets on the parts named: a power that the wiring or the pack cannot deliver, or a coil fed from what its own contact cuts off.',
  },
  {
    code: 'high-voltage.mode-repetition-known', title: 'A short-time mode says how soon it may come again', formula: 'modes.<name>.every is given where modes.<name>.lasts is',
    sources: ['common-practice'], why: 'A pulse that returns before the copper has cooled ends hotter each time.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: 'Mode {about} says how soon it may come again.', broken: 'Mode {about} does not say how soon it may come again.', unknown: 'Mode {about} is short but does not say how soon it may come again, so it is taken as one pulse on a warm car.' },
    whatToDo: 'Give the time after which the mode may be used again.',
  },
  {
    code: 'high-voltage.pack-known', title: 'The pack is known', formula: 'at least one part with cells and all its values',
    sources: ['common-practice'], why: 'Voltage ratings, fault currents and fuses all rest on the pack.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'The pack is known.', broken: 'No pack is known.', unknown: 'There are high-voltage parts but no pack whose voltage could be computed.' },
    whatToDo: 'Add the battery modules and their cells.',
  },
  {
    code: 'high-voltage.fault-computed', title: 'Fault currents can be computed', formula: 'the network with a bolted short settles',
    sources: ['common-practice'], why: 'A fuse can only be chosen against a fault current that is known.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'The short across {about} is computed.', broken: 'The short across {about} ({variant} end) cannot be computed: {reason}.', unknown: 'The short across {about} was not looked at.' },
    whatToDo: 'Look for ideal sources or runs without resistance in the loop named.',
  },
  {
    code: 'high-voltage.fault-current-known', title: 'Some mode connects each part to the pack', formula: 'in at least one mode more than half the pack’s voltage stands across the part, through closed contacts',
    sources: ['common-practice'], why: 'A part that no mode feeds is either forgotten in the modes or not wired.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: 'A mode connects {about} to the pack.', broken: 'No mode connects {about} to the pack.', unknown: 'No mode that could be computed connects {about} to the pack through closed contacts, so the fault current there is not known.' },
    whatToDo: 'Wire it, or add the mode that uses it.',
  },
  {
    code: 'high-voltage.pack-terminals-protected', title: 'A short across the pack’s own ends melts a fuse', formula: 'fuses in the loop of a bolted short across the ends of the string, 1 or more; without one, `watch` as long as the conductors from one end to its first fuses are 0.5 m or less, `fix` beyond',
    sources: ['common-practice', 'abyc-e-11'], why: 'Between the last module and the first fuse nothing opens: a dropped tool or a chafed lead there burns until metal is gone. 0.5 m is our border; ABYC E-11 (boats) lets 0.18 m pass bare and 1.83 m in a sheath (from memory).',
    whenBroken: 'fix', nearMargin: 0,
    wording: {
      holds: 'A short from the positive end at {about} to {other_end} would drive {fault} at most, through {value} fuse(s).',
      broken: 'A short from {positive_end} to {other_end} would drive {fault}, and no fuse lies in that loop. Before the first fuse lie {bare}, {length} in all: the whole of it must be covered and kept apart from the other pole.',
      unknown: 'What a short across the pack’s ends drives is not known.',
    },
    whatToDo: 'Put a fuse into the middle of the string (a fused service disconnect does it). Else bring the first fuse as close to its end module as it goes, inside the same enclosure, and cover the terminals and the lead between them; no unfused lead leaves the enclosure.',
  },
  {
    code: 'high-voltage.conductors-protected', title: 'A fuse ends a short between two conductors that can meet', formula: 'fuses in the loop of a bolted short between two cables of different potential that leave their boxes (longer than 0.5 m and not `alone`), between two buses, or between such a cable and an end of the pack, 1 or more, and together they end it',
    sources: ['common-practice'], why: 'A cable from one battery box to the other lies beside the cables of the other pole; chafed through, part of the string is shorted through no fuse at all, and burns until metal is gone.',
    whenBroken: 'stop', nearMargin: 0,
    wording: {
      holds: 'A short between {about} and {others} would drive {fault} ({voltage}), through {value} fuse(s).',
      broken: 'A short between {about} and {others} would drive {fault} ({voltage} of cells), and no fuse ends it.',
      unknown: 'A short between {about} and {others} would drive {fault}, and no fuse ends it; whether they are long enough to meet outside their boxes is not known.',
    },
    whatToDo: 'Put a fuse at each end of the cable at which the string goes on (one in the box that it leaves, one where it arrives: a fused service disconnect does it). Else lead it in a conduit of its own, away from the other pole and in a sheath of its own, and say so with `alone: yes`.',
  },
];

const fuseRows: readonly Row[] = [
  {
    code: 'high-voltage.fuse-continuous-current', title: 'The fuse carries the lasting load without ageing', formula: 'largest current of modes without a time limit ≤ rating × ambient factor × load factor',
    sources: ['fuse-maker-guides', 'common-practice'], why: 'A fuse that runs warm ages and opens one day on an ordinary hill.',
    whenBroken: 'fix', nearMargin: 0.05,
    wording: {
      holds: 'Fuse {about} carries {value} in mode {mode}; {rating} in air of {ambient} may carry {limit} for good.',
      broken: 'Fuse {about} carries {value} in mode {mode}, but {rating} in air of {ambient} may carry only {limit} for good.',
      unknown: 'What fuse {about} carries for good is not known.',
    },
    whatToDo: 'Choose the next larger rating that the cable behind it still allows, or move the fuse into cooler air.',
  },
  {
    code: 'high-voltage.fuse-duty-current', title: 'The fuse carries the repeated load without ageing', formula: 'rms current over one period of the short-time mode ≤ rating × ambient factor × factor for a load that swings',
    sources: ['fuse-maker-guides'], why: 'Swinging load bends the element at every swing; it breaks after some thousands.',
    whenBroken: 'watch', nearMargin: 0.05,
    wording: {
      holds: 'Over mode {variant} and its pause fuse {about} carries {value} rms; {limit} is its limit for a swinging load.',
      broken: 'Over mode {variant} ({pulse} for {lasts}) and its pause fuse {about} carries {value} rms, above its limit of {limit} for a swinging load.',
      unknown: 'The rms current of fuse {about} over mode {variant} is not known.',
    },
    whatToDo: 'Choose a larger rating, allow the mode less often, or shorten it.',
  },
  {
    code: 'high-voltage.fuse-pulse-energy', title: 'Short pulses do not wear the fuse out', formula: 'I²t of one pulse ≤ 22 % of the melting integral (100 000 pulses)',
    sources: ['fuse-maker-guides'], why: 'Every pulse above that share takes a bite out of the element.',
    whenBroken: 'fix', nearMargin: 0.05,
    wording: {
      holds: 'One pulse of mode {variant} puts {value} through fuse {about}; {limit} is allowed for 100 000 pulses.',
      broken: 'One pulse of mode {variant} ({pulse} for {lasts}) puts {value} through fuse {about}; only {limit} is allowed for 100 000 pulses.',
      unknown: 'How many pulses of mode {variant} fuse {about} outlives is not known.',
    },
    whatToDo: 'Choose a fuse with a larger melting integral, or lower the pulse.',
  },
  {
    code: 'high-voltage.fuse-pulse-current', title: 'Overload pulses do not wear the fuse out', formula: 'pulse current ≤ 60 % of the current the fuse is sure to carry for that time, and never less than what it may carry for good',
    sources: ['iec-60269-1', 'fuse-maker-guides'], why: 'Close to melting, each overload leaves the element weaker.',
    whenBroken: 'watch', nearMargin: 0.05,
    wording: {
      holds: 'Mode {variant} puts {value} through fuse {about} for {lasts}; {limit} may be repeated.',
      broken: 'Mode {variant} puts {value} through fuse {about} for {lasts}; only {limit} may be repeated.',
      unknown: 'How fuse {about} bears the pulses of mode {variant} is not known.',
    },
    whatToDo: 'Read the fuse’s time-current curve: the pulse should stay below 60 % of the melting current at that time. Else choose a larger rating.',
  },
  {
    code: 'high-voltage.fuse-voltage-rating', title: 'The fuse is rated for the pack’s direct voltage', formula: 'DC voltage rating ≥ highest pack voltage (cells at their highest × series)',
    sources: ['iec-60269-1', 'common-practice'], why: 'A direct-current arc does not go out at zero crossings; above its DC rating a fuse burns on and bursts.',
    whenBroken: 'stop', nearMargin: 0,
    wording: {
      holds: 'Fuse {about} is rated {value} DC; the pack reaches {limit}.',
      broken: 'Fuse {about} is rated {value} DC, but the pack reaches {limit}.',
      unknown: 'Whether fuse {about} can break the pack’s direct voltage is not known. An AC rating says nothing about it.',
    },
    whatToDo: 'Use a fuse whose DC rating is at least the highest pack voltage.',
  },
  {
    code: 'high-voltage.fuse-protects-something', title: 'Every fuse lies in the way of some fault', formula: 'highest fault current through the fuse ≥ 1 A',
    sources: ['common-practice'], why: 'A fuse that carries nothing in any fault protects nothing, and its place is empty.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: 'Fuse {about} carries up to {value} in a fault.', broken: 'Fuse {about} carries {value} in every fault computed: it protects nothing there.', unknown: 'Which fault fuse {about} opens is not known.' },
    whatToDo: 'Check where it is wired, and whether what it feeds is in the file and fed by some mode.',
  },
  {
    code: 'high-voltage.fuse-breaking-capacity', title: 'The fuse can break the highest fault', formula: 'breaking capacity ≥ prospective current of a short right behind it, full warm pack',
    sources: ['iec-60269-1', 'common-practice'], why: 'A fuse that is asked to break more than it can becomes the fire.',
    whenBroken: 'stop', nearMargin: 0.05,
    wording: {
      holds: 'Fuse {about} can break {value}; a short behind it drives at most {limit}.',
      broken: 'Fuse {about} can break {value}, but a short behind it drives up to {limit}.',
      unknown: 'Whether fuse {about} can break the fault current of {limit} behind it is not known.',
    },
    whatToDo: 'Use a fuse with a larger breaking capacity at the pack’s voltage.',
  },
  {
    code: 'high-voltage.fuse-time-constant', title: 'The fault current rises fast enough for the fuse', formula: 'L/R of the loop ≤ L/R for which the voltage rating holds; L from 1 µH per metre of conductor',
    sources: ['fuse-maker-guides', 'common-practice'], why: 'The energy stored in a loop feeds the arc; with a long L/R the fuse cannot hold the voltage.',
    whenBroken: 'stop', nearMargin: 0.1,
    wording: {
      holds: 'The loop of a short at {at} has an L/R of {value}; fuse {about} is rated up to {limit}.',
      broken: 'The loop of a short at {at} has an L/R of {value}; fuse {about} is rated only up to {limit}.',
      unknown: 'Whether fuse {about} can break a loop with its L/R is not known.',
    },
    whatToDo: 'Run both poles side by side, shorten the loop, or use a fuse rated for a longer L/R.',
  },
  {
    code: 'high-voltage.fuse-minimum-breaking', title: 'The lowest fault is enough for a partial-range fuse', formula: 'prospective current at the far end, pack at -20 °C and 10 % charge ≥ minimum breaking current',
    sources: ['iec-60269-4'], why: 'Below its minimum breaking current a partial-range fuse melts but may not clear: it heats until it bursts.',
    whenBroken: 'stop', nearMargin: 0.1,
    wording: {
      holds: 'The lowest fault, at {at}, drives {value}; fuse {about} clears from {limit} up.',
      broken: 'The lowest fault, at {at} with a cold, nearly empty pack, drives only {value}; fuse {about} clears from {limit} up and may never clear it.',
      unknown: 'Whether fuse {about} clears the lowest fault of {lowest} at {at} is not known.',
    },
    whatToDo: 'Use a smaller rating or a full-range fuse, or a thicker cable to the far end.',
  },
  {
    code: 'high-voltage.fuse-melts', title: 'The lowest fault melts a partial-range fuse at once', formula: 'melting time in the lowest fault, from melting integral with the rise L/R ≤ 0.1 s (beyond 10 ms heat leaves the element: at least that)',
    sources: ['fuse-maker-guides', 'closed-form'], why: 'A partial-range fuse that melts slowly arcs slowly.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: {
      holds: 'The lowest fault, {lowest} at {at}, melts fuse {about} in {value}.',
      broken: 'The lowest fault, {lowest} at {at}, takes at least {value} to melt fuse {about}; {limit} is the most at which it does not arc slowly.',
      unknown: 'How fast the lowest fault of {lowest} at {at} melts fuse {about} is not known.',
    },
    whatToDo: 'Use a fuse with a smaller melting integral, or a full-range fuse.',
  },
  {
    code: 'high-voltage.fuse-clears-overload', title: 'Something clears overloads, not only shorts', formula: 'the fuse is full range (letter g)',
    sources: ['iec-60269-1', 'iec-60269-4'], why: 'A partial-range fuse only clears shorts; a lasting overload of the cable heats it past its limit without clearing.',
    whenBroken: 'watch', nearMargin: 0,
    wording: {
      holds: 'Fuse {about} also clears overloads.',
      broken: 'Fuse {about} ({rating}) is partial range: it clears shorts only. The current limits of inverter, charger and battery management must keep every run below its capacity.',
      unknown: 'Whether fuse {about} clears overloads is not known.',
    },
    whatToDo: 'Set and test those limits, or use a full-range fuse; then this stays as a reminder.',
  },
  {
    code: 'high-voltage.fuse-opens-lowest-fault', title: 'The lowest fault opens the fuse within seconds', formula: 'prospective current at the far end, pack at -20 °C and 10 % charge ≥ current that surely opens it (the smaller of the IEC 60269-1 gate, 5 s, and 1.2 √(melting I²t/10 ms); blade: 6 × rating, 1 s)',
    sources: ['iec-60269-1', 'iso-8820-3'], why: 'A fault that the fuse takes for a load burns for minutes.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: {
      holds: 'The lowest fault, at {at}, drives {value}; {limit} opens fuse {about} within {within}.',
      broken: 'The lowest fault, at {at} with a cold, nearly empty pack, drives only {value}; fuse {about} is sure to open within {within} only from {limit} up.',
      unknown: 'Whether the lowest fault opens fuse {about} is not known.',
    },
    whatToDo: 'Use a smaller or faster fuse, or a thicker cable to the far end.',
  },
  {
    code: 'high-voltage.fuse-is-selective', title: 'A fault in a branch leaves the main fuse whole', formula: 'clearing integral of the branch fuse ≤ melting integral of the fuse it hangs on (ratings at least 1 : 1.6 apart)',
    sources: ['fuse-maker-guides', 'common-practice'], why: 'When the main fuse goes with the branch fuse, a failed heater stops the car, and the main fuse is the dear one to reach.',
    whenBroken: 'watch', nearMargin: 0.05,
    wording: {
      holds: 'Fuse {about} clears with {value}, before {others} begins to melt at {limit}.',
      broken: 'Fuse {about} needs {value} to clear a fault, but {others} melts at {limit}: both open.',
      unknown: 'Whether a fault behind fuse {about} also opens {others} is not known.',
    },
    whatToDo: 'Use a faster fuse in the branch or a slower main fuse.',
  },
];

const runRows: readonly Row[] = [
  {
    code: 'high-voltage.run-length-known', title: 'The length of every run is known', formula: 'length given, or both ends have a place',
    sources: ['common-practice'], why: 'Without a length the run counts as its joints alone: drop, loss and fault current come out wrong.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'The length of {about} is known.', broken: 'The length of {about} is not known.', unknown: 'The length of {about} is not known, so it counts as its two joints alone.' },
    whatToDo: 'Measure the run, or give both parts a place.',
  },
  {
    code: 'high-voltage.run-steady-temperature', title: 'The conductor stays within its insulation’s temperature for good', formula: 'conductor temperature from I²R against heat given off to still air ≤ temperature rating',
    sources: ['iec-60287-2-1', 'bs-7671', 'common-practice'], why: 'Insulation that runs above its rating hardens and cracks; what it covers is at several hundred volts.',
    whenBroken: 'fix', nearMargin: 0.02,
    wording: {
      holds: '{about} {reaches} {value} with {current} in mode {mode} in air of {ambient}; it may reach {limit}.',
      broken: '{about} {reaches} {value} with {current} in mode {mode} in air of {ambient}; it may reach only {limit}. {capacity} is what it may carry there.',
      unknown: 'How warm {about} gets is not known.',
    },
    whatToDo: 'Use a larger cross-section, separate it from other loaded conductors, route it through cooler air, or lower the lasting current.',
  },
  {
    code: 'high-voltage.run-short-time-temperature', title: 'The conductor stays within its temperature over the short-time modes', formula: 'peak conductor temperature of the repeated duty (pulse, then the lasting current until it may come again) ≤ temperature rating',
    sources: ['iec-60287-2-1', 'iec-60853-2', 'iec-60949'], why: 'Copper stores heat for minutes: repeated pulses add up.',
    whenBroken: 'fix', nearMargin: 0.02,
    wording: {
      holds: 'Mode {variant} ({current} for {lasts}) brings {about} to {value}; it may reach {limit}.',
      broken: 'Mode {variant} ({current} for {lasts}) brings {about} from {start} to {value}; it may reach only {limit}.',
      unknown: 'How warm mode {variant} makes {about} is not known.',
    },
    whatToDo: 'Use a larger cross-section, or allow the mode shorter or less often.',
  },
  {
    code: 'high-voltage.run-voltage-rating', title: 'The insulation is rated for its voltage', formula: 'voltage rating ≥ highest pack voltage; on the mains side of a charger ≥ its rms voltage',
    sources: ['iso-6469-3', 'common-practice'], why: 'Thin insulation passes a first test and fails where it is squeezed.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: '{about} is rated {value}; {source} reaches {limit}.', broken: '{about} is rated {value}, but {source} reaches {limit}.', unknown: 'Whether the insulation of {about} stands {limit} is not known.' },
    whatToDo: 'Use cable rated for at least that voltage.',
  },
  {
    code: 'high-voltage.run-bend-radius', title: 'No bend is tighter than the cable allows', formula: 'bend radius ≥ least radius of the cable',
    sources: ['bs-638-4', 'common-practice'], why: 'Too tight a bend breaks strands and thins the insulation on the outside of the bend.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: '{about} is bent to {value}; {limit} is the least.', broken: '{about} is bent to {value}; {limit} is the least it allows.', unknown: 'Whether {about} bears its bend is not known.' },
    whatToDo: 'Ease the bend or reroute.',
  },
  {
    code: 'high-voltage.run-has-protection', title: 'A fuse ends every fault in what a run feeds', formula: 'fuses that melt in series with the run, in every fault at equipment and at the ends of leads beyond it, 1 or more; several that only together interrupt the fault (one in each parallel string) count as 1',
    sources: ['iec-60364-4-43', 'common-practice'], why: 'A shorted run without a fuse is heated by the whole pack until it burns.',
    whenBroken: 'stop', nearMargin: 0,
    wording: {
      holds: 'In every fault of what {about} feeds, {value} fuse(s) in series with it, or fuses that together end the fault, open.',
      broken: 'A short at {at} drives {fault} through {about}, and no fuse ends it.',
      unknown: 'Whether a fuse protects {about} is not known.',
    },
    whatToDo: 'Put a fuse at the end of the run that faces the pack.',
  },
  {
    code: 'high-voltage.run-short-circuit', title: 'The fuse opens before a short damages the conductor', formula: 'I²t let through ≤ K²S² ln((θf + β)/(θi + β)), from the working temperature to the short-circuit temperature; of several fuses that end the fault together (Σ √I²t)²',
    sources: ['iec-60949', 'iec-60364-4-43'], why: 'Past its short-circuit temperature the insulation is gone, and the next fault is to the chassis or to a hand.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: {
      holds: 'A short at {at} puts at most {value} through {about} ({fuse}, {ending}); it stands {limit}.',
      broken: 'A short at {at} ({fault}) puts {value} through {about} ({fuse}, {ending}); it stands only {limit}.',
      unknown: 'What a short at {at} ({fault}) puts through {about} before a fuse has opened is not known.',
    },
    whatToDo: 'Use a fuse with a smaller clearing integral, a larger cross-section, or for a thin branch a fuse of its own where it leaves the thick one.',
  },
  {
    code: 'high-voltage.run-overload', title: 'The fuse protects the run against overload', formula: 'fuse rating In ≤ Iz and I2 ≤ 1.45 Iz, Iz what the run may carry for good where it lies; In of the smallest fuse on the way to the place for which that is largest, or the sum of parallel ones',
    sources: ['iec-60364-4-43'], why: 'Between the run’s capacity and the fuse’s rating lies a current that overheats the run and never opens the fuse.',
    whenBroken: 'watch', nearMargin: 0,
    wording: {
      holds: 'Against overload {about} may be fused with up to {limit}; its fuse, {fuse}, has {value}.',
      broken: '{about} may carry {capacity} for good, which asks for {limit} of fuse at most against overload; its fuse, {fuse}, has {value}. The limits of the equipment must do it.',
      unknown: 'Whether {fuse} protects {about} against overload is not known.',
    },
    whatToDo: 'Use a smaller fuse or a larger cross-section, or make sure that what is connected cannot take more than the run may carry.',
  },
  {
    code: 'high-voltage.voltage-drop', title: 'Little voltage is lost on the way', formula: 'voltage lost between the pack’s ends and the part, as a share of the pack’s voltage, in the heaviest mode ≤ 3 %',
    sources: ['abyc-e-11', 'common-practice'], why: 'What is lost is heat in cables, joints, fuses and contacts; a large share points to one bad joint.',
    whenBroken: 'watch', nearMargin: 0,
    wording: {
      holds: '{about} gets all but {value} of the pack’s voltage in mode {mode} ({lost} lost on the way).',
      broken: '{about} loses {value} of the pack’s voltage on the way in mode {mode} ({lost}); {limit} is usual at most.',
      unknown: 'How much voltage is lost on the way to {about} is not known.',
    },
    whatToDo: 'Look for the run, joint or contact with the largest loss; use a larger cross-section or a shorter way.',
  },
];

const ratingRows: readonly Row[] = [
  {
    code: 'high-voltage.part-voltage-rating', title: 'The part is rated for the pack’s direct voltage', formula: 'declared highest voltage of a disconnect, bar or monitor ≥ highest pack voltage',
    sources: ['common-practice'], why: 'Between the contacts of a disconnect or across the insulators of a bar the whole pack’s voltage may stand; what is made for less flashes over.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: '{about} is rated {value}; the pack reaches {limit}.', broken: '{about} is rated {value}, but the pack reaches {limit}.', unknown: 'Whether {about} stands {limit} is not known.' },
    whatToDo: 'Use a part rated for at least the highest pack voltage.',
  },
  {
    code: 'high-voltage.part-current-rating', title: 'The part carries the current of every mode', formula: 'largest current of modes without a time limit ≤ continuous rating; of short ones ≤ peak rating, or their rms over a period ≤ continuous rating',
    sources: ['common-practice'], why: 'A blade, bar or shunt that carries more than it is made for runs hot, and its joints loosen.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{about} carries {value} in mode {mode} ({rating}); it is rated {limit}.', broken: '{about} carries {value} in mode {mode} ({rating}), but is rated only {limit}.', unknown: 'What {about} carries is not known.' },
    whatToDo: 'Use a larger part, or ask less in that mode.',
  },
  {
    code: 'high-voltage.part-power-rating', title: 'The modes ask no more power than the part declares', formula: 'current × voltage between its poles ≤ continuous power in modes without a time limit, ≤ peak power in every mode',
    sources: ['common-practice'], why: 'What is computed for a mode that the drive cannot do says nothing about the vehicle, and cooling is laid out for what it declares.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{about} takes or gives {value} in mode {mode} ({rating}); it is rated {limit}.', broken: '{about} takes or gives {value} in mode {mode} ({rating}), but is rated only {limit}.', unknown: 'What power {about} takes is not known.' },
    whatToDo: 'Lower the power that the mode asks, give the mode a time limit, or correct the rating.',
  },
];

const contactorRows: readonly Row[] = [
  {
    code: 'high-voltage.contactor-continuous-current', title: 'The contact carries the lasting load', formula: 'largest current of modes without a time limit ≤ continuous rating',
    sources: ['common-practice'], why: 'A contact that runs hot softens its springs and welds.',
    whenBroken: 'fix', nearMargin: 0.05,
    wording: { holds: '{about} carries {value} in mode {mode}; it is rated {limit}.', broken: '{about} carries {value} in mode {mode}, but is rated only {limit}.', unknown: 'Whether {about} carries its lasting current is not known.' },
    whatToDo: 'Use a larger contactor. The rating holds only with the maker’s cable size on its studs: the cable is its heat sink.',
  },
  {
    code: 'high-voltage.contactor-duty-current', title: 'The contact carries the repeated load', formula: 'rms current over one period of the short-time mode ≤ continuous rating',
    sources: ['common-practice'], why: 'The contact heats with the square of the current; a pulse now and then is allowed, its mean square is not above the rating.',
    whenBroken: 'fix', nearMargin: 0.05,
    wording: {
      holds: 'Over mode {mode} and its pause {about} carries {value} rms; it is rated {limit}.',
      broken: 'Over mode {mode} ({pulse} for {lasts}) and its pause {about} carries {value} rms, but is rated only {limit}.',
      unknown: 'The rms current of {about} is not known.',
    },
    whatToDo: 'Use a larger contactor, or allow the mode shorter or less often.',
  },
  {
    code: 'high-voltage.contactor-voltage-rating', title: 'The contact is rated for the pack’s direct voltage', formula: 'DC voltage rating ≥ highest pack voltage',
    sources: ['common-practice'], why: 'Above its voltage a contactor cannot stretch the arc until it goes out.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: '{about} is rated {value} DC; the pack reaches {limit}.', broken: '{about} is rated {value} DC, but the pack reaches {limit}.', unknown: 'Whether {about} can switch {limit} DC is not known.' },
    whatToDo: 'Use a contactor rated for the highest pack voltage.',
  },
  {
    code: 'high-voltage.contactor-breaks-load', title: 'The contact can break the heaviest load', formula: 'largest load current of any mode ≤ breaking current at rated voltage',
    sources: ['common-practice'], why: 'When the coil loses its supply under load, the contact opens whatever flows.',
    whenBroken: 'stop', nearMargin: 0.05,
    wording: {
      holds: '{about} may have to break {value} (mode {mode}); it can break {limit}.',
      broken: '{about} may have to break {value} (mode {mode}), but it can break only {limit}.',
      unknown: 'Whether {about} can break the load of mode {mode} is not known.',
    },
    whatToDo: 'Use a contactor that can break the load at the pack’s voltage; polarised ones only in the direction printed on them.',
  },
  {
    code: 'high-voltage.contactor-opens-after-fuse', title: 'The contact never opens into a fault it cannot break', formula: 'for every fault the smaller of fault current / breaking current and fuse clearing time / release time ≤ 1',
    sources: ['common-practice', 'closed-form'], why: 'A contact that opens into more than it can break draws an arc inside a sealed can.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: {
      holds: '{about} meets no fault that it would have to break beyond its ability: worst ratio {value} (short at {at}, {fault}; fuse done in {fuse_time}).',
      broken: '{about} could open into {fault} (short at {at}) when its coil is switched off at that moment: it can break {breaking}, and the fuse is done in {fuse_time}. Ratio {value}, {limit} at most.',
      unknown: 'Whether {about} finds a fault already ended by a fuse when it opens is not known.',
    },
    whatToDo: 'Use a faster fuse in series, a contactor with a larger breaking current or a slower release, or delay its opening on overcurrent until the fuse is done.',
  },
];

export const highVoltageCodes: readonly CodeRow[] = [...[...networkRows, ...fuseRows, ...runRows, ...ratingRows, ...contactorRows].map((row) => ({ ...row, topic })), ...highVoltagePrechargeCodes, ...highVoltageMainsCodes];
