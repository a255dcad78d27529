import { describe, expect, it } from 'vitest';
import { kinds } from '../../core/kinds/all.ts';
import { kindSymbols, ratingWords, symbolOf } from './kind-symbols.ts';

describe('symbols of the part kinds', () => {
  it('has a row for every kind, and for nothing else', () => {
    expect(Object.keys(kindSymbols).sort()).toEqual([...kinds.keys()].sort());
  });

  it('names only fields that the kind has, each with its word', () => {
    for (const [kind, { rating }] of Object.entries(kindSymbols)) {
      for (const field of rating) {
        expect(Object.keys(kinds.get(kind)!.fields), `${kind}.${field}`).toContain(field);
        expect(ratingWords[field], field).toBeDefined();
      }
    }
  });

  it('gives a kind without a row a plain box', () => {
    expect(symbolOf('something_new')).toEqual({ symbol: 'none', rating: [] });
  });
});
