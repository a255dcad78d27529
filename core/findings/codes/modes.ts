/** Findings of the subject modes: what each needs and drives, and the rules of electric propulsion. */
import type { CodeRow } from '../code-row.ts';

type Row = Omit<CodeRow, 'topic'>;

const rows: readonly Row[] = [
  {
    code: 'modes.mode-reachable', title: 'Every mode can be reached', formula: 'a way of modes, each named under `from` of the next, leads from where the vehicle begins to it',
    sources: ['closed-form'], why: 'What is never entered was not thought through, or its way in is misspelt; everything computed for it is for nothing.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'Mode {about} follows from {from}.', broken: 'Mode {about} is never entered: it follows from {from}, and no way leads there from {starts}.', unknown: 'Whether mode {about} is ever entered is not known.' },
    whatToDo: 'Name under `from` a mode that can be reached, or take the mode out.',
  },
  {
    code: 'modes.need-possible', title: 'What a mode needs can be true where it is entered from', formula: 'in at least one mode of `from`, with hands and plugs in some position, the condition is true',
    sources: ['closed-form'], why: 'The controller would wait for ever, or somebody will bridge the interlock to get on.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'Mode {about} can be entered from {from} as far as “{variant}” goes.', broken: 'Mode {about} is never entered from {from}: “{variant}” is not true there ({values}).', unknown: 'Whether “{variant}” can be true before mode {about} is not known.' },
    whatToDo: 'Look at the values in brackets: correct the condition, the modes under `from`, or the wiring that should make it true.',
  },
  {
    code: 'modes.contact-has-need', title: 'No high-voltage contact closes without a condition', formula: 'conditions of a mode that closes a high-voltage contact ≥ 1', sources: ['common-practice'],
    why: 'A contactor that closes onto an empty capacitor, an open lid or a leak welds, burns or kills; the controller must be told what to wait for.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: 'Mode {about} closes {contacts}; conditions that must be true first: {value}.', broken: 'Mode {about} closes {contacts}, and the file names nothing that must be true first.', unknown: 'What mode {about} waits for is not known.' },
    whatToDo: 'Write under `needs` what the controller checks: precharge done as a comparison of voltages, interlock closed, insulation good, stop button out.',
  },
  {
    code: 'modes.assert-holds', title: 'What the file says of a mode is true in the network', formula: 'the condition under `asserts`, in the mode', sources: ['closed-form'],
    why: 'Either the wiring does not do what it is meant to do, or the meaning was written down wrongly.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'In mode {about} “{variant}” is true ({values}).', broken: 'In mode {about} “{variant}” is not true ({values}).', unknown: 'Whether “{variant}” is true in mode {about} is not known.' },
    whatToDo: 'Look at the values in brackets: correct the wiring, the settings of the mode, or the condition.',
  },
  {
    code: 'modes.output-driven', title: 'Every output that a mode switches on drives', formula: 'voltage between an output that is on and the supply or ground that it joins ≤ 1 V', sources: ['closed-form', 'common-practice'],
    why: 'A unit that sleeps, or has no supply or ground, switches nothing whatever it is told.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{about} drives {outputs} in mode {variant}.', broken: '{about} is told to switch on {outputs} in mode {variant}, and does not: it sleeps, or lacks its supply or ground.', unknown: 'Whether {about} drives its outputs in mode {variant} is not known.' },
    whatToDo: 'See to its wake signal, supply and ground in that mode: the key or the flap that wakes it must be set there too.',
  },
  {
    code: 'modes.two-actions-to-drive', title: 'It takes two different actions before the vehicle can move', formula: 'inputs each of which, left as in the parked vehicle, keeps every drive mode out of reach ≥ 2', sources: ['iso-6469-2'],
    why: 'One bumped lever or a child at the key must not set a silent vehicle in motion.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'Mode {about} is entered only after {value} different actions: {actions}.', broken: 'Mode {about} waits for {actions}: {value} of at least {limit} different actions.{words}', unknown: 'How many actions lead to mode {about} is not known: the file does not say what it waits for.' },
    whatToDo: 'Let the controller wait for two things, such as the key and the pressed brake pedal, and write both under `needs`.',
  },
  {
    code: 'modes.no-drive-while-plugged', title: 'No movement while the charging plug is in', formula: 'with the plug in, some condition refuses every way to a drive mode', sources: ['un-r100'],
    why: 'The vehicle would tear the cable off the wall, live.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'With the plug in {about} no drive mode is entered: {by}.', broken: 'With the plug in {about} these modes are still entered: {entered}.', unknown: 'Whether {about} with the plug in keeps the vehicle from driving is not known: no condition on the way to drive speaks of it.' },
    whatToDo: 'Take the proximity contact into the controller and write, for the mode before drive, a condition such as INLET.plugged == false.',
  },
  {
    code: 'modes.drive-indicated', title: 'The driver is told when the vehicle can move', formula: 'an indicator is lit in every drive mode and dark in the parked vehicle', sources: ['un-r100', 'iso-6469-2'],
    why: 'An electric vehicle that is ready makes no sound: the driver gets out, leans on the pedal, and it drives.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{telling} tells the driver in every drive mode.', broken: 'No indicator is lit in mode {dark} that is dark in the parked vehicle. A display on the bus may say it; the file cannot show that.', unknown: 'Whether the driver is told that the vehicle can move is not known.' },
    whatToDo: 'Give the controller an output for a lamp that says “ready”, and let it sound when the driver’s door opens.',
  },
  {
    code: 'modes.one-action-off', title: 'One action switches the propulsion off', formula: 'a switch that, worked alone while driving, opens every high-voltage contact through wires', sources: ['iso-6469-2', 'common-practice'],
    why: 'When a controller hangs, only wires still obey.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'While in mode {about}, each of these alone opens every high-voltage contact: {others}.', broken: 'While in mode {about}, no single switch opens every high-voltage contact through its wires.', unknown: 'Whether one switch ends the drive is not known.' },
    whatToDo: 'Take the feed of the contactor coils through the key or a stop button, so that it needs no controller to let go.',
  },
];

export const modesCodes: readonly CodeRow[] = rows.map((row) => ({ ...row, topic: 'modes' }));
