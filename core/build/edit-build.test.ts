import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { smallExample, smallWords } from '../../checks/fixtures/small-words.ts';
import { editBuild } from './edit-build.ts';
import type { Edit } from './edit-build.ts';
import { readBuild } from './read-build.ts';

/** Edits, and proves on the way that the inverse restores the text to the byte. */
function edit(text: string, change: Edit): string {
  const result = editBuild(text, change, smallWords);
  if (!result.ok) throw new Error(`refused: ${result.problem.message}`);
  const back = editBuild(result.text, result.inverse, smallWords);
  expect(back).toMatchObject({ ok: true, text });
  return result.text;
}

function refusal(text: string, change: Edit) {
  const result = editBuild(text, change, smallWords);
  if (result.ok) throw new Error(`not refused: ${result.text}`);
  return result.problem;
}

/** Lines that differ, as `- old` and `+ new`. */
function difference(before: string, after: string): string[] {
  const a = before.split('\n');
  const b = after.split('\n');
  let from = 0;
  while (from < a.length && from < b.length && a[from] === b[from]) from++;
  let end = 0;
  while (end < a.length - from && end < b.length - from && a[a.length - 1 - end] === b[b.length - 1 - end]) end++;
  return [...a.slice(from, a.length - end).map((line) => `- ${line}`), ...b.slice(from, b.length - end).map((line) => `+ ${line}`)];
}

const change = (request: Edit, text = smallExample): string[] => difference(text, edit(text, request));

describe('setting a value', () => {
  it('replaces nothing but the value, with comments behind it left alone', () => {
    expect(change({ do: 'set', path: 'parts.INV.peak_power', to: '90 kW label' })).toEqual(['-     peak_power: 80 kW label   # on the plate', '+     peak_power: 90 kW label   # on the plate']);
    expect(change({ do: 'set', path: 'vehicle.front_axle_load', to: '612 kg ±1 measured' })).toEqual(['-   front_axle_load: 610 kg ±3 measured   # driver out', '+   front_axle_load: 612 kg ±1 measured   # driver out']);
  });

  it('works in flow style, also where an entry runs over lines', () => {
    expect(change({ do: 'set', path: 'parts.M1.mass', to: '12.5 kg measured' })).toEqual([
      '-   M1: { kind: block, cell: reclaimed, series: 12, mass: 12.4 kg ±0.1 measured,', '+   M1: { kind: block, cell: reclaimed, series: 12, mass: 12.5 kg measured,',
    ]);
  });

  it('keeps the quotes of a quoted value', () => {
    expect(edit(smallExample, { do: 'set', path: 'parts.M2.mass', to: '12.7 kg' })).toContain('mass: "12.7 kg", size');
    expect(edit(smallExample, { do: 'set', path: 'parts.INV.note', to: "it's on: the left" })).toContain("note: 'it''s on: the left'\n");
  });

  it('quotes a value that YAML would read as something else', () => {
    const noteOf = (to: string, path: string) => { const text = edit(smallExample, { do: 'set', path, to }); return { text, value: readBuild(text, smallWords).parts.get(path.split('.')[1] ?? '')?.fields['note'] }; };
    for (const to of ['a: b', '# no', 'yes', '[1, 2]', '{ a: b }', '- x', 'a #b', '"half', "it's", '*x', '&x', '!x', 'null', '~', 'tab\there', 'two\nlines', 'back\\slash "and" quote', ' spaces ', '%x', '@x', '`x', '|', '>', 'a,b', 'ends:', '—', '\u2028', '\ud800']) {
      for (const path of ['parts.J1.note', 'parts.M1.note', 'parts.INV.note']) expect(noteOf(to, path).value, `${to} at ${path}`).toBe(to);
    }
  });

  it('sets one coordinate of a position and one dimension of a size', () => {
    expect(edit(smallExample, { do: 'set', path: 'parts.M1.at.y', to: '-320' })).toContain('at: [980, -320, 340 mm ±5 measured]');
    expect(edit(smallExample, { do: 'set', path: 'parts.M1.size.x', to: '390' })).toContain('size: 390 x 150 x 110 mm ±2 measured');
    expect(edit(smallExample, { do: 'set', path: 'runs.W2.via.1.z', to: '390 mm' })).toContain('[2100, 310, 390 mm]');
  });

  it('sets a whole position as typed', () => {
    expect(edit(smallExample, { do: 'set', path: 'parts.INV.at', to: '[-210, 0, 510 mm]' })).toContain('    at: [-210, 0, 510 mm]\n');
  });

  it('adds the key where it is absent, with the style around it', () => {
    expect(change({ do: 'set', path: 'parts.J1.mass', to: '2 kg' })).toEqual(['+     mass: 2 kg']);
    expect(edit(smallExample, { do: 'set', path: 'runs.W1.slack', to: '3 %' })).toContain('  W1: { from: M1.pos, to: M2.neg, stock: flat, length: 62 mm, slack: 3 % }\n');
    expect(edit(smallExample, { do: 'set', path: 'modes.ready.set.INV.draw', to: '1 kW' })).toContain('ready: { meaning: everything closed, set: { INV: { draw: 1 kW } } }');
    expect(edit('halfshaft: 1\nname: t', { do: 'set', path: 'conditions.ambient', to: '30 °C' })).toBe('halfshaft: 1\nname: t\nconditions:\n  ambient: 30 °C');
    expect(edit('halfshaft: 1\nname: t\nconditions:   # to do\n', { do: 'set', path: 'conditions.ambient', to: '30 °C' })).toBe('halfshaft: 1\nname: t\nconditions:   # to do\n  ambient: 30 °C\n');
    expect(edit('halfshaft: 1\nname:\n', { do: 'set', path: 'name', to: 'a, b' })).toBe('halfshaft: 1\nname: a, b\n');
    expect(edit('', { do: 'set', path: 'name', to: 'new' })).toBe('name: new\n');
  });

  it('is refused with the problem that the reader would have, unless it is forced', () => {
    expect(refusal(smallExample, { do: 'set', path: 'parts.M1.mass', to: '35 mm' })).toMatchObject({ code: 'wrong_quantity', path: 'parts.M1.mass' });
    expect(refusal(smallExample, { do: 'set', path: 'runs.W1.from', to: 'M1.poss' })).toMatchObject({ code: 'unknown_port', nearest: 'M1.pos' });
    expect(refusal(smallExample, { do: 'set', path: 'parts.M1.mas', to: '35 kg' })).toMatchObject({ code: 'unknown_key', nearest: 'mass' });
    expect(edit(smallExample, { do: 'set', path: 'parts.M1.mass', to: '35 mm', force: true })).toContain('mass: 35 mm,');
  });

  it('is refused where nothing is, and where others share the value', () => {
    expect(refusal(smallExample, { do: 'set', path: 'parts.M9.mass', to: '1 kg' }).path).toBe('parts.M9.mass');
    const shared = 'halfshaft: 1\nname: t\ncells:\n  a: &c { chemistry: nmc, capacity: 60 Ah, resistance: 1 mΩ }\n  b: *c\n';
    expect(refusal(shared, { do: 'set', path: 'cells.a.capacity', to: '50 Ah' }).code).toBe('bad_value');
    expect(refusal(shared, { do: 'set', path: 'cells.b.capacity', to: '50 Ah' }).code).toBe('bad_value');
    expect(refusal(shared, { do: 'remove', path: 'cells.a' }).code).toBe('bad_yaml');
    expect(edit(shared, { do: 'remove', path: 'cells.b' })).not.toContain('*c');
  });

  it('has a reverse in the words of the build that restores the value', () => {
    const result = editBuild(smallExample, { do: 'set', path: 'parts.M2.mass', to: '13 kg' }, smallWords);
    expect(result.ok && result.reverse && editBuild(result.text, result.reverse, smallWords)).toMatchObject({ ok: true, text: smallExample });
  });
});

describe('removing', () => {
  it('takes the line of a value in block style, with the comment on it', () => {
    expect(change({ do: 'remove', path: 'parts.INV.peak_power' })).toEqual(['-     peak_power: 80 kW label   # on the plate']);
  });

  it('takes a value in flow style, first, in the middle and last', () => {
    const cells = (path: string) => edit(smallExample, { do: 'remove', path }).split('\n').find((line) => line.includes('reclaimed: {'));
    expect(cells('cells.reclaimed.chemistry')).toBe('  reclaimed: { capacity: 62 Ah ±3 measured, resistance: 0.95 mΩ ±15 % estimate }');
    expect(cells('cells.reclaimed.capacity')).toBe('  reclaimed: { chemistry: nmc, resistance: 0.95 mΩ ±15 % estimate }');
    expect(cells('cells.reclaimed.resistance')).toBe('  reclaimed: { chemistry: nmc, capacity: 62 Ah ±3 measured }');
  });

  it('takes an item of a list in either style', () => {
    expect(edit(smallExample, { do: 'remove', path: 'parts.VCU.watches.0' })).toContain('watches: [M2]');
    const text = 'halfshaft: 1\nname: t\nmodes:\n  go:\n    needs_in_words:\n      - one   # first\n      - two\n';
    expect(edit(text, { do: 'remove', path: 'modes.go.needs_in_words.0' })).toBe('halfshaft: 1\nname: t\nmodes:\n  go:\n    needs_in_words:\n      - two\n');
    expect(edit(text, { do: 'insert', into: 'modes.go.needs_in_words', value: 'three: 3' })).toBe(`${text}      - "three: 3"\n`);
  });

  it('keeps comments above and between', () => {
    const after = edit(smallExample, { do: 'remove', path: 'parts.INV' });
    expect(after).toContain('  # in front\n  J1:');
    const flow = 'halfshaft: 1\nname: t\nconditions: { ambient: 20 °C, # the air\n  cell_temperature: 20 °C }\n';
    expect(edit(flow, { do: 'remove', path: 'conditions.cell_temperature' })).toContain('# the air');
    expect(edit(flow, { do: 'remove', path: 'conditions.ambient' })).toContain('# the air');
  });

  it('of what is not there is refused', () => {
    expect(refusal(smallExample, { do: 'remove', path: 'parts.M9' }).path).toBe('parts.M9');
  });
});

describe('parts and runs', () => {
  it('are added behind the last one in the style of their siblings', () => {
    expect(change({ do: 'add_part', name: 'J2', kind: 'junction', fields: { studs: '4', at: '[0, 0, 1 m]', bar: { width: '20 mm' }, note: '[sic]' } })).toEqual([
      '+   J2:', '+     kind: junction', '+     studs: 4', '+     at: [0, 0, 1 m]', '+     bar:', '+       width: 20 mm', '+     note: "[sic]"',
    ]);
    expect(change({ do: 'add_run', name: 'W6', from: 'J1.s3', to: 'M2.neg', fields: { stock: 'hv50', via: '[[1, 2, 3 mm]]' } })).toEqual(['+   W6: { from: J1.s3, to: M2.neg, stock: hv50, via: [[1, 2, 3 mm]] }']);
  });

  it('are added to a file that has no such section yet', () => {
    expect(edit('halfshaft: 1\nname: t\n', { do: 'add_part', name: 'J2', kind: 'junction', fields: { studs: '4' } })).toBe('halfshaft: 1\nname: t\nparts:\n  J2:\n    kind: junction\n    studs: 4\n');
    expect(edit('halfshaft: 1\nname: t\nparts: {}\n', { do: 'add_part', name: 'J2', kind: 'junction', fields: {} })).toBe('halfshaft: 1\nname: t\nparts: { J2: { kind: junction } }\n');
    expect(edit('halfshaft: 1\nname: t\nparts:\nruns:\n', { do: 'add_part', name: 'J2', kind: 'junction' })).toBe('halfshaft: 1\nname: t\nparts:\n  J2:\n    kind: junction\nruns:\n');
  });

  it('are refused with a bad name, a taken name, a bad kind or a bad value', () => {
    expect(refusal(smallExample, { do: 'add_part', name: 'J 2', kind: 'junction' }).code).toBe('bad_value');
    expect(refusal(smallExample, { do: 'add_part', name: 'J1', kind: 'junction' }).found).toContain('already');
    expect(refusal(smallExample, { do: 'add_part', name: 'J2', kind: 'junctoin' })).toMatchObject({ code: 'unknown_kind', nearest: 'junction' });
    expect(refusal(smallExample, { do: 'add_run', name: 'W6', from: 'J1.s9', to: 'M2.neg', fields: { stock: 'hv50' } }).code).toBe('unknown_port');
  });

  it('are removed with their runs and settings, or not at all', () => {
    expect(refusal(smallExample, { do: 'remove_part', name: 'INV', withRuns: false }).found).toContain('runs.W3.from'.slice(0, 7));
    const build = readBuild(edit(smallExample, { do: 'remove_part', name: 'INV', withRuns: true }), smallWords);
    expect([...build.parts.keys()]).toEqual(['M1', 'M2', 'J1', 'VCU']);
    expect([...build.runs.keys()]).toEqual(['W1', 'W2']);
    expect(Object.keys(build.modes.get('go')?.set ?? {})).toEqual(['VCU']);
    expect(build.problems.map((problem) => problem.path)).toEqual(['parts.VCU.outputs.run']);
  });

  it('are renamed with every reference to them', () => {
    const after = edit(smallExample, { do: 'rename', section: 'parts', name: 'INV', to: 'drive-1' });
    const build = readBuild(after, smallWords);
    expect(build.problems).toEqual([]);
    expect(after).not.toContain('INV');
    expect(build.runs.get('W3')?.to).toEqual({ part: 'drive-1', port: 'pos' });
    expect(Object.keys(build.modes.get('go')?.set ?? {})).toEqual(['drive-1', 'VCU']);
    expect(build.parts.get('VCU')?.fields['outputs']).toEqual({ run: 'drive-1.enable' });
    for (const [section, name, to] of [['cells', 'reclaimed', 'old'], ['stock', 'hv50', 'hv70'], ['modes', 'ready', 'closed'], ['runs', 'W1', 'bar-1'], ['parts', 'M1', '7']] as const) {
      const text = edit(smallExample, { do: 'rename', section, name, to });
      expect(readBuild(text, smallWords).problems, `${section}.${name}`).toEqual([]);
      const back = editBuild(smallExample, { do: 'rename', section, name, to }, smallWords);
      expect(back.ok && back.reverse && editBuild(back.text, back.reverse, smallWords)).toMatchObject({ text: smallExample });
    }
  });

  it('are not renamed to a name that is taken or is none', () => {
    expect(refusal(smallExample, { do: 'rename', section: 'parts', name: 'M1', to: 'M2' }).found).toContain('M2');
    expect(refusal(smallExample, { do: 'rename', section: 'parts', name: 'M1', to: 'a.b' }).code).toBe('bad_value');
    expect(refusal(smallExample, { do: 'rename', section: 'parts', name: 'M7', to: 'M8' }).code).toBe('bad_value');
  });
});

describe('entries of a mode', () => {
  it('are inserted and removed', () => {
    expect(change({ do: 'insert', into: 'modes.go.needs_in_words', value: 'gear in D' })).toEqual(['-     needs_in_words: ["brake pressed", key turned]', '+     needs_in_words: ["brake pressed", key turned, gear in D]']);
    expect(change({ do: 'insert', into: 'modes', key: 'charge', value: { meaning: 'plugged in', from: ['ready'] } })).toEqual(['+   charge:', '+     meaning: plugged in', '+     from: [ready]']);
    expect(change({ do: 'remove', path: 'modes.go.set.VCU' })).toEqual(['-       VCU: { on: [run] }']);
    expect(change({ do: 'insert', into: 'modes.ready.needs_in_words', value: 'all doors shut' })).toEqual(['-   ready: { meaning: everything closed }', '+   ready: { meaning: everything closed, needs_in_words: [all doors shut] }']);
  });
});

describe('any edit of any text', () => {
  const paths = [...readBuild(smallExample, smallWords).places.keys()];
  const typed = fc.oneof(fc.constantFrom('12 kg', '35 mm', 'M1.pos', 'yes', 'a: b', '[1, 2, 3 mm]', '{ a: 1 }', '', '#', '"', "'", 'two\nlines'), fc.string({ unit: 'grapheme', maxLength: 12 }));
  const anyEdit: fc.Arbitrary<Edit> = fc.oneof(
    fc.record({ do: fc.constant('set' as const), path: fc.constantFrom(...paths), to: typed, force: fc.boolean() }),
    fc.record({ do: fc.constant('remove' as const), path: fc.constantFrom(...paths) }),
    fc.record({ do: fc.constant('insert' as const), into: fc.constantFrom(...paths), key: typed, value: typed, force: fc.constant(true) }),
    fc.record({ do: fc.constant('insert' as const), into: fc.constantFrom(...paths), value: typed, force: fc.constant(true) }),
    fc.record({ do: fc.constant('rename' as const), section: fc.constantFrom('parts' as const, 'runs' as const, 'cells' as const), name: fc.constantFrom('M1', 'INV', 'W2', 'reclaimed'), to: fc.constantFrom('X', 'M2', 'new-name', '7') }),
    fc.record({ do: fc.constant('remove_part' as const), name: fc.constantFrom('M1', 'INV', 'VCU'), withRuns: fc.boolean() }),
    fc.record({ do: fc.constant('add_part' as const), name: fc.constantFrom('N1', 'N2'), kind: fc.constantFrom('junction', 'drive'), fields: fc.dictionary(fc.constantFrom('studs', 'note', 'mass', 'at'), typed) }),
  );
  const pieces = [...smallExample].length;
  /** The example with a few stretches taken out or put in, in either style of line end. */
  const anyText = fc.tuple(fc.array(fc.tuple(fc.nat(pieces), fc.nat(6), fc.constantFrom('', '', '\n', ' ', '# x', ', ', '{', ']', ': ', '"')), { maxLength: 2 }), fc.boolean()).map(([changes, isWindows]) => {
    let text = smallExample;
    for (const [at, length, put] of changes) text = text.slice(0, at) + put + text.slice(at + length);
    return isWindows ? text.replaceAll('\n', '\r\n') : text;
  });

  it('is taken back to the byte by its inverse', () => {
    let made = 0;
    let asked = 0;
    fc.assert(fc.property(anyText, fc.array(anyEdit, { minLength: 1, maxLength: 3 }), (start, edits) => {
      let text = start;
      const inverses: Edit[] = [];
      for (const each of edits) {
        const result = editBuild(text, each, smallWords);
        asked++;
        if (!result.ok) { expect(result.problem.place.line).toBeGreaterThanOrEqual(1); continue; }
        made++;
        inverses.push(result.inverse);
        text = result.text;
      }
      for (const inverse of inverses.reverse()) {
        const result = editBuild(text, inverse, smallWords);
        if (!result.ok) throw new Error(result.problem.message);
        text = result.text;
      }
      expect(text).toBe(start);
    }), { numRuns: 400 });
    // The property says something only when many edits are made.
    expect(made / asked).toBeGreaterThan(0.25);
  }, 60_000);

  it('keeps every comment but the one on a line that goes', () => {
    const comments = (text: string) => text.split('\n').flatMap((line) => /(?:^|\s)(# .*)$/.exec(line)?.[1] ?? []);
    fc.assert(fc.property(anyEdit, (each) => {
      const result = editBuild(smallExample, each, smallWords);
      if (!result.ok) return;
      const kept = new Set(comments(result.text));
      const lost = comments(smallExample).filter((comment) => !kept.has(comment));
      // Whoever replaces a whole group replaces the comments in it.
      const isLoss = each.do === 'remove' || each.do === 'remove_part' || (each.do === 'set' && paths.some((path) => path.startsWith(`${each.path}.`)));
      if (!isLoss) expect(lost, JSON.stringify(each)).toEqual([]);
      const gone = smallExample.split('\n').filter((line) => !result.text.split('\n').includes(line));
      for (const comment of lost) expect(gone.some((line) => line.endsWith(comment)), comment).toBe(true);
    }), { numRuns: 400 });
  }, 60_000);

  it('reads back as what was typed, and changes no other value', () => {
    fc.assert(fc.property(fc.constantFrom('parts.J1.note', 'parts.M1.note', 'parts.INV.note', 'name', 'scenario', 'modes.ready.meaning'), fc.string({ unit: 'binary', maxLength: 20 }).filter((text) => text !== ''), fc.boolean(), (path, to, isWindows) => {
      const start = isWindows ? smallExample.replaceAll('\n', '\r\n') : smallExample;
      const result = editBuild(start, { do: 'set', path, to }, smallWords);
      if (!result.ok) throw new Error(result.problem.message);
      const [before, after] = [readBuild(start, smallWords), readBuild(result.text, smallWords)];
      expect([...after.quantities.values()]).toEqual([...before.quantities.values()]);
      const value = path === 'name' ? after.name : path === 'scenario' ? after.scenario : path.startsWith('modes') ? after.modes.get('ready')?.meaning : after.parts.get(path.split('.')[1] ?? '')?.fields['note'];
      expect(value).toBe(to);
    }), { numRuns: 300 });
  }, 60_000);
});
