import { describe, expect, it } from 'vitest';
import { parseRig } from '../../src/config/index.js';

const rig = (train: string) =>
  parseRig(
    'rig.yaml',
    `darkSky: 21.3\nreferenceSub: 240\ntrains:\n  - id: heron\n${train
      .split('\n')
      .map((line) => `    ${line}`)
      .join('\n')}\n`,
  );

describe('what the rig file tells of sky and noise', () => {
  it('is taken in the units it is asked for', () => {
    const { rig: parsed, warnings } = rig(
      'camera: { readNoise: 1.5, gain: 0.25, darkCurrent: 0.001 }\nthroughput: 0.4\nfilters: { Ha: { width: 3, zenithSky: 0.02 }, "Dual band": { width: 14, wavelength: 656 } }',
    );
    expect(warnings).toEqual([]);
    expect(parsed.darkSkyMagArcsec2).toBe(21.3);
    expect(parsed.referenceSubSeconds).toBe(240);
    expect(parsed.trains[0]).toMatchObject({
      readNoiseElectrons: 1.5,
      gainElectronsPerAdu: 0.25,
      darkCurrentElectronsPerSecond: 0.001,
      throughput: 0.4,
      filterWidthsNm: { Ha: 3, 'Dual band': 14 },
      filterWavelengthsNm: { 'Dual band': 656 },
      filterZenithSkies: { Ha: 0.02 },
    });
  });

  it('may have filters of any name, but no unknown facts of them', () => {
    const { warnings } = rig('filters: { "my own filter": { breadth: 3 } }');
    expect(warnings.map((w) => w.message)).toEqual([
      expect.stringMatching(/my own filter\.breadth is not a key.*width, wavelength, zenithSky/),
    ]);
  });

  it('is refused where it makes no sense, with the line', () => {
    expect(() => rig('throughput: 50')).toThrow(
      /rig\.yaml:5: trains#1\.throughput must be at most 1: electrons per photon/,
    );
    expect(() => rig('filters: { Ha: 3 }')).toThrow(/must be a map such as \{ width: 3 \}/);
    expect(() => rig('filters: { Ha: { wavelength: 6563 } }')).toThrow(/at most 1100: nanometres/);
  });
});
