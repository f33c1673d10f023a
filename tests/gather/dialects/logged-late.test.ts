import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** 14 October 2026, 20:00 UTC. */
const T0 = Date.UTC(2026, 9, 14, 20);
const READOUT_SECONDS = [2.4, 3.1, 1.9, 2.7, 2.2, 3.4];
const LENGTH_SECONDS = 240;

const stamp = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString();
const clock = (seconds: number): string => stamp(seconds).slice(11, 19);

async function endsOf(lines: readonly string[]): Promise<number[]> {
  const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`);
  return log.events.filter(({ event }) => event === 'exposure-end').map(({ atMs }) => (atMs - T0) / 1000);
}

describe('frames that are logged after their download', () => {
  const begins = READOUT_SECONDS.map((_, i) => i * 260);

  it('end so many seconds before as the download took', async () => {
    const lines = begins.flatMap((begin, i) => {
      const took = READOUT_SECONDS[i] ?? NaN;
      return [
        `${stamp(begin)} cam expose #${i + 1} Ha ${LENGTH_SECONDS}s`,
        `${stamp(begin + LENGTH_SECONDS + took)} cam #${i + 1} downloaded in ${took}s`,
        `${stamp(begin + LENGTH_SECONDS + took + 0.5)} cam #${i + 1} saved as m101_ha_${i + 1}.fits`,
      ];
    });
    expect((await endsOf(lines)).map(Math.round)).toEqual(begins.map((begin) => begin + LENGTH_SECONDS));
  });

  it('end as long after their stated beginning as they are said to be', async () => {
    const lines = begins.map(
      (begin, i) =>
        `${stamp(begin + LENGTH_SECONDS + 4)} level=info what="frame saved" filter=Ha start=${clock(begin)} ` +
        `exptime=${LENGTH_SECONDS} file=m101_ha_${i + 1}.fits`,
    );
    expect(await endsOf(lines)).toEqual(begins.map((begin) => begin + LENGTH_SECONDS));
  });

  it('end with their lines where these stand at the end', async () => {
    const lines = begins.flatMap((begin, i) => [
      `${stamp(begin)} cam expose #${i + 1} Ha ${LENGTH_SECONDS}s`,
      `${stamp(begin + LENGTH_SECONDS)} cam #${i + 1} closed, readout takes ${READOUT_SECONDS[i] ?? NaN}s`,
    ]);
    expect(await endsOf(lines)).toEqual(begins.map((begin) => begin + LENGTH_SECONDS));
  });
});
