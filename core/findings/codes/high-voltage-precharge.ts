/** Findings of the subject high-voltage: precharge, discharge, isolation, required parts. */
import type { CodeRow } from '../code-row.ts';

type Row = Omit<CodeRow, 'topic'>;
const topic = 'high-voltage' as const;

const linkRows: readonly Row[] = [
  {
    code: 'high-voltage.link-reached', title: 'Some mode connects every capacitor to the battery', formula: 'with the contacts of a mode closed, metal joins both poles of the part to the battery',
    sources: ['common-practice'], why: 'A part that no mode connects never works, and its precharge and discharge cannot be computed.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{about} is connected to the battery in {modes}.', broken: 'No mode connects both poles of {about} to the battery, so its precharge and discharge cannot be judged.', unknown: 'Whether {about} is ever connected to the battery is not known.' },
    whatToDo: 'Follow both poles from {about} to the battery: a missing run, a contactor that no mode closes, or a coil that gets no 12 V.',
  },
  {
    code: 'high-voltage.link-polarity', title: 'Every part has the battery the right way round', formula: 'voltage from the part’s positive to its negative pole >= 0',
    sources: ['common-practice'], why: 'Reversed, the diodes of a power stage are a short across the battery.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: '{about} gets {value} from its positive to its negative pole in mode {mode}.', broken: '{about} gets {value} from its positive to its negative pole in mode {mode}: it is the wrong way round.', unknown: 'The polarity at {about} is not known.' },
    whatToDo: 'Exchange the two cables at this part, in the file and in the car, and prove the polarity with a meter before anything is closed.',
  },
];

const prechargeRows: readonly Row[] = [
  {
    code: 'high-voltage.precharge-present', title: 'Large capacitors are precharged before a contactor closes onto them', formula: 'C V²/2 of the capacitors that nothing filled before the contacts close <= 2 J',
    sources: ['common-practice'], why: 'An empty capacitor is a short: the contactor may weld shut at the first start, and a welded contactor keeps the car live.',
    whenBroken: 'stop', nearMargin: 0,
    wording: {
      holds: 'From {from} to {to} the contacts close onto {value} in capacitors that nothing precharged; up to {limit} is let pass.',
      broken: 'From {from} to {to} the contacts close onto {names} empty: {capacitance} meets {voltage} with nothing but the wiring between, {value}, where {limit} is the most.',
      unknown: 'Whether the capacitors are precharged before the contacts close is not known.',
    },
    whatToDo: 'Put a precharge resistor with its relay across the contactor (or a precharge converter on the link), add a mode that uses it, and let this mode be entered only from there.',
  },
  {
    code: 'high-voltage.precharge-finishes', title: 'Precharge gets to the end in spite of what draws meanwhile', formula: 'voltage at which the capacitors come to rest >= 95 % of the battery’s voltage; full battery, and an empty one when something draws constant power or current',
    sources: ['closed-form'], why: 'A heater or converter that already draws holds the capacitors low for ever; the resistor then burns, or the contactor closes onto half-empty capacitors.',
    whenBroken: 'stop', nearMargin: 0.02,
    wording: {
      holds: 'Precharge through {about} in mode {variant} comes to rest at {value} of the battery’s voltage ({limit} needed). {loads}',
      broken: 'Precharge through {about} in mode {variant} stops at {end} of {pack}: {value}, where {limit} is needed. It never finishes, however long the controller waits. {loads}',
      unknown: 'Where the precharge through {about} in mode {variant} comes to rest is not known.',
    },
    whatToDo: 'Keep what draws from the capacitors off until the main contactor is closed, or use a smaller resistor. For a converter: set its voltage to the battery’s.',
  },
  {
    code: 'high-voltage.precharge-in-time', title: 'The capacitors are full when the precharge mode ends', formula: 'battery’s voltage less that of the capacitors after modes.<name>.lasts <= 5 % of the battery’s voltage',
    sources: ['ti-tiduf73', 'resistor-maker-note', 'common-practice'], why: 'What is missing when the main contactor closes rushes through its contact at once. Makers wait five time constants (99 %); 95 % is the least in practice.',
    whenBroken: 'fix', nearMargin: 0.2,
    wording: {
      holds: 'After the {waits} of mode {variant} the capacitors ({links}) are {value} away from the battery’s voltage; {limit} may be left. To 95 %: {full_after}.',
      broken: 'After the {waits} of mode {variant} the capacitors ({links}) are still {value} away from the battery’s voltage; only {limit} may be left. To 95 %: {full_after}.',
      unknown: 'How full the capacitors are at the end of mode {variant} is not known. To 95 %: {full_after}.',
    },
    whatToDo: 'Let the mode last longer, or take a smaller precharge resistor; better, let the controller wait for the measured voltage and give up with a fault when it does not come.',
  },
  {
    code: 'high-voltage.precharge-resistor-pulse', title: 'The precharge resistor bears one start', formula: 'heat in the resistor over one precharge (half C V² and what the loads draw through it) <= its pulse energy',
    sources: ['resistor-maker-note', 'ti-tiduf73'], why: 'The heat of a start comes too quickly to leave the resistor; a resistor chosen by its continuous power alone opens after a few starts.',
    whenBroken: 'fix', nearMargin: 0.2,
    wording: {
      holds: 'One start in mode {variant} puts {value} into the resistor of {about}, which bears {limit}.',
      broken: 'One start in mode {variant} puts {value} into the resistor of {about}, which bears only {limit}.',
      unknown: 'Whether the resistor of {about} bears the pulse of a start in mode {variant} is not known; the capacitors alone hold {capacitor_energy} at full voltage, and onto a shorted link it takes {short_power}.',
    },
    whatToDo: 'Use a resistor made for pulses (wire-wound, in a metal case) with at least this pulse energy.',
  },
  {
    code: 'high-voltage.precharge-resistor-short', title: 'The precharge resistor bears a start into a short', formula: 'modes.<name>.lasts <= pulse energy / (V²/R), all of the battery across the resistor',
    sources: ['closed-form', 'common-practice'], why: 'Precharge is also the test for a shorted link: the resistor must last until the controller gives up, or it burns where nobody looks for a fire.',
    whenBroken: 'fix', nearMargin: 0,
    wording: {
      holds: 'Onto a shorted link the resistor of {about} takes {power}, which it bears for {limit}; mode {variant} lasts {value}.',
      broken: 'Onto a shorted link the resistor of {about} takes {power}, which it bears for {limit} only; mode {variant} lasts {value}.',
      unknown: 'Whether the resistor of {about} outlasts mode {variant} onto a shorted link ({power}) is not known.',
    },
    whatToDo: 'Let the controller give up sooner (write it as `lasts` of the mode), or use a resistor of larger pulse energy or resistance.',
  },
  {
    code: 'high-voltage.precharge-resistor-mean-power', title: 'The precharge resistor bears repeated starts', formula: 'energy per start / time from start to start (modes.<name>.every, else three starts in 10 s) <= continuous power of the resistor',
    sources: ['resistor-maker-note'], why: 'A start that fails is tried again at once, and the heat of one attempt is still there at the next.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: {
      holds: 'Started {starts} at {energy} each, the resistor of {about} has to lose {value} on average; it may lose {limit}.',
      broken: 'Started {starts} at {energy} each, the resistor of {about} has to lose {value} on average; it may lose only {limit}.',
      unknown: 'Whether the resistor of {about} bears being started {starts} is not known.',
    },
    whatToDo: 'Let the controller wait between attempts (write it as `every` of the mode), or use a resistor of higher power.',
  },
  {
    code: 'high-voltage.precharge-relay-current', title: 'The precharge relay may close onto the first current', formula: 'battery’s voltage / resistance of the precharge path <= making current of the relay, else its rating',
    sources: ['resistor-maker-note'], why: 'The current is highest at the instant the relay closes.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: { holds: 'Precharge in mode {variant} begins with {value}; the relay of {about} may close onto {limit}.', broken: 'Precharge in mode {variant} begins with {value}; the relay of {about} may close onto {limit} only.', unknown: 'Whether the relay of {about} may close onto the first current is not known.' },
    whatToDo: 'Use a larger resistor (and wait longer), or a relay for the current.',
  },
  {
    code: 'high-voltage.precharge-polarity', title: 'The precharge converter charges the right way round', formula: 'voltage that it brings to the positive pole of the link >= 0',
    sources: ['common-practice'], why: 'Reversed, it drives its current through the diodes of the power stage, and the main contactor then closes onto the sum of both voltages.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: '{about} brings {value} to the positive pole of {link}.', broken: '{about} brings {value} to the positive pole of {link}: its poles are exchanged.', unknown: 'Which way round {about} charges is not known.' },
    whatToDo: 'Exchange the two output wires of the converter.',
  },
  {
    code: 'high-voltage.precharge-supply-sag', title: 'The 12 V side holds up while the precharge converter runs', formula: 'V = Vth - Rth P/V at full output power over efficiency >= lowest supply voltage of the converter',
    sources: ['closed-form'], why: 'The converter and the controller that commands it live from the same 12 V: when it sags, both give up in the middle of the start.',
    whenBroken: 'fix', nearMargin: 0.05,
    wording: {
      holds: 'At full output {about} takes {current} and still has {value} at its supply; it needs {limit}.',
      broken: 'At full output {about} takes {current} through {path} and has only {value} at its supply ({open} before); it needs {limit}.',
      unknown: 'Whether the supply of {about} holds up at full output is not known.',
    },
    whatToDo: 'Use thicker or shorter supply wires, or a stronger 12 V battery, or let it charge with less power.',
  },
  {
    code: 'high-voltage.inrush-current', title: 'The main contactor may close onto what is left', formula: 'highest current of the loop (voltage left, its resistance, inductance and capacitance) <= making current of the contactor',
    sources: ['closed-form'], why: 'Contacts bounce as they close; above its making current the bounce welds them.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: {
      holds: 'From {variant}, {about} closes onto {difference} and a peak of {value}; it may make {limit}.',
      broken: 'From {variant}, {about} closes onto {difference} and a peak of {value}, limited only by the {loop} of the loop; it may make {limit}.',
      unknown: 'Whether {about} may close onto the capacitors in mode {to} is not known.',
    },
    whatToDo: 'Precharge for longer, or further, before this contactor closes; it must close last.',
  },
  {
    code: 'high-voltage.inrush-fuse', title: 'Starts do not age the fuses', formula: 'C ΔV²/(2 R) times the square of the share that the fuse carries <= 30 % of its melting I²t',
    sources: ['closed-form', 'fuse-maker-guides'], why: 'A fuse that comes near melting at every start opens one day without a fault.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: {
      holds: 'From {variant}, {about} sees a pulse of {value} from closing onto {difference}; {limit} is allowed.',
      broken: 'From {variant}, {about} sees a pulse of {value} from closing onto {difference}; {limit} is allowed.',
      unknown: 'Whether the inrush in mode {to} ages {about} is not known.',
    },
    whatToDo: 'Precharge for longer before the contactor closes, or use a fuse of higher melting I²t that still protects the cable.',
  },
];

const dischargeRows: readonly Row[] = [
  {
    code: 'high-voltage.discharge-present', title: 'Something empties the capacitors when the contactors open', formula: 'a bleeder or an active discharge on every group of capacitors that stays joined',
    sources: ['iec-60204-1', 'iso-6469-3'], why: 'Without a way to empty itself the capacitor stays at a deadly voltage for hours, with every contactor open.',
    whenBroken: 'stop', nearMargin: 0,
    wording: {
      holds: '{names} ({capacitance}, {energy} at {voltage}) has a bleeder or an active discharge.',
      broken: 'Nothing declared empties {names}: {capacitance} at {voltage}, {energy}, stays there with every contactor open.',
      unknown: 'Whether anything empties {about} is not known.',
    },
    whatToDo: 'Measure whether the part has a bleeder inside (resistance between its poles, disconnected and proved dead, after the reading has settled) and write it down; else fit one of {bleeder} or less, rated for the voltage.',
  },
  {
    code: 'high-voltage.discharge-passive', title: 'The capacitors are at 60 V in two minutes without any command', formula: 'R C ln(V/60 V) <= 120 s, R everything between the poles with all contacts open, V the full battery',
    sources: ['common-practice', 'iso-6469-3'], why: 'Active discharge can fail; the bleeder cannot be forgotten. 120 s is practice of road-car makers (from memory); ISO 6469-3 gives no number. Whatever is computed here: wait, then measure.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: {
      holds: '{names} falls from {voltage} to 60 V in {value} through {by} ({resistance}); {limit} is usual.',
      broken: '{names} takes {value} from {voltage} to 60 V through {by} ({resistance}); {limit} is usual.',
      unknown: 'How long {about} stays above 60 V is not known.',
    },
    whatToDo: 'Fit a bleeder that brings the whole group down in time: {bleeder} or less across the poles, rated for the voltage and its own heat. Until then put the waiting time on a label at every cover.',
  },
  {
    code: 'high-voltage.discharge-active', title: 'Active discharge brings the capacitors to 60 V in 5 s', formula: 'declared time of the part, scaled to all capacitors on its poles and to this battery <= 5 s',
    sources: ['iec-60204-1'], why: 'IEC 60204-1 (machines) and the rules of student race cars ask for 60 V within 5 s; for road cars it is a comparison, ISO 6469-3 gives no number.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: {
      holds: '{about} brings {capacitance} from {voltage} to 60 V in {value} when told to; the comparison is {limit}.',
      broken: '{about} takes {value} to bring {capacitance} from {voltage} to 60 V; the comparison is {limit}.',
      unknown: 'How quickly {about} can discharge is not known.',
    },
    whatToDo: 'Look up the part’s own discharge time; with several capacitors on its poles it works for all of them. Add a discharge resistor with a relay that closes when the contactors open.',
  },
  {
    code: 'high-voltage.discharge-at-plug', title: 'Plugs that come apart by hand are at 60 V in 1 s, or finger-proof', formula: 'shortest time from the full battery to 60 V <= 1 s',
    sources: ['un-r100'], why: 'UN R100 5.1.1.3: contacts of a connector that can be parted without tools are at or below 60 V within 1 s, or cannot be touched with a finger (IPXXB).',
    whenBroken: 'watch', nearMargin: 0,
    wording: {
      holds: 'Behind the plugs of {names} {voltage} falls to 60 V within {value}.',
      broken: 'Behind the plugs of {names} {voltage} takes {value} to fall to 60 V, not {limit}: the contacts of these plugs must then be finger-proof (IPXXB) when parted.',
      unknown: 'How long the contacts behind the plugs of {about} stay live is not known.',
    },
    whatToDo: 'See that both halves of the plug are finger-proof when parted, or that they need a tool; and wait the discharge time before parting them.',
  },
];

const isolationRows: readonly Row[] = [
  {
    code: 'high-voltage.isolation-resistance', title: 'The high-voltage side is insulated from the chassis', formula: 'smaller leak of the two poles / highest voltage of the battery >= 100 Ω/V, or 500 Ω/V where an alternating circuit hangs on it without separation',
    sources: ['un-r100'], why: 'With one pole leaking to the chassis, one hand on the other pole closes the circuit. 500 Ω/V is 2 mA, 100 Ω/V is 10 mA. 100 Ω/V is enough with a motor side too when that side has double insulation; the file cannot tell, so 500 is taken.',
    whenBroken: 'fix', nearMargin: 0.2,
    wording: {
      holds: 'The insulation {where} is {value} ({resistance} at {pole}); {limit} is required ({circuit}).',
      broken: 'The insulation {where} is only {value} ({resistance} at {pole}, {voltage}); {limit} is required ({circuit}).',
      unknown: 'The insulation of the high-voltage side {where} is not known.',
    },
    whatToDo: 'Find the part with the lowest insulation: measure each alone, disconnected, with an insulation tester at or above the battery’s voltage. Dry, clean or replace it.',
  },
  {
    code: 'high-voltage.pole-not-tied', title: 'Neither pole is joined to the chassis', formula: 'smaller leak of the two poles >= 10 Ω/V (a tenth of the least isolation that UN R100 allows) times the battery’s voltage',
    sources: ['un-r100', 'common-practice'], why: 'The first touch of the other pole is then deadly, and every tool on the bodywork is a short.',
    whenBroken: 'stop', nearMargin: 0,
    wording: {
      holds: 'Neither pole is joined to the chassis {where}: {value} at least.',
      broken: 'As good as joined to the chassis {where}: {pole}, {value} at {voltage}, where even a poor insulation has {limit}.',
      unknown: 'Whether a pole is joined to the chassis {where} is not known.',
    },
    whatToDo: 'Open the service disconnect and find the joint: a run from a high-voltage pole to the bodywork or the 12 V ground, or a part that is wet or broken through.',
  },
  {
    code: 'high-voltage.touch-energy', title: 'The filter capacitors to the chassis hold little energy', formula: 'C V²/2 of all capacitors between both poles and the chassis at the full battery’s voltage <= 0.2 J',
    sources: ['iso-6469-4', 'un-r94'], why: 'They discharge through whoever touches one pole, however good the insulation is. Above 0.2 J the low-energy way to protect people after a crash is closed; insulation or covers must do it.',
    whenBroken: 'watch', nearMargin: 0.1,
    wording: {
      holds: 'The {capacitance} to the chassis {where} hold {value} at {voltage}; {limit} is the limit.',
      broken: 'The {capacitance} to the chassis {where} hold {value} at {voltage} ({above_sixty} above what 60 V would hold); {limit} is the limit.',
      unknown: 'How much energy the filter capacitors to the chassis hold {where} is not known; those declared hold {held}.',
    },
    whatToDo: 'Count on insulation and covers instead, and keep hands off both poles and the bodywork until the discharge time is over. Look for parts with smaller filter capacitors.',
  },
  {
    code: 'high-voltage.isolation-monitored', title: 'Something watches the insulation', formula: 'insulation monitors on the battery while it is connected >= 1',
    sources: ['common-practice', 'un-r100'], why: 'The first leak is felt by nobody; the second kills or burns. UN R100 asks for a monitor only in fuel-cell cars; in a home-built car it is the only thing that sees water getting in.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: '{about} watches the insulation.', broken: 'No insulation monitor hangs on the battery in the modes that connect the car.', unknown: 'Whether the insulation is watched is not known.' },
    whatToDo: 'Fit an insulation monitor behind the contactors and let the controller read it; without one, measure the insulation by hand before each drive in the wet and at each service.',
  },
  {
    code: 'high-voltage.monitor-threshold', title: 'The insulation monitor warns in time', formula: 'resistance below which it warns >= required Ω/V x highest voltage of the battery',
    sources: ['un-r100'], why: 'A monitor that warns below the limit lets the car drive with insulation that is not allowed.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{about} warns below {value}; at {voltage} the limit is {limit}.', broken: '{about} warns only below {value}; at {voltage} it must warn at {limit}.', unknown: 'Below which resistance {about} warns is not known.' },
    whatToDo: 'Set the monitor to a higher resistance.',
  },
  {
    code: 'high-voltage.monitor-quiet', title: 'The insulation monitor does not warn without cause', formula: 'insulation computed from all parts >= resistance below which the monitor warns',
    sources: ['common-practice'], why: 'A warning that is always there is soon ignored.',
    whenBroken: 'watch', nearMargin: 0.1,
    wording: { holds: 'The insulation is {value}; {about} warns below {limit}.', broken: 'The insulation is {value}, and {about} warns below {limit}: it would warn all the time.', unknown: 'Whether {about} would warn without cause is not known.' },
    whatToDo: 'Find the part with the lowest insulation, or check the setting of the monitor against the limit of the rule.',
  },
  {
    code: 'high-voltage.inlet-isolation', title: 'The charging inlet is insulated from the chassis', formula: 'resistance of the unplugged pins to the chassis >= 1 MΩ',
    sources: ['un-r100'], why: 'The inlet lives in spray and road salt. UN R100 5.1.3.4, value from memory.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: { holds: 'The pins of {about} have {value} to the chassis; {limit} is required.', broken: 'The pins of {about} have only {value} to the chassis; {limit} is required.', unknown: 'The insulation of the pins of {about} is not known.' },
    whatToDo: 'Unplug everything, measure the pins against the chassis with an insulation tester; dry and seal the inlet, or replace it.',
  },
];

const requiredRows: readonly Row[] = [
  {
    code: 'high-voltage.class-a-throughout', title: 'A class A car stays class A behind its battery', formula: 'highest voltage of the battery, and between the poles of every part in every mode <= 60 V direct; mains pins above 30 V alternating are named as the exception',
    sources: ['un-r100', 'iso-6469-3'], why: 'The rules for class B (above 60 V) are left out for a class A battery; a part behind it that makes more voltage brings them all back.',
    whenBroken: 'stop', nearMargin: 0.05,
    wording: {
      holds: 'No direct voltage in the car exceeds {value} (class A ends at {limit}): disconnect, isolation, interlock, orange cables and discharge are not required for class A and are not checked.{mains}',
      broken: 'The battery is of class A, but {value} stands at a part behind it (class A ends at {limit}): the car is class B.{mains}',
      unknown: 'Whether the rules for class B (above 60 V) apply is not known, so disconnect, isolation, interlock, orange cables and discharge could not be checked.',
    },
    whatToDo: 'Find the part that makes more than 60 V, and treat the car as class B: disconnect, isolation, interlock, orange cables, discharge.',
  },
  {
    code: 'high-voltage.class-border', title: 'No run joins the high-voltage side to the 12 V side', formula: 'runs between a high-voltage port and a low-voltage or signal port = 0',
    sources: ['un-r100', 'iso-6469-3'], why: 'The whole 12 V side, and the bodywork with it, would be at the battery’s potential.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'No run joins a high-voltage port to the low-voltage side.', broken: '{about} joins {from} to {to}: one is a high-voltage port, the other is not.', unknown: 'Whether a run crosses the border is not known.' },
    whatToDo: 'Take the run out, in the car first. Check both its ends for the port that was meant.',
  },
  {
    code: 'high-voltage.disconnect-present', title: 'The battery can be split by hand', formula: 'disconnects in the string that take the battery apart when pulled >= 1',
    sources: ['common-practice', 'un-r100'], why: 'It is the only switch that needs no electronics, and what a fire crew looks for. UN R100 rules how a service disconnect must be covered; that there is one is practice of every maker and rule of many inspectors.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{names} splits the battery by hand.', broken: 'Nothing that can be pulled by hand splits the battery: its {voltage} cannot be taken apart without undoing a live busbar.', unknown: 'Whether the battery can be split by hand is not known.' },
    whatToDo: 'Put a service disconnect between two modules near the middle of the string, where it can be reached without tools.',
  },
  {
    code: 'high-voltage.disconnect-near-middle', title: 'Pulled, the disconnect leaves no large piece', formula: 'highest voltage of one piece with every disconnect pulled and every contact closed <= 60 % of the battery’s voltage',
    sources: ['common-practice'], why: 'At the end of the string it leaves the whole voltage where it was; in the middle it halves it.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: 'With the disconnect pulled the largest of {pieces} pieces has {value}; up to {limit} is near the middle.', broken: 'With the disconnect pulled the largest piece still has {value} of {voltage}; near the middle it would be {limit} at most.', unknown: 'What is left when the disconnect is pulled is not known.' },
    whatToDo: 'Move the disconnect towards the middle of the string, or add a second one.',
  },
  {
    code: 'high-voltage.string-fuse-present', title: 'A fuse lies between the cells and every part', formula: 'modes in which, with every fuse taken out, metal still joins both poles of the part to the cells = 0',
    sources: ['common-practice'], why: 'Without a fuse in its way a short there ends when something has burnt.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'A fuse lies in every way from the cells to {about}.', broken: 'From the cells to {about} there is a way without any fuse, in {modes}.', unknown: 'Whether a fuse lies between the cells and {about} is not known.' },
    whatToDo: 'Put a fuse for direct current at the battery’s voltage into the string, best near the middle or at its positive end; each parallel string needs its own.',
  },
  {
    code: 'high-voltage.parallel-strings-fused', title: 'Each parallel string has its own fuse', formula: 'parallel strings that stay joined at both ends, and closed loops of cells, when every fuse is taken out = 0',
    sources: ['common-practice'], why: 'A failing cell in one string is fed by all the others, and nothing opens.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'No two strings are joined without a fuse in each.', broken: '{value} of the strings joined in parallel have no fuse of their own ({names}, up to {voltage}): a fault in one is fed by all, and nothing opens.', unknown: 'Whether parallel strings have their own fuses is not known.' },
    whatToDo: 'Give each string its own fuse before the strings are joined. Modules side by side need links no stronger than what one module bears, or a fuse each.',
  },
  {
    code: 'high-voltage.dead-when-off', title: 'With everything off no part has voltage between its poles', formula: 'highest voltage between the high-voltage ports of the part with nothing commanded <= 60 V',
    sources: ['un-r100', 'common-practice'], why: 'The contactors are there so that everything outside the battery box is dead when the key is out.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'With everything off {about} has {value} between its poles; {limit} is the border.', broken: 'With everything off {about} still has {value} between its poles; {limit} is the border.', unknown: 'What stands at {about} with everything off is not known.' },
    whatToDo: 'Put a contactor in both poles between the battery and this part.',
  },
  {
    code: 'high-voltage.both-poles-open', title: 'The contactors cut off both poles', formula: 'poles of the part that metal still joins to the cells with nothing commanded = 0',
    sources: ['common-practice', 'un-r100'], why: 'A pole that stays joined is live against the other end of the battery and against a leak to the chassis; one welded contactor then makes everything live.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'With everything off neither pole of {about} is joined to the battery.', broken: 'With everything off {ports} is still joined to the battery: {value} of the poles of {about} is not switched.', unknown: 'Whether both poles of {about} are switched is not known.' },
    whatToDo: 'Put a contactor into the pole that has none; a fuse or a disconnect does not replace it.',
  },
  {
    code: 'high-voltage.interlock-present', title: 'There is an interlock loop', formula: 'contacts of the interlock loop >= 1',
    sources: ['common-practice', 'iso-6469-3'], why: 'It opens the contactors before a plug or lid lets anybody touch what is behind. Covers that need a tool may do instead of it.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: 'The interlock loop has {value} contacts.', broken: 'No plug or lid of the high-voltage side has an interlock contact.', unknown: 'Whether there is an interlock loop is not known.' },
    whatToDo: 'Wire the interlock contacts of all high-voltage plugs and of the disconnect in one loop that the contactor supply or the controller needs closed; else see that every plug and lid needs a tool.',
  },
  {
    code: 'high-voltage.interlock-one-loop', title: 'All interlock contacts are in one loop', formula: 'chains of contacts that wires join = 1',
    sources: ['common-practice'], why: 'A contact that is not in the loop that is read does nothing.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: 'All interlock contacts are joined in one loop.', broken: 'The interlock contacts form {value} separate chains: {loops}.', unknown: 'How the interlock contacts are joined is not known.' },
    whatToDo: 'Join the chains by a wire from the end of one to the start of the next, or make sure that each chain is read.',
  },
  {
    code: 'high-voltage.interlock-in-series', title: 'No interlock contact is bypassed', formula: 'contacts whose two ends stay joined when they open = 0',
    sources: ['common-practice'], why: 'A contact with a wire or another contact beside it can open without anything noticing.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'Every interlock contact opens the loop.', broken: '{value} parts can be opened without opening the loop: {names}.', unknown: 'Whether an interlock contact is bypassed is not known.' },
    whatToDo: 'Wire the contacts one after the other: out of one into the next.',
  },
  {
    code: 'high-voltage.interlock-covers', title: 'The interlock loop passes through every high-voltage plug', formula: 'power electronics and disconnects with an interlock contact of their own or one that guards them',
    sources: ['common-practice', 'iso-6469-3'], why: 'The plug that is not in the loop is the one that gets pulled live.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: 'The interlock loop passes through {about}.', broken: '{about} is not in the interlock loop.', unknown: 'Whether {about} is in the interlock loop is not known.' },
    whatToDo: 'Take the interlock contact of its plug or lid into the loop (`interlock: yes`), or add a contact that guards it; with bolted cables under a lid that needs a tool this may stay as it is.',
  },
  {
    code: 'high-voltage.cable-orange', title: 'High-voltage cables are orange', formula: 'colour of the outer covering of every cable of the high-voltage side = orange',
    sources: ['un-r100'], why: 'UN R100 5.1.1.5.3: cables that are not inside enclosures have an orange covering, so that a rescuer sees what must not be cut.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'The cables {runs} are orange.', broken: 'The cables {runs} are {colour}, not orange.', unknown: 'The colour of the cables {runs} is not stated.' },
    whatToDo: 'Use orange cable, or put orange corrugated sleeve over its whole length; inside a closed enclosure it may stay.',
  },
];

export const highVoltagePrechargeCodes: readonly CodeRow[] = [...linkRows, ...prechargeRows, ...dischargeRows, ...isolationRows, ...requiredRows].map((row) => ({ ...row, topic }));
