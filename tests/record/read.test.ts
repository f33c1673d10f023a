import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nightRecordSchema, readRecord, toRecord } from '../../src/record/index.js';
import { frameProblem } from '../../src/record/read.js';
import { frameOf, sessionOf } from '../support/records.js';
import { sampleNight } from '../support/sample-night.js';
import { runs } from '../support/runs.js';

const frameSchema = nightRecordSchema.shape.frames.element;
const cause = {
  kind: 'guiding-off',
  from: '2026-10-14T20:00:00.000Z',
  to: '2026-10-14T20:01:00.000Z',
  overlapSeconds: 60,
  evidence: 'guiding off for 60 s',
};
const whole = JSON.parse(
  JSON.stringify({
    ...frameOf('2026-10-14', 3),
    effectiveFrom: 'measured',
    effectiveSeconds: 200,
    moonBrightening: 0.4,
    causes: [cause],
    cleared: [{ kind: 'guiding-off', by: 'pixels', evidence: 'the stars are round' }],
    stars: null,
  }),
) as Record<string, unknown>;

describe('reading a record', () => {
  it('takes what the program wrote, unchanged', async () => {
    const written = JSON.stringify(toRecord(await sampleNight('twin-night'), 'test'));
    expect(readRecord(written)).toEqual({ ok: true, record: JSON.parse(written) });
  });

  it('lets fields pass that a later program of the same version may add', () => {
    const session = sessionOf('2026-10-14', 'a', [frameOf('2026-10-14', 0)]);
    const later = {
      ...session,
      mood: 'calm',
      frames: session.frames.map((f) => ({ ...f, colour: 1 })),
      window: { ...session.window, phase: 2 },
    };
    expect(readRecord(JSON.stringify(later))).toMatchObject({ ok: true, record: { mood: 'calm' } });
  });

  it('judges frames as the schema does, whatever is wrong with them', () => {
    expect(Object.keys(whole).sort()).toEqual(Object.keys(frameSchema.shape).sort());
    const value = fc.oneof(
      fc.constant(undefined),
      fc.constant(null),
      fc.string(),
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.boolean(),
      fc.constant([]),
      fc.constant({}),
      fc.constant(-1),
      fc.constantFrom(
        'kept',
        'lost',
        'maybe',
        '2026-10-14T20:00:00Z',
        '2026-13-14T20:00:00Z',
        '2026-10-14T25:00:00Z',
        '2026-10-14 20:00:00',
      ),
      fc.constant([cause]),
      fc.constant([{ ...cause, kind: 'boredom' }]),
    );
    fc.assert(
      fc.property(fc.constantFrom(...Object.keys(whole)), value, (key, spoilt) => {
        const frame = { ...whole, [key]: spoilt };
        if (spoilt === undefined) delete frame[key];
        expect(frameProblem(frame) === null, JSON.stringify(frame)).toBe(frameSchema.safeParse(frame).success);
      }),
      runs(800),
    );
  });

  it.each([
    ['cut off', (text: string) => text.slice(0, -200)],
    ['empty', () => ''],
    ['without its window', (text: string) => text.replace('"window"', '"widow"')],
    ['with a frame without a train', (text: string) => text.replace('"train":"heron","target"', '"target"')],
    ['with a session that is none', (text: string) => text.replace('{', '{"parts":[null],')],
    [
      'with a session of another kind',
      (text: string) => text.replace('{', '{"parts":[{"schema":"nightledger/night/1"}],'),
    ],
    ['with frames that are no list', (text: string) => text.replace(/"frames":\[.*?\}\],"sky"/s, '"frames":7,"sky"')],
  ])('tells a record %s as damaged, and why', (_, spoil) => {
    const text = JSON.stringify(sessionOf('2026-10-14', 'a', [frameOf('2026-10-14', 0)]));
    const reading = readRecord(spoil(text));
    expect(reading).toMatchObject({ ok: false, state: 'damaged' });
    expect(!reading.ok && reading.why.length).toBeGreaterThan(8);
  });

  it('never throws, whatever the text', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
        expect(typeof readRecord(text).ok).toBe('boolean');
      }),
    );
    expect(readRecord('['.repeat(200_000))).toMatchObject({ ok: false, state: 'damaged' });
  });
});
