/**
 * What the functions that read one build file share while they read it.
 */
import type { Quantity } from '../quantity/quantity.ts';
import type { Catalogue } from '../part/catalogue.ts';
import type { NameField } from '../part/field.ts';
import type { Place } from './place.ts';
import type { Report } from './report-problem.ts';
import type { EntriesRead, SectionsRead } from './entry-memory.ts';

export interface Reading {
  readonly report: Report;
  readonly catalogue: Catalogue;
  readonly places: Map<string, Place>;
  readonly quantities: Map<string, Quantity>;
  /** every name that a section gives, whether or not its entry could be read */
  readonly names: Readonly<Record<Exclude<NameField['of'], 'ports'>, ReadonlySet<string>>>;
  /** the nearest of some names to a word */
  readonly nearest: (word: string, names: ReadonlySet<string> | readonly string[]) => string | undefined;
  /** quantities that could be read, by what was asked for, the path and the text; kept from text to text */
  readonly quantitiesRead?: Map<string, Quantity>;
  /** entries and sections of the last text, and those of this one for the next */
  readonly entries?: { readonly before: EntriesRead; readonly now: EntriesRead; readonly sectionsBefore: SectionsRead; readonly sectionsNow: SectionsRead; /** all names in one string */ readonly names: string };
  /** `Part.port` values, checked when the ports of all parts are known */
  readonly portReferences: PortReference[];
}

export interface PortReference {
  readonly text: string; readonly path: string; readonly place: Place;
  /** takes the value out of the model again */
  readonly drop: () => void;
}
