/**
 * One thing of each kind, as a contributor would add it: new files, and lines put before a line that is there.
 */

/** A change to one file of the project. */
export type Edit =
  | { readonly file: string; readonly text: string }
  | { readonly file: string; readonly before: string; readonly add: string };

/** What is added, by the name it has in DEVELOPERS.md. */
export const ADDITIONS: Readonly<Record<string, readonly Edit[]>> = {
  'loss cause': [
    {
      file: 'src/vocabulary/causes.ts',
      before: "  low: { label: 'target low'",
      add: "  'tall-tree': { label: 'behind a tree', restsOn: ['sky'], rules: [] },",
    },
    {
      file: 'src/model/judging/tall-tree.ts',
      text: `import { durationMs } from '../interval.js';
import type { LossCause } from './cause.js';

export const tallTree: LossCause = {
  id: 'tall-tree',
  judge: ({ sky }) => (sky !== null && sky.altitudeDeg < 40 ? 'lost' : null),
  instances: (frame, _around, verdict) => [
    {
      kind: 'tall-tree',
      verdict,
      span: frame.exposure,
      overlapMs: durationMs(frame.exposure),
      evidence: 'the target stood behind the tree',
      certainty: 'measured',
      sources: frame.sources,
    },
  ],
};
`,
    },
    {
      file: 'src/model/judging/index.ts',
      before: "import { mountMotion } from './mount-motion.js';",
      add: "import { tallTree } from './tall-tree.js';",
    },
    { file: 'src/model/judging/index.ts', before: '  low,', add: "  'tall-tree': tallTree," },
  ],
  'event kind': [
    {
      file: 'src/vocabulary/events.ts',
      before: "  slew: { label: 'slew'",
      add: "  turning: { label: 'camera turns', begin: ['why'], end: ['ok', 'position'] },",
    },
    {
      file: 'src/vocabulary/activities.ts',
      before: "  readout: { label: 'readout'",
      add: "  turning: { label: 'camera turns', lane: 'train', facts: ['position'], claims: { account: 'pointing' } },",
    },
    {
      file: 'src/reconstruct/train-lanes.ts',
      before: "  lane({ begin: 'filter-begin'",
      add: `  lane({ begin: 'turning-begin', end: 'turning-end', overBy: ['exposure-begin'] }, (_begin, end) => ({
    kind: 'turning',
    facts: { position: end?.position },
  })),`,
    },
  ],
  finding: [
    {
      file: 'src/findings/full-moon.ts',
      text: `import type { FindingModule } from './finding.js';

export const fullMoon: FindingModule = {
  id: 'full-moon',
  title: 'A night of the full Moon',
  needs: ['lights'],
  defaults: {},
  find: (night) => [
    {
      title: \`\${night.accounts.lights.length} lights under the Moon\`,
      costMs: 60_000,
      evidence: ['the Moon was up'],
      advice: 'Take narrowband filters.',
      winMs: 0,
      confidence: 'high',
      links: [],
      minutes: [],
    },
  ],
};
`,
    },
    {
      file: 'src/findings/index.ts',
      before: "import { guidingAltitude } from './guiding-altitude.js';",
      add: "import { fullMoon } from './full-moon.js';",
    },
    { file: 'src/findings/index.ts', before: '  register(ditherWait),', add: '  register(fullMoon),' },
  ],
  chart: [
    {
      file: 'src/report/charts/dew.ts',
      text: `import type { Chart } from './chart.js';

export const dew: Chart = {
  id: 'dew',
  title: 'Dew point of the night',
  draw: (night) => ({ missing: \`no header of \${night.date} has a dew point\` }),
};
`,
    },
    {
      file: 'src/report/charts/index.ts',
      before: "import { effective } from './effective.js';",
      add: "import { dew } from './dew.js';",
    },
    { file: 'src/report/charts/index.ts', before: '  ditherWaits,', add: '  dew,' },
    {
      file: 'templates/sections/sky.hbs',
      before: '{{> chart charts.separation}}',
      add: '{{> chart charts.dew}}',
    },
  ],
  'header keyword': [
    {
      file: 'src/gather/fits/keywords.ts',
      before: "'FOCPOS', 'TELFOCUS'],",
      add: "'DRAWTUBE',",
    },
  ],
  rule: [
    {
      file: 'src/vocabulary/rules.ts',
      before: '  guidingOffGraceSeconds: {',
      add: `  dewLimitCelsius: {
    key: 'dewLimit',
    default: 2,
    low: 0,
    high: 20,
    what: 'degrees above the dew point',
    unit: '',
    decimals: 0,
    of: 'duration',
    meaning: 'nearer to the dew point than this: doubtful',
    brief: 'degrees above the dew point',
  },`,
    },
  ],
};
