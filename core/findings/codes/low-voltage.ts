/** Findings of the subject low-voltage: sources, consumers, coils, fuses, wires, contacts, and the car left standing. */
import type { CodeRow } from '../code-row.ts';

type Row = Omit<CodeRow, 'topic'>;
const topic = 'low-voltage' as const;

const sourceRows: readonly Row[] = [
  {
    code: 'low-voltage.no-dead-short', title: 'Nothing joins plus and minus', formula: 'no way of wires, pins and fuses without a switch from a positive end of a battery or DC-DC to the chassis or a negative end',
    sources: ['closed-form'], why: 'The first contact with the battery post would burn wire until something parts.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'No way without a switch leads from plus of {about} to minus or to the chassis.', broken: 'From plus of {about} a way without any switch leads to minus or to the chassis: {others}.', unknown: 'Whether something joins plus and minus is not known.' },
    whatToDo: 'Follow the way named: one of its runs ends at the wrong port. Do not connect the battery before this is cleared.',
  },
  {
    code: 'low-voltage.battery-on-chassis', title: 'The battery’s negative post is joined to the chassis', formula: 'a way of metal leads from the negative post to the chassis',
    sources: ['common-practice'], why: 'Without it, whatever returns through the bodywork has no way back, and a chafed wire opens no fuse.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'The negative post of {about} is joined to the chassis.', broken: 'Nothing joins the negative post of {about} to the chassis.', unknown: 'Whether {about} is joined to the chassis is not known.' },
    whatToDo: 'Add the ground cable from the negative post to a ground stud, as thick as the thickest positive cable.',
  },
  {
    code: 'low-voltage.supply-present', title: 'Something charges the low-voltage battery', formula: 'at least one DC-DC, or another supply, with its values given', sources: ['common-practice'],
    why: 'An electric car has no alternator: without a DC-DC the contactors fall off when the battery is flat, wherever the car is then.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{about} feeds the low-voltage side.', broken: 'Nothing feeds the low-voltage side but its battery.', unknown: 'Whether anything feeds the low-voltage side is not known.' },
    whatToDo: 'Add a DC-DC, or complete the values of the one that is in the file.',
  },
  {
    code: 'low-voltage.supply-runs', title: 'The DC-DC runs in some mode', formula: 'modes in which a DC-DC gives current or holds the voltage ≥ 1', sources: ['common-practice'],
    why: 'A DC-DC that no mode starts charges nothing.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{about} runs in some mode.', broken: 'No mode makes {about} run.', unknown: 'Whether {about} runs in any mode is not known.' },
    whatToDo: 'Check its high-voltage feed, its enable wire or message, and its ground; or add the mode in which it runs.',
  },
  {
    code: 'low-voltage.supply-capacity', title: 'The DC-DC carries all that runs for good', formula: 'current given + current the battery adds, worst mode that may last ≤ current limit', sources: ['closed-form'],
    why: 'What the DC-DC cannot give, the battery gives until it is flat.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: {
      holds: '{about} gives {value} in mode {mode}, the worst; it can give {limit}.',
      broken: 'Mode {mode} takes {value} while {about} can give {limit}: the battery makes up for the rest until it is flat, and the bus is at {bus}.',
      unknown: 'Whether {about} carries the sum of its loads is not known.',
    },
    whatToDo: 'Use a DC-DC with more current, or see to it that the large loads of that mode do not run together.',
  },
  {
    code: 'low-voltage.battery-charge-voltage', title: 'The low-voltage battery is not overcharged', formula: 'highest voltage between its posts in any mode ≤ 2.47 V a cell (flooded), 2.45 V (AGM, gel), 3.65 V (iron phosphate), at 25 °C', sources: ['common-practice'],
    why: 'Above its charging voltage a lead-acid battery boils its water away and gives off hydrogen; a sealed one cannot be topped up; an iron phosphate one switches itself off, and with it the car.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{about} ({chemistry}) gets {value} at the most (mode {mode}); it takes {limit} at 25 °C, less in a hot bay.', broken: '{about} ({chemistry}) is charged with {value} in mode {mode}; it takes {limit} at the most.', unknown: 'Whether {about} is overcharged is not known.' },
    whatToDo: 'Set the DC-DC lower, by the battery’s own sheet; a battery in a hot place wants still less.',
  },
  {
    code: 'low-voltage.battery-charge-enough', title: 'The low-voltage battery gets full', formula: 'highest voltage between its posts in a mode that may last ≥ 2.20 V a cell (lead-acid), 3.35 V (iron phosphate)', sources: ['common-practice'],
    why: 'A lead-acid battery that is never full sulphates and is worn out within a year or two.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: '{about} ({chemistry}) gets {value} in mode {mode}; from {limit} on it gets full.', broken: '{about} ({chemistry}) gets only {value} (mode {mode}, the best); below {limit} it is never full.', unknown: 'Whether {about} gets full is not known.' },
    whatToDo: 'Set the DC-DC higher, or thicken the wires between it and the battery.',
  },
];

const consumerRows: readonly Row[] = [
  {
    code: 'low-voltage.consumer-fed', title: 'Every consumer gets its voltage in some mode', formula: 'highest voltage of any mode between its terminals ≥ its lowest working voltage', sources: ['closed-form'],
    why: 'It will never run: a wire is forgotten, ends at the wrong pin, or no mode switches it on.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: '{about} gets {value} in mode {mode}; it needs {limit}.', broken: '{about} gets {value} at most and needs {limit}: {reason}.', unknown: 'Whether {about} ever gets its voltage is not known.' },
    whatToDo: 'Wire its supply and its return, or add the mode or the setting that switches it on.',
  },
  {
    code: 'low-voltage.consumer-voltage-low', title: 'Every consumer has enough voltage while it runs', formula: 'lowest voltage of any mode in which it runs, between its terminals ≥ its lowest working voltage', sources: ['iso-16750-2', 'closed-form'],
    why: 'Below it pumps stall and controllers restart, just when much else is running.',
    whenBroken: 'fix', nearMargin: 0.05,
    wording: { holds: '{about} has {value} at the least (mode {mode}) and works from {limit}.', broken: '{about} has only {value} in mode {mode} and needs {limit}.', unknown: 'Whether {about} has enough voltage is not known.' },
    whatToDo: 'Shorten or thicken its wires, ground it closer, or take load off the wire that it shares.',
  },
  {
    code: 'low-voltage.consumer-voltage-high', title: 'No consumer gets more voltage than it stands', formula: 'highest voltage of any mode between its terminals ≤ its highest permitted voltage', sources: ['iso-16750-2', 'closed-form'],
    why: 'Electronics fail at once or age within weeks.',
    whenBroken: 'fix', nearMargin: 0.02,
    wording: { holds: '{about} has {value} at the most (mode {mode}) and stands {limit}.', broken: '{about} gets {value} in mode {mode} and stands only {limit}.', unknown: 'Whether {about} stands the voltage that it gets is not known.' },
    whatToDo: 'Set the DC-DC lower, or feed it through a converter for its own voltage.',
  },
  {
    code: 'low-voltage.critical-drop', title: 'Control units and coils lose little on the way', formula: '(bus voltage − voltage at its terminals) / bus voltage, worst mode ≤ 3 %', sources: ['abyc-e-11', 'iso-10133'],
    why: 'What decides and switches must not see the voltage move when a pump starts.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: 'Of {bus}, {arrives} arrive at {about}: {value} lost (mode {mode}; up to {limit} for circuits that matter).', broken: 'Of {bus} only {arrives} arrive at {about} in mode {mode}: {value} lost where {limit} is the guidance for circuits that matter.', unknown: 'What {about} loses on the way is not known.' },
    whatToDo: 'Give it a feed and a ground of its own, thicker or shorter, or look for the one bad contact in the way.',
  },
  {
    code: 'low-voltage.consumer-drop', title: 'Consumers lose little on the way', formula: '(bus voltage − voltage at its terminals) / bus voltage, worst mode ≤ 10 %', sources: ['abyc-e-11', 'iso-10133'],
    why: 'Lost volts are heat in a wire, dim lamps and slow pumps.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: { holds: 'Of {bus}, {arrives} arrive at {about}: {value} lost (mode {mode}; up to {limit}).', broken: 'Of {bus} only {arrives} arrive at {about} in mode {mode}: {value} lost where {limit} is the guidance.', unknown: 'What {about} loses on the way is not known.' },
    whatToDo: 'Use thicker or shorter wire, out and back.',
  },
  {
    code: 'low-voltage.consumer-ground', title: 'Every ground stays near the chassis', formula: '|voltage from its negative terminal to the chassis|, worst mode in which it runs ≤ 0.5 V', sources: ['common-practice'],
    why: 'Sensors and buses that share the ground read wrong by as much, and current looks for other ways home.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: { holds: 'The ground of {about} is at {value} against the chassis at the most (mode {mode}).', broken: 'The ground of {about} is at {value} against the chassis in mode {mode}; {limit} is the most that workshops accept.', unknown: 'The ground of {about} could not be looked at.' },
    whatToDo: 'Ground it on a stud of its own with bare metal below, or thicken the ground wire that it shares.',
  },
];

const coilRows: readonly Row[] = [
  {
    code: 'low-voltage.coil-used', title: 'Some mode closes every contactor and relay', formula: 'highest coil voltage of any mode ≥ pull-in voltage', sources: ['closed-form'],
    why: 'A coil that nothing feeds is a wire forgotten, in the file or in the car.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: 'Mode {mode} feeds the coil of {about} with {value}; it pulls in at {limit}.', broken: 'No mode makes {about} pull in: its coil gets {value} at most and needs {limit}.', unknown: 'Whether any mode makes {about} pull in is not known.' },
    whatToDo: 'Wire its coil, or add the mode or the output that feeds it; a coil with a diode works one way round only.',
  },
  {
    code: 'low-voltage.coil-pulls-in', title: 'A coil that is fed pulls in', formula: 'coil voltage − (pull-in current − holding current) · resistance out and back, worst mode ≥ pull-in voltage', sources: ['closed-form'],
    why: 'A contactor that half closes welds or chatters.',
    whenBroken: 'fix', nearMargin: 0.33,
    wording: { holds: 'While it closes, the coil of {about} has {value} at the least (mode {mode}) and pulls in at {limit}; a hot coil needs up to a third more.', broken: 'While it closes, the coil of {about} has only {value} in mode {mode} and needs {limit}.', unknown: 'Whether the coil of {about} pulls in is not known.' },
    whatToDo: 'Thicken its feed and return, shorten its way, or look for what feeds it through another consumer.',
  },
  {
    code: 'low-voltage.coil-holds', title: 'Coils hold when the low voltage sags', formula: 'coil voltage · (9/12.6 of the battery’s rest voltage) / bus voltage, worst mode ≥ drop-out voltage', sources: ['iso-16750-2', 'closed-form'],
    why: 'A main contactor that lets go under load breaks the traction current, again and again.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: { holds: 'With the side sagging to {sag}, the coil of {about} keeps {value} (mode {mode}) and lets go below {limit}.', broken: 'With the side sagging to {sag}, the coil of {about} has only {value} in mode {mode} and lets go below {limit}.', unknown: 'Whether {about} holds when the low voltage sags is not known.' },
    whatToDo: 'Feed the coil from a circuit of its own with thicker wire, or use a contactor that holds at a lower voltage.',
  },
];

const fuseRows: readonly Row[] = [
  {
    code: 'low-voltage.fuse-steady-current', title: 'Every fuse carries its load for good', formula: 'largest current of any mode that may last ≤ rating · √((130 °C − ambient)/110 K), not above 1, · 0.8', sources: ['fuse-maker-guides', 'common-practice'],
    why: 'A fuse near its rating ages and opens one day for no reason that anybody finds.',
    whenBroken: 'fix', nearMargin: 0.05,
    wording: { holds: '{about} ({rating}) carries {value} in mode {mode}; {limit} for good at {ambient}.', broken: '{about} ({rating}) carries {value} in mode {mode}; at {ambient} it should carry {limit} at the most for good.', unknown: 'What {about} carries for good is not known.' },
    whatToDo: 'Split the load over two fuses, or use the next rating if the wires behind it allow that; or move it to a cooler place.',
  },
  {
    code: 'low-voltage.fuse-short-time', title: 'Every fuse outlives the short-time modes', formula: 'current of the mode ≤ current that the fuse must carry that long', sources: ['iso-8820-3'],
    why: 'It opens in the middle of the mode.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{about} carries {value} for {lasts} in mode {variant}; it must carry {limit} that long.', broken: '{about} would carry {value} for {lasts} in mode {variant}; only {limit} is promised for that long.', unknown: 'Whether {about} outlives mode {variant} is not known.' },
    whatToDo: 'Use the next rating if the wires behind it allow that, or a slower body.',
  },
  {
    code: 'low-voltage.fuse-start-current', title: 'Every fuse outlives the start of what it feeds', formula: 'current of the others + starting current ≤ current that the fuse must carry for the starting time', sources: ['iso-8820-3'],
    why: 'It opens when a motor starts, or after the thousandth start.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'While {others} starts, {about} carries {value} for {lasts} (mode {mode}); it must carry {limit} that long.', broken: 'While {others} starts, {about} carries {value} for {lasts} (mode {mode}); only {limit} is promised for that long.', unknown: 'Whether {about} outlives the start of {others} is not known.' },
    whatToDo: 'Use a slower body or the next rating if the wires behind it allow that, or give that consumer a fuse of its own.',
  },
  {
    code: 'low-voltage.fuse-voltage', title: 'Every fuse can break the voltage there is', formula: 'voltage rating ≥ highest bus voltage of any mode', sources: ['iso-8820-3'],
    why: 'A fuse above its voltage goes on burning as an arc.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: '{about} is rated {value}; the bus reaches {limit}.', broken: '{about} is rated {value}, but the bus reaches {limit}.', unknown: 'Whether {about} is rated for the bus voltage is not known.' },
    whatToDo: 'Use a fuse rated for the voltage of the side.',
  },
  {
    code: 'low-voltage.fuse-breaking-capacity', title: 'Every fuse can break the worst short', formula: 'breaking capacity ≥ battery voltage / (battery, way out, way back through the chassis, cold) + limits of the DC-DCs', sources: ['iso-8820-3', 'closed-form'],
    why: 'A plug-in fuse right at a strong battery may burst instead of opening, unless a fuse in front of it ends the fault.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: { holds: '{about} breaks {value}; a dead short right behind it drives {limit}.', broken: '{about} breaks {value}, but a dead short right behind it drives {limit}.', unknown: 'Whether {about} can break the worst short behind it is not known.' },
    whatToDo: 'Put a bolted strip fuse with a larger breaking capacity in front of it, or more wire between it and the battery. With such a fuse in front already, see that the two are made to work together.',
  },
];

const wireRows: readonly Row[] = [
  {
    code: 'low-voltage.run-current', title: 'Every wire carries its current', formula: 'largest current of any mode that may last ≤ current that brings the conductor to its temperature rating where it lies', sources: ['iec-60287-2-1', 'iec-60228'],
    why: 'Hot insulation goes soft, then brittle, then bare.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: { holds: '{about} carries {value} (mode {mode}); {limit} at {ambient}.', broken: '{about} carries {value} in mode {mode}, but only {limit} at {ambient}.', unknown: 'Whether {about} carries its current is not known.' },
    whatToDo: 'Use thicker wire, insulation for a higher temperature, or take it out of the bundle or the heat.',
  },
  {
    code: 'low-voltage.run-protected', title: 'Nothing long hangs on the battery without a fuse', formula: 'length of wire from the post to the far end without a fuse on the way ≤ 178 mm (in a sheath, straight from the post: 1.83 m)', sources: ['abyc-e-11'],
    why: 'A chafed wire without a fuse carries all that the battery has: it burns along its whole length.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: '{about} is not fused, and {value} long from {source}.', broken: '{about} is not fused: {value} of wire from {source} to its far end, where {limit} is the most without a sheath.', unknown: 'How far {about} reaches from the battery without a fuse is not known.' },
    whatToDo: 'Put a fuse at the battery post. Up to {in_sheath} straight from the post, a conduit or sheath over its whole length does as well.',
  },
  {
    code: 'low-voltage.run-overload', title: 'The fuse suits the wire', formula: 'rating of the fuse on the widest way (or limit of the DC-DC) ≤ current that brings the conductor to its temperature rating', sources: ['iec-60364-4-43', 'iec-60287-2-1'],
    why: 'Overloaded, the thinnest wire becomes the fuse, along its whole length.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{fuse} lets {value} through for good; {about} carries {limit} at {ambient}.', broken: '{fuse} lets {value} through for good, but {about} carries only {limit} at {ambient}.', unknown: 'Whether {fuse} protects {about} is not known.' },
    whatToDo: 'Use a smaller fuse, a thicker wire, or a fuse of its own where the wire becomes thinner.',
  },
  {
    code: 'low-voltage.fault-opens-fuse', title: 'A short at the far end opens the fuse quickly', formula: 'battery voltage / (battery, hot wire out, way back through the chassis) ≥ current that must open the fuse within 5 s', sources: ['iso-8820-3', 'closed-form'],
    why: 'A long thin wire limits its own fault: it glows and the fuse stays whole.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: { holds: 'A short at the far end of {about} drives {value}; {fuse} opens within {within} from {limit} on.', broken: 'A short at the far end of {about} drives only {value}; {fuse} need not open within {within} below {limit}.', unknown: 'Whether a short at the far end of {about} opens its fuse is not known.' },
    whatToDo: 'Use a smaller fuse, a thicker or shorter wire, or a better ground from the battery.',
  },
  {
    code: 'low-voltage.run-survives-fault', title: 'The wire outlives a short until the fuse is done', formula: 'I²t that the fuse lets through for a short at the far end ≤ (k · area)², k from the temperature rating to the insulation’s short-circuit limit', sources: ['iec-60949', 'iso-8820-3'],
    why: 'Otherwise the insulation melts before the fuse is done, and the next wire in the bundle with it.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: { holds: 'For {fault} at its far end {fuse} lets {value} through at the most; {about} stands {limit}.', broken: 'For {fault} at its far end {fuse} may let {value} through; {about} stands only {limit}.', unknown: 'Whether {about} outlives a short is not known.' },
    whatToDo: 'Use a smaller or quicker fuse, or a thicker wire.',
  },
];

const contactRows: readonly Row[] = [
  {
    code: 'low-voltage.contact-current', title: 'Every contact and output carries its current', formula: 'largest current of any mode ≤ rating', sources: ['common-practice'],
    why: 'Overloaded contacts pit and weld; overloaded outputs switch off or die.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: { holds: '{variant} of {about} carries {value} at the most (mode {mode}); it may carry {limit}.', broken: '{variant} of {about} carries {value} in mode {mode} but may carry only {limit}.', unknown: 'Whether {variant} of {about} carries its current is not known.' },
    whatToDo: 'Let a relay with a higher rating do the switching, or split the load.',
  },
  {
    code: 'low-voltage.contact-voltage', title: 'Every contact can break the voltage there is', formula: 'voltage rating ≥ highest bus voltage of any mode', sources: ['common-practice'],
    why: 'Direct current above the contact’s rating draws an arc that does not go out.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{variant} of {about} is rated {value}; the bus reaches {limit}.', broken: '{variant} of {about} is rated {value}, but the bus reaches {limit}.', unknown: 'Whether {variant} of {about} breaks the bus voltage is not known.' },
    whatToDo: 'Use a relay or switch rated for the voltage of the side, direct current.',
  },
  {
    code: 'low-voltage.contact-making', title: 'Every contact may close onto what starts behind it', formula: 'starting current of the consumer ≤ making current of the contact', sources: ['common-practice'],
    why: 'Cold lamps and standing motors weld contacts that carry the running current with ease.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: { holds: '{variant} of {about} closes onto {value} of {others}; it may close onto {limit}.', broken: '{variant} of {about} closes onto {value} of {others} but may close only onto {limit}.', unknown: 'Whether {variant} of {about} may close onto {others} is not known.' },
    whatToDo: 'Use a relay with a larger making current.',
  },
  {
    code: 'low-voltage.pin-current', title: 'Every connector pin carries its current', formula: 'largest current of any mode through a pin ≤ rating of a pin', sources: ['common-practice'],
    why: 'An overloaded pin loosens its spring by heat, gets hotter, and melts the housing.',
    whenBroken: 'fix', nearMargin: 0.1,
    wording: { holds: 'Pin {pin} of {about} carries {value}, the most of its pins (mode {mode}); a pin may carry {limit}.', broken: 'Pin {pin} of {about} carries {value} in mode {mode}; a pin may carry {limit}.', unknown: 'Whether the pins of {about} carry their current is not known.' },
    whatToDo: 'Spread the load over two pins with a wire each, or use a connector with larger pins; a pin’s rating falls with the number of loaded neighbours.',
  },
];

const standingRows: readonly Row[] = [
  {
    code: 'low-voltage.standing-time', title: 'The car can stand for two weeks', formula: '0.4 · capacity / drain of the parked car ≥ 14 d', sources: ['lead-acid-table', 'common-practice'],
    why: 'An electric car with a flat low-voltage battery does not wake, however full its traction battery is.',
    whenBroken: 'watch', nearMargin: 0.2,
    wording: { holds: 'Parked (mode {mode}), {drain} from {about} ({capacity}) go well for {value}, a year at the most counted; {limit} are asked.', broken: 'Parked (mode {mode}), {drain} empty {about} ({capacity}) too far within {value}; {limit} are asked.', unknown: 'How long {about} lasts while the car stands is not known.' },
    whatToDo: 'Find what stays awake and put it behind the key or a sleeping controller; or use a larger battery or a disconnect switch.',
  },
  {
    code: 'low-voltage.standing-drain', title: 'The parked car takes little', formula: 'drain of the parked car ≤ 50 mA', sources: ['common-practice'],
    why: 'Workshops look for a fault above it.',
    whenBroken: 'watch', nearMargin: 0.2,
    wording: { holds: 'Parked (mode {mode}), the car takes {value} from {about}; {limit} is where workshops start to look.', broken: 'Parked (mode {mode}), the car takes {value} from {about}; above {limit} workshops start to look for a fault.', unknown: 'What the parked car takes from {about} is not known.' },
    whatToDo: 'Pull fuses one by one with a meter in the battery’s ground lead until the drain falls; then see what that fuse feeds.',
  },
];

export const lowVoltageCodes: readonly CodeRow[] = [...sourceRows, ...consumerRows, ...coilRows, ...fuseRows, ...wireRows, ...contactRows, ...standingRows].map((row) => ({ ...row, topic }));
