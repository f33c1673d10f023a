import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { viewContext } from '../../../src/report/html/view/context.js';
import { timelinesView } from '../../../src/report/html/view/timeline.js';
import { ACTIVITY_KINDS } from '../../../src/vocabulary/index.js';
import { namedNight, NIGHT_NAMES } from '../../support/nights.js';

const STYLES = new URL('../../../templates/styles/pictures.css', import.meta.url);

describe.each(NIGHT_NAMES)('the key below the timeline of %s', (name) => {
  const { overview, key } = timelinesView(viewContext(namedNight(name)));
  const marks = key.flatMap(({ mark }) => mark ?? []);

  it('names what the mount and the guiding are drawn to do, and nothing else of them', () => {
    const { mount, guiding } = overview.shared;
    expect(marks.includes('move')).toBe(mount.some(({ kind }) => kind === 'dither-move'));
    expect(marks.includes('settle')).toBe(mount.some(({ kind }) => kind === 'settling'));
    expect(marks.includes('guiding')).toBe(guiding.some(({ harm }) => !harm));
    expect(marks.includes('off')).toBe(guiding.some(({ harm }) => harm));
  });
});

it('draws the lanes of mount and guiding by kinds of activity that exist', () => {
  const rules = readFileSync(STYLES, 'utf8').matchAll(/\.(?:mount|guide) \.([a-z-]+) (?:rect|line)/g);
  const kinds = [...rules].flatMap(([, kind = '']) => (kind === 'harm' ? [] : [kind]));
  expect(kinds.length).toBeGreaterThan(3);
  expect(ACTIVITY_KINDS).toEqual(expect.arrayContaining(kinds));
});
