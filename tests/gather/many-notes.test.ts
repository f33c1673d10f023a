import { describe, expect, it } from 'vitest';
import { eveningOf, gatherNight, gatherSession } from '../../src/gather/index.js';
import { MOST_EVENTS } from '../../src/model/index.js';
import { writeFiles } from '../support/generator/samples.js';
import { at } from '../support/events.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

describe('a log that holds more notes than a night may hold events', () => {
  const line = (atMs: number, event: string, more: object = {}): string =>
    JSON.stringify({ at: new Date(atMs).toISOString(), event, ...more });
  const lastMs = at('23:00:00');
  const notes = Array.from({ length: MOST_EVENTS }, (_, i) => line(at('21:00:00') + i, 'note', { text: 'wind' }));

  it('loses none of the events behind them', { timeout: 60_000 }, async () => {
    const root = tempFolder();
    const log = [...notes, line(at('22:00:00'), 'exposure-begin', { seconds: 300 }), line(lastMs, 'note')];
    writeFiles(
      root,
      new Map([
        ['rig.yaml', 'trains: [ { id: heron, logs: [ { files: a.jsonl } ] } ]\n'],
        ['a.jsonl', log.join('\n')],
      ]),
    );
    const session = await gatherSession(root, { nowMs: lastMs });
    const span = { startMs: at('12:00:00'), endMs: at('12:00:00') + 86_400_000 };
    const evening = eveningOf(session, span);
    expect(evening.events.map(({ event }) => event)).toEqual(['exposure-begin']);
    expect(evening.lineTimes[0]?.atMs.at(-1)).toBe(lastMs);
    expect(gatherNight(session, span).warnings.map(({ code }) => code)).not.toContain('too-many');
  });
});
