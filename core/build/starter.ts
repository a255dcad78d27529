/** The commented starter file of `halfshaft new`. It is a whole, small build that reads without a problem; a test holds it to that. */
export function starterText(name: string, units: 'metric' | 'imperial'): string {
  const quoted = JSON.stringify(name);
  const text = STARTER.replace('"NAME"', quoted).replace('UNITS', units);
  return units === 'metric' ? text : imperial.reduce((so, [metric, here]) => so.replaceAll(metric, here), text);
}

/** The same starter in the units of an imperial workshop; cables keep their metric cross-section where they are sold so. */
const imperial: readonly (readonly [string, string])[] = [
  ['2.5 m estimate', '98 in estimate'], ['1.4 m estimate', '55 in estimate'],
  ['600 kg', '1320 lb'], ['500 kg', '1100 lb'], ['130 kg', '287 lb'], ['12 kg', '26.5 lb'],
  ['[-100, 0, 500 mm]', '[-4, 0, 19 3/4 in]'], ['385 x 150 x 110 mm', '15.2 x 5.9 x 4.3 in'], ['[1000, -200, 350 mm]', '[39.4, -7.9, 13.8 in]'], ['[1000, 0, 350 mm]', '[39.4, 0, 13.8 in]'],
  ['conductor_area: 50 mm²', 'conductor_area: 1/0 AWG'], ['outside_diameter: 17 mm', 'outside_diameter: 0.67 in'],
];

/** A build file with nothing in it but its head, for a start step by step. Same units and cautions as the starter. */
export function headText(name: string, units: 'metric' | 'imperial'): string {
  return HEAD.replace('"NAME"', JSON.stringify(name)).replace('UNITS', units).trimEnd() + '\n';
}

const HEAD = `# A Halfshaft build file. One file describes the car; every number on every sheet comes from it.
# Numbers are written as people write them: 31.5 kg ±0.5 measured, 3/8 in, 350 A label, 0.8..1.2 mF, 62 °C.
# Behind a number may stand how sure it is (±) and where it came from: measured, label, datasheet, drawing,
# handbook or estimate. A number without a word counts as an estimate.
#
# High voltage kills. What is computed from this file proves nothing about the car in front of you: only a meter
# does, tried on a known source before and after. Local codes, licensed people and inspection decide.
halfshaft: 1
name: "NAME"
units: UNITS

`;

const STARTER = `${HEAD}# The vehicle before the work, complete, as weighed. x points rearward, y to the right, z up;
# the origin is the front axle line, middle of the track, on the ground.
vehicle:
  wheelbase: 2.5 m estimate
  front_track: 1.4 m estimate
  rear_track: 1.4 m estimate
  front_axle_load: 600 kg estimate
  rear_axle_load: 500 kg estimate

# What comes out. One entry a thing.
removed:
  engine: { mass: 130 kg estimate, at: [-100, 0, 500 mm] }

# The cells that the modules are made of.
cells:
  reclaimed: { chemistry: nmc, capacity: 60 Ah estimate, resistance: 1 mΩ estimate }

# What runs are cut from.
stock:
  hv50: { kind: cable, conductor_area: 50 mm², insulation: silicone_180, outside_diameter: 17 mm, voltage_rating: 1000 V label, colour: orange, screened: yes }

# Everything with ports. halfshaft points lists the ports; docs/build-file.md lists the kinds and what they may say.
parts:
  M1: { kind: battery_module, cell: reclaimed, series: 12, mass: 12 kg estimate, size: 385 x 150 x 110 mm, at: [1000, -200, 350 mm] }
  M2: { kind: battery_module, cell: reclaimed, series: 12, mass: 12 kg estimate, size: 385 x 150 x 110 mm, at: [1000, 0, 350 mm] }

# What joins two ports. Give a length, or places to both parts and it is computed along the way.
runs:
  W1: { from: M1.pos, to: M2.neg, stock: hv50 }

# What the car is asked to be. Each mode sets what it asks of the parts.
modes:
  off: { meaning: nothing is switched on }
`;
