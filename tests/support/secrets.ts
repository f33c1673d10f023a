import type { InputFile, Night } from '../../src/model/index.js';
import { altered } from './altered.js';
import { namedNight } from './nights.js';

/** What must not leave with a shared report; all invented. */
export const SECRETS = [
  'Cierzo Hill',
  '40.4213',
  '-1.1187',
  '−1.1187',
  '40.42',
  '1104 m',
  // As a figure of a record: with the key's closing quote, for a log may have a line 1104.
  '":1104,',
  'amaranta',
  'PALOMERA-PC',
  'observatorio.lan',
  '7C41BB20196',
  '0093846125',
  '192.168.4.17',
  'a4:5e:60:c1:22:9f',
  '/home/',
  'C:\\',
  'Users\\',
  'frames/heron',
  'logs/heron',
  'calibration/',
  'Documents',
  'tern-control',
  'Quillon 26M',
] as const;

/** An invented night with secrets wherever a careless log or header could put one. */
export function revealingNight(name = 'twin-night'): Night {
  const night = namedNight(name);
  const [firstFrame, ...frames] = night.accounts.lights;
  const [firstHold, ...activities] = night.timeline.activities;
  const [firstFinding, ...findings] = night.findings.ranked;
  if (!firstFrame?.header || !firstHold || !firstFinding)
    throw new Error('the invented night lacks what secrets are hidden in');
  const lost = frames.findIndex((frame) => frame.causes.length > 0);
  const revealing = [
    {
      ...firstFrame,
      file: 'C:\\Users\\amaranta\\Documents\\frames\\heron_0001.fits',
      header: {
        ...firstFrame.header,
        telescope: 'Quillon 26M',
        instrument: 'mono 26 MP SN 7C41BB20196',
        software: 'tern-control 4.1',
        site: { latitudeDeg: 40.4213, longitudeDeg: -1.1187, elevationM: 1104 },
        cards: { OBSERVER: 'amaranta', SITENAME: 'Cierzo Hill', INSTRUME: 'Quillon 26M' },
      },
    },
    ...frames.map((frame, index) =>
      index !== lost
        ? frame
        : {
            ...frame,
            causes: frame.causes.map((cause) => ({
              ...cause,
              evidence: `${cause.evidence} Written by amaranta on PALOMERA-PC in /home/amaranta/night/logs/heron.jsonl (host 192.168.4.17, a4:5e:60:c1:22:9f).`,
              sources: [{ file: 'logs/heron.jsonl', line: 12 }],
            })),
          },
    ),
  ];
  const held = [
    { ...firstHold, why: 'amaranta@observatorio.lan asked; camera serial number 0093846125' },
    ...activities,
  ];
  const telling = [
    {
      ...firstFinding,
      evidence: [
        ...firstFinding.evidence,
        'Seen at Cierzo Hill, latitude 40.42, longitude -1.1187 (40°25′17″ N, 1°07′07″ W).',
      ],
    },
    ...findings,
  ];
  const warnings = [
    ...night.gathered.warnings,
    {
      code: 'unreadable-file',
      message:
        'frames/heron/heron_IC1396_Ha_0007.fits could not be read by user amaranta; it lies on \\\\PALOMERA-PC\\share\\frames.',
      source: { file: '/home/amaranta/night/rig.yaml', line: 3 },
    },
    { code: 'site-differs', message: 'The header says latitude 40.4213°, the rig file 40.4200°.' },
  ];
  const inputs: InputFile[] = [
    ...night.gathered.inputs,
    {
      file: '/home/amaranta/night/logs/heron2.jsonl',
      role: 'event-log',
      train: 'heron',
      sizeBytes: 120,
      lines: 3,
      understood: 3,
    },
  ];
  return altered(night, {
    gathered: { warnings, inputs },
    timeline: {
      activities: held,
      frames: night.timeline.frames.map((frame) => revealing.find((one) => one.id === frame.id) ?? frame),
    },
    accounts: { lights: revealing },
    findings: { ranked: telling },
  });
}
