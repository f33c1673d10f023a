/** Lights without matching darks, flats or bias frames in a session that holds others. */
import { counted, coverageOf, groupBy, listed, sum, type Coverage } from '../model/index.js';
import type { FindingModule } from './finding.js';
import { firstOf } from './wording.js';

export const calibration: FindingModule<{ readonly minimumLights: number }> = {
  id: 'calibration',
  title: 'Calibration frames',
  needs: ['lights', 'calibration'],
  defaults: { minimumLights: 1 },
  find(night, { minimumLights }) {
    const lacking = coverageOf(night)
      .map((c) => ({ ...c, lacks: lacksOf(c) }))
      .filter((c) => c.lacks.length > 0 && c.lights >= minimumLights);
    return [...groupBy(lacking, (c) => c.train)].map(([train, own]) => ({
      title: `${train} lacks ${listed([...new Set(own.flatMap((c) => c.lacks))])} for some of its lights`,
      costMs: 0,
      frames: sum(own.map((c) => c.lights)),
      evidence: firstOf(
        own.map(
          (c) => `${kindOf(c)}: no ${listed(c.lacks).replace(' and ', ' or ')} for ${counted(c.lights, 'light')}`,
        ),
        6,
      ),
      advice:
        'Take them before you touch camera or filters: flats through each filter as it was, with dark flats or ' +
        'bias frames for them; darks at the same gain, offset, temperature and exposure. If you keep them in a ' +
        'library, add its folder to the train’s frames in the rig file.',
      confidence: 'medium' as const,
      links: [{ text: 'Calibration coverage', anchor: 'calibration' }],
    }));
  },
};

/** With darks of the right length, nobody needs bias frames: dark flats, or bias frames, belong to the flats. */
function lacksOf({ darks, flats, bias, darkFlats }: Coverage): string[] {
  return [
    ...(darks === 0 ? ['darks'] : []),
    ...(flats === 0 ? ['flats'] : []),
    ...(darks === 0 && bias === 0 && darkFlats === 0 ? ['bias frames'] : []),
  ];
}

function kindOf({ filter, seconds, temperatureC }: Coverage): string {
  return [
    filter ?? 'no filter',
    `${Number(seconds.toFixed(1))} s`,
    ...(temperatureC === undefined ? [] : [`${temperatureC < 0 ? '−' : ''}${Math.abs(temperatureC)} °C`]),
  ].join(', ');
}
