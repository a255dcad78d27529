/**
 * JSON Schema (draft 2020-12) of the build file, for editors that complete and check while the builder types.
 * Made from the descriptors that the reader uses. It cannot say everything the reader knows: units, ranges with a unit,
 * names and ports of other entries are checked by the reader only.
 */
import type { Field, Fields } from '../part/field.ts';
import { bases } from '../quantity/basis.ts';
import { quantities } from '../quantity/quantity-table.ts';
import { nameRule } from './name-rule.ts';
import type { Words } from './read-build.ts';
import { partFields } from './read-parts.ts';
import { commonFieldsBeside } from './read-runs.ts';
import { cellFields, conditionFields, fileFields, modeFields, removedFields, sectionMeanings, vehicleFields } from './sections.ts';

export interface Schema { readonly [keyword: string]: unknown }

/** @returns the schema as plain data, the same for the same words */
export function buildSchema(words: Words): Schema {
  const kinds = [...words.kinds.values()];
  const runKinds = [...words.runKinds.values()];
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'Halfshaft build file',
    type: 'object',
    required: requiredOf(fileFields),
    additionalProperties: false,
    properties: {
      ...propertiesOf(fileFields),
      vehicle: { description: sectionMeanings.vehicle, ...objectOf(vehicleFields) },
      conditions: { description: sectionMeanings.conditions, ...objectOf(conditionFields) },
      removed: named(sectionMeanings.removed, objectOf(removedFields)),
      cells: named(sectionMeanings.cells, objectOf(cellFields)),
      stock: named(sectionMeanings.stock, byKind(runKinds.map(({ kind, title, meaning }) => ({ kind, title, meaning, definition: `stock_${kind}` })))),
      parts: named(sectionMeanings.parts, byKind(kinds.map(({ kind, title, meaning }) => ({ kind, title, meaning, definition: `part_${kind}` })))),
      runs: named(sectionMeanings.runs, runSchema(words)),
      modes: named(sectionMeanings.modes, modeSchema(words)),
    },
    $defs: Object.fromEntries([
      ...kinds.map((kind) => [`part_${kind.kind}`, objectOf(partFields(kind.fields), { kind: { const: kind.kind } })]),
      ...runKinds.map((kind) => [`stock_${kind.kind}`, objectOf(kind.fields, { kind: { const: kind.kind } })]),
      ...runKinds.map((kind) => [`run_${kind.kind}`, objectOf({ ...commonFieldsBeside(kind), ...kind.fields }, { kind: { const: kind.kind } })]),
    ]),
  };
}

function named(description: string, entry: Schema): Schema {
  return { description, type: ['object', 'null'], propertyNames: { pattern: nameRule.source }, additionalProperties: entry };
}

function byKind(kinds: readonly { kind: string; title: string; meaning: string; definition: string }[]): Schema {
  return {
    type: 'object', required: ['kind'],
    properties: { kind: { oneOf: kinds.map(({ kind, title, meaning }) => ({ const: kind, title, description: meaning })) } },
    allOf: kinds.map(({ kind, definition }) => ({ if: { required: ['kind'], properties: { kind: { const: kind } } }, then: { $ref: `#/$defs/${definition}` } })),
  };
}

/** A run has the fields of all runs, and those of its kind: any of them over its stock, or all that are required without one. */
function runSchema({ runKinds }: Words): Schema {
  const kinds = [...runKinds.values()];
  return {
    type: 'object', required: ['from', 'to'], anyOf: [{ required: ['stock'] }, { required: ['kind'] }],
    properties: { ...propertiesOf(commonFieldsBeside(undefined)), ...unionOf(kinds.map((kind) => kind.fields)), kind: { enum: kinds.map((kind) => kind.kind) } },
    additionalProperties: false,
    allOf: kinds.map(({ kind }) => ({ if: { required: ['kind'], not: { required: ['stock'] }, properties: { kind: { const: kind } } }, then: { $ref: `#/$defs/run_${kind}` } })),
  };
}

/** Which settings a part has depends on its kind, which a schema cannot look up; so any setting of any kind is let through. */
function modeSchema({ kinds }: Words): Schema {
  const settings: Schema = { type: 'object', additionalProperties: false, properties: unionOf([...kinds.values()].map((kind) => kind.settings)) };
  return objectOf(modeFields, { set: { description: 'settings by part', type: 'object', propertyNames: { pattern: nameRule.source }, additionalProperties: settings } });
}

function objectOf(fields: Fields, besides: Schema = {}): Schema {
  return { type: 'object', additionalProperties: false, required: requiredOf(fields), properties: { ...besides, ...propertiesOf(fields) } };
}

function requiredOf(fields: Fields): readonly string[] {
  return Object.entries(fields).filter(([, field]) => field.need === 'required').map(([name]) => name);
}

function propertiesOf(fields: Fields): Record<string, Schema> {
  return Object.fromEntries(Object.entries(fields).map(([name, field]) => [name, schemaOf(field)]));
}

/** One property for each name; where several describe a name differently, any of them will do. */
function unionOf(groups: readonly Fields[]): Record<string, Schema> {
  const found = new Map<string, Map<string, Schema>>();
  for (const group of groups) {
    for (const [name, field] of Object.entries(group)) {
      const schema = schemaOf(field);
      found.set(name, (found.get(name) ?? new Map<string, Schema>()).set(JSON.stringify(schema), schema));
    }
  }
  return Object.fromEntries([...found].map(([name, schemas]) => [name, schemas.size === 1 ? [...schemas.values()][0] as Schema : { anyOf: [...schemas.values()] }]));
}

function schemaOf(field: Field): Schema {
  const description = field.meaning;
  switch (field.type) {
    case 'quantity': return { description: `${description} [${quantities[field.quantity].si}]; number, unit, tolerance, basis (${Object.keys(bases).join(', ')})`, type: ['string', 'number'], examples: [field.example] };
    case 'choice': return { description, oneOf: field.choices.map((each) => ({ const: each, ...(field.explain?.[each] === undefined ? {} : { description: field.explain[each] }) })), ...(field.fallback === undefined ? {} : { default: field.fallback }) };
    case 'flag': return { description, enum: ['yes', 'no', true, false], default: 'no' };
    case 'count': return { description, type: 'integer', minimum: field.minimum, maximum: field.maximum, examples: [Number(field.example)] };
    // A text that looks like a number or a truth value is still text to the reader.
    case 'text': return { description, type: ['string', 'number', 'boolean'], examples: [field.example] };
    case 'name': return { description, type: ['string', 'number'], examples: [field.example], ...(field.of === 'ports' ? { pattern: '^[^.]+\\..+$' } : {}) };
    case 'position': return { description: `${description}; x rearward, y right, z up`, type: 'array', items: { type: ['string', 'number'] }, minItems: 3, maxItems: 3, examples: [[980, -310, '340 mm']] };
    case 'size': return { description: `${description}; along x, y and z`, type: 'string', pattern: '^[^x×]+[x×][^x×]+[x×][^x×]+$', examples: ['385 x 150 x 110 mm'] };
    case 'list': return { description, type: 'array', items: schemaOf(field.of) };
    case 'map': return { description, type: 'object', propertyNames: { pattern: nameRule.source }, additionalProperties: schemaOf(field.of) };
    case 'group': return { description, ...objectOf(field.fields) };
  }
}
