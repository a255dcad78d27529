/**
 * A low-voltage fuse in its holder: plug-in blade or bolted strip. High-voltage fuses are a kind of their own.
 */
import { choice, flag, fromHandbook, optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';

export const fuse = defineKind({
  kind: 'fuse',
  title: 'Low-voltage fuse',
  family: 'low_voltage',
  meaning: 'a fuse of the 12 V or 24 V side with its holder',
  fields: {
    rating: required('current', 'current printed on it', { isLimit: true, example: '15 A label', minimum: 0, aboveMinimum: true, maximum: 500 }),
    style: choice(['mini', 'blade', 'maxi', 'midi', 'mega'], 'body; decides how long it takes to open', {
      explain: {
        mini: 'small plug-in blade (ISO 8820-3 type F)', blade: 'ordinary plug-in blade (ISO 8820-3 type C)',
        maxi: 'large plug-in blade (ISO 8820-3 type E)', midi: 'bolted strip, M5 (ISO 8820-5 SF30)', mega: 'bolted strip, M8 (ISO 8820-5 SF51)',
      },
    }),
    voltage_rating: fromHandbook('voltage', 'fuse.voltage_rating', 'highest voltage at which it clears', { isLimit: true, example: '32 V label', minimum: 0, aboveMinimum: true }),
    breaking_capacity: fromHandbook('current', 'fuse.breaking_capacity', 'highest current that it clears at its voltage rating', { isLimit: true, example: '1000 A datasheet', minimum: 0, aboveMinimum: true }),
    voltage_drop: fromHandbook('voltage', 'fuse.voltage_drop', 'voltage across it at its rating', { example: '100 mV datasheet', minimum: 0, aboveMinimum: true, maximum: 1 }),
    resistance: optional('resistance', 'resistance with its holder, when known; used instead of the voltage drop', { example: '7 mΩ', minimum: 0, aboveMinimum: true }),
    melting_energy: optional('heating_integral', 'melting I²t of the element', { example: '350 A²s datasheet', minimum: 0, aboveMinimum: true }),
    ambient: optional('temperature', 'air around it, when it sits hotter than the rest (motor bay, on the inverter)', { example: '60 °C', minimum: 200, maximum: 450 }),
  },
  settings: { pulled: flag('the fuse is out of its holder') },
  ports: () => [
    { name: 'a', carries: 'low_voltage', meaning: 'side towards the source', holds: 2 },
    { name: 'b', carries: 'low_voltage', meaning: 'side towards the consumers', holds: 2 },
  ],
  wire: ({ fields, settings }, wiring) => {
    const resistance = fields.resistance ?? fields.voltage_drop / fields.rating;
    wiring.switch('link', wiring.port('a'), wiring.port('b'), settings.pulled !== true, resistance);
  },
  roles: ({ fields }) => ({
    protection: [{
      element: 'link', a: 'a', b: 'b', style: 'blade', form: fields.style, rating: fields.rating,
      voltageRating: fields.voltage_rating, breakingCapacity: fields.breaking_capacity, minimumBreaking: undefined,
      timeConstantRating: undefined, meltingEnergy: fields.melting_energy, clearingEnergy: undefined, ambient: fields.ambient,
    }],
  }),
  failures: [
    { code: 'blown', meaning: 'the element has melted', likelihood: 10, changes: () => [{ element: 'link', becomes: 'open' }] },
    { code: 'loose_in_holder', meaning: 'the holder has lost its grip: hot, discoloured, drops voltage', likelihood: 3, changes: () => [{ element: 'link', becomes: 'resistive', resistance: 0.1 }] },
    { code: 'bridged', meaning: 'somebody put wire or foil in its place: nothing protects the wire any more', likelihood: 1, changes: () => [{ element: 'link', becomes: 'shorted', resistance: 0.001 }] },
  ],
  observables: [
    { name: 'element parted', sense: 'see', meaning: 'seen through the body: it has blown' },
    { name: 'discoloured holder', sense: 'see', meaning: 'a bad contact has been hot' },
    { name: 'voltage across it', sense: 'read', meaning: 'some tens of millivolts under load; the full supply voltage when blown' },
  ],
});
