import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

const stamp = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20, 0, seconds)).toISOString();

/** Eight exposures with a dither after every second one, as a program writes them that goes from state to state. */
function night(line: (at: string, device: string, left: string, entered: string, rest?: string) => string): string[] {
  return Array.from({ length: 8 }, (_, i) => {
    const at = (after: number): string => stamp(i * 200 + after);
    const frame = [
      line(at(0), 'camera', i % 2 === 0 && i > 0 ? 'lurking' : 'idle', 'exposing', `180 s Ha #${i + 1}`),
      line(at(180), 'camera', 'exposing', 'reading'),
      line(at(182), 'camera', 'reading', 'idle', `heron_${i + 1}.fits`),
    ];
    return i % 2 === 0
      ? frame
      : [
          ...frame,
          line(at(183), 'camera', 'idle', 'lurking'),
          line(at(184), 'guider', i === 1 ? 'off' : 'locked', 'hopping', '2.4 px'),
          line(at(187), 'guider', 'hopping', 'calming'),
          line(at(199), 'guider', 'calming', 'locked'),
        ];
  }).flat();
}

const counted = (yaml: ReturnType<typeof drafted>): Record<string, string> =>
  Object.fromEntries(
    yaml.report.rules.map(({ events, examples }) => [
      (examples[0] ?? '').replace(/\s+/g, ' '),
      events.map(({ event }) => event).join(' '),
    ]),
  );

describe('a log of devices that go from state to state', () => {
  it('tells on each line what ends and what begins, whatever the states are called', () => {
    const draft = drafted(
      night((at, device, left, entered, rest = '') => `${at}  ${device}  ${left} -> ${entered}  ${rest}`.trim()),
    );
    const rules = counted(draft);
    expect(rules['camera exposing -> reading']).toBe('exposure-end');
    expect(rules['camera reading -> idle heron_1.fits']).toBe('frame-saved');
    // Dithers begin while the camera is in it.
    expect(rules['camera idle -> lurking']).toBe('dither-ready');
    expect(rules['guider hopping -> calming']).toBe('dither-end settling-begin');
    expect(rules['guider calming -> locked']).toBe('settling-end');
    // The guider had been off until then.
    expect(rules['guider off -> hopping 2.4 px']).toBe('guiding-begin dither-begin');
    expect(Object.values(rules).filter((events) => events === 'exposure-begin')).toHaveLength(2);
  });

  it('is none where no line goes on from the one before', () => {
    const draft = drafted(
      Array.from({ length: 30 }, (_, i) => `${stamp(i * 60)}  camera  mode ${['a', 'b', 'c'][i % 3]} -> mode z`),
    );
    expect(draft.report.rules).toEqual([]);
  });
});
