import { describe, expect, it } from 'vitest';
import { interval, type Frame, type LightFacts, type JudgedFrame } from '../../src/model/index.js';
import { measureSky, type LevelReading } from '../../src/worth/measured-sky.js';
import { light, NIGHT_MS, skyAt, UNDER_MOON } from './support.js';

const BIAS_ADU = 500;
const GAIN = 0.25;

function calibration(
  kind: 'bias' | 'dark',
  seconds: number,
  header: Pick<LightFacts, 'backgroundAdu' | 'gain'>,
): Frame {
  const exposure = interval(NIGHT_MS, NIGHT_MS + seconds * 1000);
  const file = `library/${kind}.fits`;
  return {
    id: kind,
    train: 'heron',
    kind,
    exposure,
    provenance: 'file-only',
    file,
    sources: [],
    header: {
      file,
      sizeBytes: 0,
      headerHash: kind,
      kind,
      exposureSeconds: seconds,
      gain: 100,
      offset: 50,
      setTemperatureC: -10,
      ...header,
    },
  };
}

/** A light whose level holds the pedestal, a dark current and a sky, electrons per second. */
function levelled(skyElectrons: number, facts: Parameters<typeof light>[0] = {}, dark = 0.002): JudgedFrame {
  const seconds = facts.seconds ?? 300;
  return light({
    ...facts,
    header: { ...facts.header, backgroundAdu: BIAS_ADU + ((skyElectrons + dark) * seconds) / GAIN },
  });
}

function reading(lights: readonly JudgedFrame[], more: Partial<LevelReading> = {}): LevelReading {
  return {
    lights,
    calibration: [calibration('bias', 0, { backgroundAdu: BIAS_ADU })],
    predicted: ({ sky }) => ({
      dark: 1,
      moon: sky && sky.moonAltitudeDeg > 0 ? 4 : 0,
      twilight: 0,
      moonBrighteningMag: 0,
    }),
    electronsPerAdu: () => GAIN,
    darkElectronsPerSecond: 0.002,
    ...more,
  };
}

describe('the sky by background levels', () => {
  const dark = [0.5, 0.5, 0.5].map((sky) => levelled(sky));

  it('is the level above the bias, less dark current, against frames taken with the Moon down', () => {
    const lit = levelled(2.5, { sky: skyAt(60, UNDER_MOON) });
    const sky = measureSky(reading([...dark, lit]));
    expect(sky?.used).toBe(true);
    expect(sky?.how).toContain('Moon down');
    expect(sky?.skies.get(lit.id)?.ratio).toBeCloseTo(5, 9);
    expect(sky?.skies.get(lit.id)?.zenithElectronsPerSecond).toBeCloseTo(0.5, 9);
  });

  it('needs neither bias nor dark current where darks of the lights’ length carry a level', () => {
    const darks = [calibration('dark', 300, { backgroundAdu: BIAS_ADU + (0.002 * 300) / GAIN })];
    const sky = measureSky(reading(dark, { calibration: darks, darkElectronsPerSecond: 0 }));
    expect(sky?.skies.get(dark[0]?.id ?? '')?.zenithElectronsPerSecond).toBeCloseTo(0.5, 9);
  });

  it('is brought to the zenith by the model', () => {
    const low = [1, 1, 1].map((sky) => levelled(sky, { sky: skyAt(40) }));
    const sky = measureSky(
      reading(low, { predicted: () => ({ dark: 2, moon: 0, twilight: 0, moonBrighteningMag: 0 }) }),
    );
    expect(sky?.skies.get(low[0]?.id ?? '')).toMatchObject({
      ratio: 2,
      zenithElectronsPerSecond: expect.closeTo(0.5, 9),
    });
  });

  it('falls back on the model’s moonlight for its reference when the Moon never sets, and says so', () => {
    const lit = [2.5, 2.5, 5].map((sky) => levelled(sky, { sky: skyAt(60, UNDER_MOON) }));
    const sky = measureSky(reading(lit));
    expect(sky?.how).toContain('less the model’s moonlight');
    expect(sky?.skies.get(lit[2]?.id ?? '')?.ratio).toBeCloseTo(10, 9);
  });

  it('takes no reference from twilight, nor from frames that were not kept', () => {
    const bright = levelled(50, { sky: skyAt(60, { sunAltitudeDeg: -15 }) });
    const lost = levelled(70, { verdict: 'lost' });
    const sky = measureSky(reading([bright, ...dark, lost]));
    expect(sky?.skies.get(bright.id)?.ratio).toBeCloseTo(100, 9);
  });

  it('is not made of levels whose pedestal is unknown', () => {
    const none = measureSky(reading(dark, { calibration: [] }));
    expect(none).toMatchObject({ used: false, how: expect.stringContaining('pedestal') });
    expect(none?.skies.size).toBe(0);
    const silent = measureSky(reading(dark, { calibration: [calibration('bias', 0, {})] }));
    expect(silent?.used).toBe(false);
  });

  it.each<[string, Partial<LightFacts>]>([
    ['gain', { gain: 0 }],
    ['offset', { offset: 10 }],
    ['binning', { binning: { x: 2, y: 2 } }],
  ])('does not take the pedestal from a bias frame of another %s', (_what, other) => {
    expect(
      measureSky(reading(dark, { calibration: [calibration('bias', 0, { backgroundAdu: BIAS_ADU, ...other })] }))?.used,
    ).toBe(false);
  });

  it.each<[string, number, Partial<LightFacts>]>([
    ['length', 120, {}],
    ['temperature', 300, { setTemperatureC: 5 }],
  ])('does not take the pedestal from a dark of another %s', (_what, seconds, other) => {
    expect(
      measureSky(reading(dark, { calibration: [calibration('dark', seconds, { backgroundAdu: BIAS_ADU, ...other })] }))
        ?.used,
    ).toBe(false);
  });

  it('leaves out levels at or below the pedestal', () => {
    const broken = light({ header: { backgroundAdu: BIAS_ADU - 1 } });
    const sky = measureSky(reading([...dark, broken]));
    expect(sky?.skies.has(broken.id)).toBe(false);
    expect(sky?.skies.size).toBe(3);
  });

  it('counts against the zenith sky that the rig file fixes for all nights, where it does', () => {
    const sky = measureSky(reading(dark, { zenithElectronsPerSecond: 0.4 }));
    expect(sky?.against).toBe('rig-file');
    expect(sky?.skies.get(dark[0]?.id ?? '')?.ratio).toBeCloseTo(0.5 / 0.4, 9);
    const noGain = measureSky(reading(dark, { zenithElectronsPerSecond: 0.4, electronsPerAdu: () => null }));
    expect(noGain?.against).toBe('night');
  });

  it('needs three frames for a reference', () => {
    expect(measureSky(reading(dark.slice(0, 2)))).toMatchObject({
      used: false,
      how: expect.stringContaining('fewer than 3'),
    });
  });

  it('has no electrons without electrons per ADU, but the ratio all the same', () => {
    const sky = measureSky(reading([...dark, levelled(1)], { electronsPerAdu: () => null }));
    expect(sky?.skies.get(dark[0]?.id ?? '')?.zenithElectronsPerSecond).toBeNull();
  });

  it('is silent when no header carries a level', () => {
    expect(measureSky(reading([light()]))).toBeNull();
  });
});
