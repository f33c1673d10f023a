import { describe, expect, it } from 'vitest';
import { withoutLevels } from '../../../src/gather/dialects/draft/kinds/levels.js';
import { kindsOf, rounds } from './support/kinds.js';

describe('the word for how much a line matters', () => {
  it('is taken out of its column, whatever the program calls its details', () => {
    // Common practice, no source: a part of the program, a stroke, a level. `fin` is fine here, and no end.
    const kinds = withoutLevels(
      kindsOf(
        rounds(8, 300, (from) => [
          [from, `suivi/info décale de 2 px`],
          [from + 4, `tiroir/fin compte ${300 + from} étoiles`],
          [from + 9, `suivi/alerte étoile disparue`],
        ]),
      ),
    );
    const wordings = kinds.map(({ wording }) => wording);
    expect(wordings.some((wording) => /info|fin|alerte/.test(wording))).toBe(false);
    expect(kinds.filter(({ isDetail }) => isDetail === true).map(({ wording }) => wording)).toEqual([
      expect.stringContaining('compte'),
    ]);
  });

  it('is a letter where most lines have the one for information', () => {
    const kinds = withoutLevels(
      kindsOf(
        rounds(8, 300, (from) => [
          [from, 'I shutter open'],
          [from + 200, 'I shutter closed'],
          [from + 210, 'W wheel slow'],
        ]),
      ),
    );
    expect(kinds.map(({ wording }) => wording).sort()).toEqual(['shutter closed', 'shutter open', 'wheel slow']);
  });

  it("may be the program's own, and stands on no heading", () => {
    const kinds = withoutLevels(
      kindsOf([
        [0, 'saturday night'],
        ...rounds(12, 300, (from) => [
          [from, 'note <camera> frame begins'],
          [from + 20, 'crumbs <camera> still well'],
          [from + 30, 'crumbs <sky> wind mild'],
          [from + 200, 'note <camera> frame ends'],
          [from + 210, 'warning <sky> gusts'],
        ]),
        [3000, 'plan: more of it'],
        [3001, 'hosts: none'],
      ]),
    );
    expect(kinds.map(({ wording }) => wording.trim()).sort()).toEqual([
      '<camera> frame begins',
      '<camera> frame ends',
      '<camera> still well',
      '<sky> gusts',
      '<sky> wind mild',
      'hosts: none',
      'plan: more of it',
      'saturday night',
    ]);
  });

  it('is no second half of a name that stands in its column', () => {
    const kinds = withoutLevels(
      kindsOf(
        rounds(8, 300, (from) => [
          [from, 'hut camd-heron info opens'],
          [from + 200, 'hut guided info calm'],
          [from + 210, 'hut guided warning rough'],
        ]),
      ),
    );
    expect(kinds.map(({ wording }) => wording.replaceAll(/\s+/g, ' ')).sort()).toEqual([
      'hut camd-heron info opens',
      'hut guided calm',
      'hut guided rough',
    ]);
  });

  it('is not part of the message', () => {
    const kinds = kindsOf(
      rounds(8, 300, (from) => [
        [from, 'B shutter'],
        [from + 200, 'E shutter'],
        [from + 210, 'fin de la pose'],
      ]),
    );
    expect(withoutLevels(kinds)).toEqual(kinds);
  });
});
