import { describe, expect, it } from 'vitest';
import { ACCOUNT_TABLE, ACCOUNTS, FILTER_NAMES, filterRow, type Account } from '../../../src/model/index.js';
import { accountArea } from '../../../src/report/design/area.js';
import { contrast } from '../../../src/report/design/contrast.js';
import { colour, tokens, type Theme } from '../../../src/report/design/tokens.js';
import { DEFICIENCIES, difference } from '../../support/colour-vision.js';

const COLOURED = FILTER_NAMES.flatMap((name) => filterRow(name).colour ?? []);

const SIGHTS = [undefined, 'protanopia', 'deuteranopia', 'tritanopia'] as const;
const THEMES_IN_COLOUR: readonly Theme[] = ['light', 'dark', 'print'];

function pairs<T>(items: readonly T[]): [T, T][] {
  return items.flatMap((a, index) => items.slice(index + 1).map((b): [T, T] => [a, b]));
}

describe('the simulation', () => {
  it('leaves white and black as they are', () => {
    for (const sight of SIGHTS) {
      expect(difference('#ffffff', '#000000', sight)).toBeCloseTo(100, 0);
    }
  });

  it('makes a red and a green of one lightness meet for a deuteranope only', () => {
    expect(difference('#b0503c', '#777a2e', 'deuteranopia')).toBeLessThan(5);
    expect(difference('#b0503c', '#777a2e')).toBeGreaterThan(12);
    expect(Object.keys(DEFICIENCIES)).toHaveLength(3);
  });
});

describe('filter colours', () => {
  for (const theme of THEMES_IN_COLOUR) {
    for (const sight of SIGHTS) {
      const seen = sight ?? 'common sight';
      it(`keeps filters that follow each other on a train far apart: ${theme}, ${seen}`, () => {
        for (const set of [
          ['l', 'r', 'g', 'b'],
          ['ha', 'oiii', 'sii'],
        ]) {
          for (const [a, b] of pairs(set))
            expect(
              difference(colour(`filter-${a}`, theme), colour(`filter-${b}`, theme), sight),
              `${a} and ${b}`,
            ).toBeGreaterThan(12);
        }
      });

      it(`keeps any two filters of the trade apart: ${theme}, ${seen}`, () => {
        for (const [a, b] of pairs(COLOURED))
          expect(
            difference(colour(`filter-${a}`, theme), colour(`filter-${b}`, theme), sight),
            `${a} and ${b}`,
          ).toBeGreaterThan(8.5);
      });
    }
  }

  it('tells filters apart by lightness where all is red', () => {
    for (const set of [
      ['l', 'r', 'g', 'b'],
      ['ha', 'oiii', 'sii'],
    ]) {
      for (const [a, b] of pairs(set))
        expect(difference(colour(`filter-${a}`, 'red'), colour(`filter-${b}`, 'red')), `${a} and ${b}`).toBeGreaterThan(
          12,
        );
    }
  });

  it('keeps any two filters of the trade apart where all is red', () => {
    for (const [a, b] of pairs(COLOURED))
      expect(difference(colour(`filter-${a}`, 'red'), colour(`filter-${b}`, 'red')), `${a} and ${b}`).toBeGreaterThan(
        6.5,
      );
  });

  // Eyes that are used to the dark: relative luminance as WCAG 2.2 defines it, of what fills most of a timeline.
  it('keeps what is exposed most dim where all is red', () => {
    const luminance = (name: string): number => 0.05 * contrast(colour(name, 'red'), '#000000') - 0.05;
    expect(luminance('filter-l')).toBeLessThan(0.22);
    for (const name of COLOURED) expect(luminance(`filter-${name}`), name).toBeLessThan(0.57);
  });

  // Two is just visible side by side; accounts lie below their train's frames and are patterned besides.
  it.each(THEMES_IN_COLOUR)('resembles no account in a filter’s colour: %s', (theme) => {
    for (const filter of COLOURED)
      for (const account of ACCOUNTS.filter((one) => !ACCOUNT_TABLE[one].open))
        expect(
          difference(colour(`filter-${filter}`, theme), colour(`account-${account}`, theme)),
          `${filter} and ${account}`,
        ).toBeGreaterThan(4.5);
  });

  it.each(THEMES_IN_COLOUR)('resembles no train in a target’s colour: %s', (theme) => {
    const named = (kind: string): string[] => tokens().names.filter((name) => name.startsWith(kind));
    for (const target of named('target-'))
      for (const train of named('train-'))
        expect(difference(colour(target, theme), colour(train, theme)), `${target} and ${train}`).toBeGreaterThan(3);
  });

  it('has a colour of its own for every filter of the trade that has a natural one', () => {
    expect(new Set(COLOURED).size).toBe(COLOURED.length);
    for (const name of COLOURED) expect(() => colour(`filter-${name}`, 'light')).not.toThrow();
  });
});

describe('account colours', () => {
  it('tells neighbours in the ledger apart by colour or by the way they are laid down', () => {
    const style = (account: Account): string => {
      const area = accountArea(account);
      return `${area.solid}${area.dash}${area.crossed}`;
    };
    for (const theme of ['light', 'dark', 'red', 'print'] as const) {
      for (const sight of SIGHTS) {
        for (let index = 1; index < ACCOUNTS.length; index++) {
          const [a, b] = [ACCOUNTS[index - 1], ACCOUNTS[index]];
          if (a === undefined || b === undefined || style(a) !== style(b)) continue;
          expect(
            difference(colour(`account-${a}`, theme), colour(`account-${b}`, theme), sight),
            `${a} and ${b}, ${theme}, ${sight ?? 'common sight'}`,
          ).toBeGreaterThan(8);
        }
      }
    }
  });
});

describe('train colours', () => {
  it('keeps the first two trains apart for everyone', () => {
    for (const theme of THEMES_IN_COLOUR) {
      for (const sight of SIGHTS)
        expect(
          difference(colour('train-1', theme), colour('train-2', theme), sight),
          `${theme}, ${sight ?? 'common sight'}`,
        ).toBeGreaterThan(8);
    }
  });
});
