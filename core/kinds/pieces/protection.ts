/**
 * What the sheet of a fuse for high-voltage direct current says beyond its rating. All of it is optional: what is not
 * there stays unknown, and the checks that need it say so.
 */
import type { RealisedFields } from '../../part/field.ts';
import type { ProtectionRole } from '../../part/role.ts';
import { optional } from '../../part/field.ts';

export const fuseSheetFields = {
  breaking_capacity: optional('current', 'highest short-circuit current the fuse can break at its rated direct voltage', { isLimit: true, example: '20 kA datasheet', minimum: 0, aboveMinimum: true }),
  minimum_breaking: optional('current', 'lowest current a partial-range fuse can break', { isLimit: true, example: '900 A datasheet', minimum: 0, aboveMinimum: true }),
  time_constant_rating: optional('time', 'longest L/R of the circuit for which the voltage rating holds', { isLimit: true, example: '2 ms datasheet', minimum: 0, maximum: 1, aboveMinimum: true }),
  melting_energy: optional('heating_integral', 'I²t until the element melts (pre-arcing)', { example: '20 kA²s datasheet', minimum: 0, aboveMinimum: true }),
  clearing_energy: optional('heating_integral', 'I²t until the current is zero, at its rated direct voltage (total)', { example: '60 kA²s datasheet', minimum: 0, aboveMinimum: true }),
  ambient: optional('temperature', 'air around the fuse in its box', { example: '60 °C', minimum: 200, maximum: 500 }),
} as const;

type FuseSheetValues = RealisedFields<typeof fuseSheetFields>;

export const fuseRole = (fields: FuseSheetValues, own: Pick<ProtectionRole, 'element' | 'a' | 'b' | 'style' | 'rating' | 'voltageRating'>): ProtectionRole => ({
  ...own,
  breakingCapacity: fields.breaking_capacity, minimumBreaking: fields.minimum_breaking, timeConstantRating: fields.time_constant_rating,
  meltingEnergy: fields.melting_energy, clearingEnergy: fields.clearing_energy, ambient: fields.ambient,
});
