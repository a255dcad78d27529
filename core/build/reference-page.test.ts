import { describe, expect, it } from 'vitest';
import { smallWords } from '../../checks/fixtures/small-words.ts';
import { defineKind } from '../part/kind.ts';
import { required } from '../part/field.ts';
import { bases } from '../quantity/basis.ts';
import { quantities } from '../quantity/quantity-table.ts';
import { referencePage } from './reference-page.ts';
import { sectionMeanings } from './sections.ts';

const page = referencePage(smallWords);

describe('the reference page of the build file', () => {
  it('has every section, kind, field, setting, port and failure of the words', () => {
    for (const section of Object.keys(sectionMeanings)) expect(page).toContain(`## \`${section}\``);
    for (const kind of smallWords.kinds.values()) {
      const text = page.slice(page.indexOf(`### \`${kind.kind}\``)).split('\n### ')[0];
      for (const name of [...Object.keys(kind.fields), ...Object.keys(kind.settings), ...kind.ports({} as never).map((port) => port.name), ...kind.failures.map((failure) => failure.code)]) expect(text, kind.kind).toContain(`\`${name}\``);
    }
    for (const kind of smallWords.runKinds.values()) for (const name of Object.keys(kind.fields)) expect(page).toContain(`\`${name}\``);
  });

  it('has every basis with its tolerance and every quantity with its meaning', () => {
    for (const basis of Object.keys(bases)) expect(page).toContain(`| \`${basis}\` | ±`);
    expect(page).toContain('| `measured` | ±2 % | ±2 K | ±5 mm |');
    for (const { meaning } of Object.values(quantities)) expect(page).toContain(meaning);
  });

  it('says of each field whether it is needed, its range and what the handbook would fill in', () => {
    expect(page).toContain('| `peak_power` | yes | power, > 0 | `80 kW label` | most it can take |');
    expect(page).toContain('| `leakage` | else handbook: 20 MΩ (1..100 MΩ) |');
    expect(page).toContain('| `cooling` | else `air` | `air`, `liquid` |');
    expect(page).toContain('| `bar.width` | yes |');
    expect(page).toMatch(/\| `maximum_voltage` \| else handbook, by `chemistry`: nmc 4\.2.*, lfp 3\.6/);
  });

  it('shows the ports that follow from fields with those of the examples', () => {
    const junction = page.slice(page.indexOf('### `junction`'));
    expect(junction).toContain('which follow from the fields');
    expect(junction).toContain('| `s4` | high voltage | 1 |');
  });

  it('has tables whose rows all have as many cells as their head', () => {
    let width: number | undefined;
    for (const line of page.split('\n')) {
      const cells = line.startsWith('|') ? line.replaceAll('\\|', '').split('|').length : undefined;
      if (width !== undefined && cells !== undefined) expect(cells, line).toBe(width);
      width = cells;
    }
  });

  it('has links that lead to a heading', () => {
    const anchors = new Set([...page.matchAll(/^#+ (.*)$/gm)].map(([, heading]) => (heading ?? '').toLowerCase().replace(/[^\w\s-]/g, '').trim().replaceAll(' ', '-')));
    const links = [...page.matchAll(/\]\(#([^)]+)\)/g)].map(([, link]) => link ?? '');
    expect(links.length).toBeGreaterThan(smallWords.kinds.size);
    for (const link of links) expect(anchors).toContain(link);
  });

  it('is not made when the example of a field is not what the field expects', () => {
    const broken = defineKind({ kind: 'x', title: 'X', family: 'mechanical', meaning: 'x', fields: { mass: required('mass', 'weight', { example: '35 mm' }) }, settings: {}, ports: () => [], wire: () => undefined, roles: () => ({}), failures: [], observables: [] });
    expect(() => referencePage({ ...smallWords, kinds: new Map([['x', broken]]) })).toThrow('35 mm');
  });
});
