/** Findings of the subject mass. */
import type { CodeRow } from '../code-row.ts';

export const massCodes: readonly CodeRow[] = [
  {
    code: 'mass.all-weighed', topic: 'mass', title: 'Every part put in or taken out has a mass and a place',
    formula: 'mass and place given for each part and each removed thing', sources: ['common-practice'],
    why: 'One forgotten battery module moves an axle load by more than the margin that most vehicles have.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'Every part put in or taken out has a mass and a place.', broken: '{about} has no mass or no place.', unknown: '{about} does not count in the axle loads.' },
    whatToDo: 'Weigh it (a bathroom scale is enough) and measure where it sits; or write an estimate with a wide tolerance.',
  },
  {
    code: 'mass.total', topic: 'mass', title: 'The vehicle stays within its permitted mass',
    formula: 'front + rear axle load before − removed + added ≤ permitted mass', sources: ['jazar-vehicle-dynamics', 'common-practice'],
    why: 'Brakes, tyres and insurance end at the permitted mass.',
    whenBroken: 'fix', nearMargin: 0.02,
    wording: { holds: 'The finished vehicle weighs {value} of {limit} permitted.', broken: 'The finished vehicle weighs {value}, more than the {limit} permitted.', unknown: 'The mass of the finished vehicle cannot be compared with what is permitted.' },
    whatToDo: 'Take mass out, or have the permitted mass raised by whoever may do that where you live; weigh the vehicle before you believe either.',
  },
  {
    code: 'mass.front-axle', topic: 'mass', title: 'The front axle stays within its rating',
    formula: 'front = total − (rear load before × wheelbase + Σ ±m·x) / wheelbase ≤ front axle rating', sources: ['jazar-vehicle-dynamics'],
    why: 'An overloaded axle wears bearings and tyres, and takes away steering or braking.',
    whenBroken: 'fix', nearMargin: 0.02,
    wording: { holds: 'The front axle carries {value} of {limit}.', broken: 'The front axle carries {value}, more than its {limit}.', unknown: 'The load on the front axle cannot be compared with its rating.' },
    whatToDo: 'Move something heavy rearward, or take mass out ahead of the front axle.',
  },
  {
    code: 'mass.rear-axle', topic: 'mass', title: 'The rear axle stays within its rating',
    formula: 'rear = (rear load before × wheelbase + Σ ±m·x) / wheelbase ≤ rear axle rating', sources: ['jazar-vehicle-dynamics'],
    why: 'An overloaded axle wears bearings and tyres, and takes away steering or braking.',
    whenBroken: 'fix', nearMargin: 0.02,
    wording: { holds: 'The rear axle carries {value} of {limit}.', broken: 'The rear axle carries {value}, more than its {limit}.', unknown: 'The load on the rear axle cannot be compared with its rating.' },
    whatToDo: 'Move something heavy forward, or take mass out behind the rear axle.',
  },
  {
    code: 'mass.axle-share', topic: 'mass', title: 'The share of the front axle stays near what the vehicle was made for',
    formula: '|front share after − front share before| ≤ 8 %', sources: ['common-practice'],
    why: 'Springs, brake balance and steering were chosen for the old share.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: 'The front axle carries {after} of the mass; it was {before}.', broken: 'The front axle carries {after} of the mass where it was {before}: {value} apart.', unknown: 'The change of the axle shares is not known.' },
    whatToDo: 'Have springs and brake balance looked at for the new loads, or move mass.',
  },
  {
    code: 'mass.sides', topic: 'mass', title: 'Left and right carry about the same',
    formula: '|left − right| / total ≤ 6 %', sources: ['common-practice'],
    why: 'A vehicle heavy on one side pulls when braking and leans.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: 'Left carries {left}, right {right}.', broken: 'Left carries {left} and right {right}: {value} of the mass apart.', unknown: 'The loads of the two sides are not known.' },
    whatToDo: 'Move a heavy part across; weigh the wheels one by one when it is done.',
  },
  {
    code: 'mass.centre-height', topic: 'mass', title: 'The centre of gravity is hardly higher than before',
    formula: 'Σ m·z / Σ m after, load included ≤ 1.05 × before', sources: ['jazar-vehicle-dynamics', 'common-practice'],
    why: 'A higher centre of gravity rolls over sooner and moves more load to the front when braking.',
    whenBroken: 'watch', nearMargin: 0,
    wording: { holds: 'The centre of gravity is {value} above the ground; it was {before}.', broken: 'The centre of gravity has risen from {before} to {value} above the ground, more than 5 %.', unknown: 'The height of the centre of gravity is not known.' },
    whatToDo: 'Put the heavy parts lower; a battery belongs under the floor before it belongs on it.',
  },
];
