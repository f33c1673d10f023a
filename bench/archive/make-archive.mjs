// An archive of a thousand nights with three hundred frames each, as the program would have written them: invented
// figures, three targets, two trains.
import { mkdirSync, writeFileSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { withModule } from '../../scripts/load-ts.mjs';

const DAY = 86_400_000;
const TARGETS = [
  { name: 'NGC 281', ra: 13.2458, dec: 56.622, filters: ['Ha', 'OIII', 'SII'] },
  { name: 'IC 1396', ra: 324.775, dec: 57.5, filters: ['Ha', 'OIII', 'SII'] },
  { name: 'M 33', ra: 23.4625, dec: 30.6602, filters: ['L', 'R', 'G', 'B'] },
];
const ACCOUNTS = [
  'kept',
  'doubtful',
  'lost',
  'readout',
  'dither-wait',
  'dither',
  'focus',
  'filter',
  'pointing',
  'guiding',
  'hold',
  'partner-wait',
  'unexplained',
];

/**
 * Writes `nights` records of `frames` frames each to a folder, with their sums beside them as the program keeps them.
 */
export async function makeArchive(folder, nights, frames) {
  mkdirSync(join(folder, '.index/sums'), { recursive: true });
  await withModule('/src/record/archive/kept-sums.ts', ({ keepSums }) => makeRecords(folder, nights, frames, keepSums));
}

async function makeRecords(folder, nights, frames, keepSums) {
  for (let i = 0; i < nights; i++) {
    // Two nights in three are used.
    const evening = Date.UTC(2022, 0, 1, 18) + Math.floor(i * 1.5) * DAY;
    const date = new Date(evening).toISOString().slice(0, 10);
    const text = JSON.stringify(nightRecord(date, evening, TARGETS[i % TARGETS.length], frames, i));
    writeFileSync(join(folder, `${date}.json`), text);
    await keepSums(folder, `${date}.json`, text, writeFile);
  }
}

function nightRecord(date, evening, target, count, number) {
  const at = (ms) => new Date(ms).toISOString();
  const length = 8 * 3_600_000;
  const perTrain = count / 2;
  const step = Math.floor(length / perTrain);
  const frames = Array.from({ length: count }, (_, k) => {
    const train = k % 2 === 0 ? 'heron' : 'wren';
    const begin = evening + Math.floor(k / 2) * step;
    const filter = target.filters[Math.floor((k * target.filters.length) / count)];
    return {
      file: `frames/${train}/${filter}/${train}_${filter}_${String(k).padStart(4, '0')}.fits`,
      identity: (number * 100_000 + k).toString(16).padStart(64, '5'),
      train,
      target: target.name,
      filter,
      begin: at(begin),
      seconds: Math.floor(step / 1000) - 10,
      verdict: k % 50 === 7 ? 'lost' : 'kept',
      causes:
        k % 50 === 7
          ? [
              {
                kind: 'guiding-off',
                from: at(begin),
                to: at(begin + 40_000),
                overlapSeconds: 40,
                evidence: 'guiding off for 40 s under an open shutter; the limit is 10 s',
              },
            ]
          : [],
      moonSeparation: 83.07655933046013,
      moonAltitude: -10.8648048132467744,
      altitude: 46.076102134855724,
      airmass: 1.3868764826973772,
      guidingRms: 0.55 + ((k * 7919) % 100) / 500,
      starSize: 2.1 + ((k * 104729) % 100) / 200,
    };
  });
  const tally = (own, value) => {
    const sum = (verdict) =>
      own.filter((f) => verdict === 'taken' || f.verdict === verdict).reduce((s, f) => s + value(f), 0);
    return { taken: sum('taken'), kept: sum('kept'), doubtful: 0, lost: sum('lost') };
  };
  const totals = target.filters.flatMap((filter) =>
    ['heron', 'wren'].map((train) => {
      const own = frames.filter((f) => f.filter === filter && f.train === train);
      return { target: target.name, filter, train, frames: tally(own, () => 1), seconds: tally(own, (f) => f.seconds) };
    }),
  );
  const goals = target.filters.map((filter) => [filter, 2000]);
  return {
    schema: 'nightledger/night/1',
    generator: { name: 'nightledger', version: 'bench' },
    night: date,
    site: { name: 'Cierzo Hill', latitude: 40.42, longitude: -1.12, elevation: 1100, timezone: 'Europe/Madrid' },
    window: { start: at(evening), end: at(evening + 10 * 3_600_000), kind: 'nautical' },
    trains: [
      { id: 'heron', role: 'pilot', pixelScale: 1.616 },
      { id: 'wren', role: 'companion', pixelScale: 1.293 },
    ],
    targets: [{ name: target.name, ra: target.ra, dec: target.dec }],
    headersOnly: false,
    totals,
    ledger: ['heron', 'wren'].flatMap((train) =>
      ACCOUNTS.map((account) => ({ train, account, seconds: account === 'kept' ? 27_000 : 750 })),
    ),
    dithers: Array.from({ length: 50 }, (_, k) => ({
      begin: at(evening + k * 500_000),
      waits: { heron: 12 + (k % 9), wren: 0 },
      holder: 'wren',
      moveSeconds: 3,
      settleSeconds: 9,
    })),
    frames,
    sky: null,
    findings: [],
    warnings: [],
    archive: {
      session: `bench-${number}`,
      report: null,
      darkness: 'nautical',
      minimumAltitude: 25,
      goals: [{ name: target.name, aliases: [], ra: target.ra, dec: target.dec, hours: Object.fromEntries(goals) }],
    },
  };
}
