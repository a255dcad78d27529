/** Findings of the table of single failures: what one failure must not do. They are no part of a topic: the table is asked for by itself. */
import type { CodeRow } from '../code-row.ts';

export const singleFailureCodes: readonly CodeRow[] = [
  {
    code: 'high-voltage.weld-noticed', topic: 'high-voltage', title: 'A welded contactor is noticed', formula: 'with the contact held closed, in some mode a condition of the file fails, a lamp changes or the drive stops', sources: ['un-r100', 'common-practice'],
    why: 'The contactor that is still good is then the only thing between the pack and the vehicle, and nobody knows; when it sticks too, key off does not mean voltage off.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{about} welded is noticed: {by}.', broken: '{about} welded is noticed by nothing that the file draws{seen}. {then}', unknown: 'Whether {about} welded is noticed is not known.' },
    whatToDo: 'Use a contactor with an auxiliary contact, wire it to an input of the controller, and write under needs of the mode before precharge that it must be open; or let the controller compare the voltages on both sides of the contact before it closes.',
  },
  {
    code: 'high-voltage.loop-bypass-noticed', topic: 'high-voltage', title: 'No single failure closes the interlock loop round a contact unnoticed', formula: 'for every failure that touches the loop and every interlock contact: with both, the contactors open or a condition of the file fails', sources: ['iso-6469-3', 'common-practice'],
    why: 'A loop that is bridged, or chafed through onto the supply that its input waits for, says closed while a cover is off and hands are at live metal.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'The interlock loop was tried with every failure that touches it: none hides an open contact of {contacts}.', broken: 'An open contact of {covers} is noticed by nothing that the file draws after one failure: {failures}.', unknown: 'Whether a failure can hide an open contact of {about} is not known: {unwatched}.' },
    whatToDo: 'Feed the loop from the controller with a signal of its own (a pulse, a current that is measured at both ends, a voltage that is neither supply nor ground), keep its two ends in different plugs, and open each cover once a year to see that it still ends the drive.',
  },
  {
    code: 'high-voltage.dead-after-key-off', topic: 'high-voltage', title: 'Switched off stays off after one failure', formula: 'in the mode where the vehicle is parked, with each single failure: high voltage outside the contactors ≤ 60 V', sources: ['un-r100'],
    why: 'Whoever works on the parked vehicle, and whoever cuts it open after a crash, counts on it.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'In mode {about} no single failure puts more than {limit} outside the contactors.', broken: 'In mode {about} up to {value} stand outside the contactors after one failure: {failures}.', unknown: 'Whether a single failure leaves high voltage on in mode {about} is not known.' },
    whatToDo: 'Put a contactor in each pole, each with a coil circuit of its own: no one wire, output or contact may close both.',
  },
  {
    code: 'modes.plugged-after-failure', topic: 'modes', title: 'One failure does not let the vehicle drive with the plug in', formula: 'with the plug of {about} in, no drive mode is entered with any single failure', sources: ['un-r100', 'iso-6469-2'],
    why: 'It tears the cable out of the wall, live.', whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'With the plug in {about} no drive mode is entered after any single failure.', broken: 'With the plug in {about} mode {variant} is entered after one failure: {failures}.', unknown: 'Whether one failure hides the plug in {about} from the controller is not known: {untold}.' },
    whatToDo: 'Let a broken wire mean plugged in: choose the input so that open, or shorted to ground, refuses to drive; or use two signals (proximity and flap) that must agree.',
  },
  {
    code: 'low-voltage.chafed-wire-fused', topic: 'low-voltage', title: 'A wire chafed through opens a fuse', formula: 'with the wire on the body: no run carries more than 1.45 times what it may for good, unless a fuse opens (at 1.6 times its rating)', sources: ['common-practice'],
    why: 'A battery drives hundreds of amperes through a chafed wire; without a fuse that opens, the loom burns, parked or driving.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{about} chafed through on the body: {by}.', broken: '{about} chafed through on the body carries up to {amps} and no fuse opens; too hot: {runs} ({modes}).', unknown: 'Whether a fuse saves {about} when it chafes through is not known.' },
    whatToDo: 'Put a fuse at the source end of the wire, within {unfused} of it, rated for the thinnest wire behind it; what cannot be fused goes into a sheath of its own, away from edges.',
  },
];
