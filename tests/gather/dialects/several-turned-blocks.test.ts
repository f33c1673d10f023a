import { describe, expect, it } from 'vitest';
import { sheetRows } from '../../../src/gather/dialects/sheet/sheet-rows.js';

const SHEET = [
  'night of 2026-09-16; each column is one thing',
  '',
  'exposures 1 to 3',
  'train,heron,heron,wren',
  'began,2026-09-16T21:04:03Z,2026-09-16T21:09:10Z,2026-09-16T21:09:11Z',
  'planned,300,300,240',
  '',
  'exposures 14 to 15',
  'train,wren,heron',
  'began,2026-09-16T21:14:03Z,2026-09-16T21:14:10Z',
  'planned,240,300',
  '',
  'dithers (1-2)',
  'began,2026-09-16T21:09:04Z,2026-09-16T21:13:04Z',
  'ended,2026-09-16T21:09:06Z,2026-09-16T21:13:07Z',
  'pixels,2.1,3.4',
];

describe('blocks that lie on their side', () => {
  it('become a table for each sort, called by the text above them without the numbers of their columns', () => {
    expect(
      sheetRows(SHEET)
        ?.filter((line) => line !== '')
        .slice(1),
    ).toEqual([
      'exposures',
      'train\tbegan\tplanned',
      'heron\t2026-09-16T21:04:03Z\t300',
      'heron\t2026-09-16T21:09:10Z\t300',
      'wren\t2026-09-16T21:09:11Z\t240',
      'wren\t2026-09-16T21:14:03Z\t240',
      'heron\t2026-09-16T21:14:10Z\t300',
      'dithers',
      'began\tended\tpixels',
      '2026-09-16T21:09:04Z\t2026-09-16T21:09:06Z\t2.1',
      '2026-09-16T21:13:04Z\t2026-09-16T21:13:07Z\t3.4',
    ]);
  });

  it('are none without another of their sort', () => {
    expect(sheetRows(SHEET.slice(0, 6))).toBeNull();
  });
});
