/** Frames by camera setting: what is stacked together, and calibrated by the same darks. */
import {
  filterSpelt,
  counted,
  coverageOf,
  decimal,
  groupBy,
  settingOf,
  sum,
  TEMPERATURE_TOLERANCE_C,
  type Coverage,
  type Frame,
  type JudgedFrame,
  type LightGroup,
  type Night,
} from '../model/index.js';

/**
 * The name of each light's setting: `300s`, `300s_gain100`. It includes binning if pixels are binned; offset and
 * temperature if those of a target, filter and train vary on this night.
 */
export function settingNames(lights: readonly Frame[]): (light: Frame) => string {
  const settings = new Map(lights.map((light) => [light, settingOf(light)] as const));
  const alike = groupBy([...settings], ([{ target, filter, train }]) => JSON.stringify([target, filter, train]));
  const names = new Map<Frame, string>();
  for (const group of alike.values()) {
    const own = group.map(([, setting]) => setting);
    const differ = { offset: isAny(own, ({ offset }) => offset), temperature: areFarApart(own) };
    for (const [light, setting] of group) names.set(light, nameOf(setting, differ));
  }
  return (light) => names.get(light) ?? nameOf(settingOf(light), { offset: false, temperature: false });
}

function nameOf(
  { seconds, gain, offset, binning, temperatureC }: LightGroup,
  differ: { readonly offset: boolean; readonly temperature: boolean },
): string {
  const parts = [
    `${lengthOf(seconds)}s`,
    ...(gain === undefined ? [] : [`gain${gain}`]),
    ...(binning === undefined || binning === '1×1' ? [] : [`bin${binning.replace('×', 'x')}`]),
    ...(differ.offset && offset !== undefined ? [`offset${offset}`] : []),
    ...(differ.temperature && temperatureC !== undefined ? [`${temperatureC}C`] : []),
  ];
  return parts.join('_');
}

/** Lengths within one percent are equal: `300` s for 299.98. */
function lengthOf(seconds: number): string {
  return String(seconds >= 10 ? Math.round(seconds) : Number(seconds.toPrecision(2)));
}

function isAny<T>(items: readonly LightGroup[], of: (item: LightGroup) => T): boolean {
  return new Set(items.map(of)).size > 1;
}

function areFarApart(items: readonly LightGroup[]): boolean {
  const known = items.flatMap(({ temperatureC }) => temperatureC ?? []);
  return known.length > 0 && Math.max(...known) - Math.min(...known) > TEMPERATURE_TOLERANCE_C;
}

/**
 * Missing calibration for lights, train by train, each once: `no darks of 300 s, gain 100, −10 °C for 12 frames of
 * heron`, `no flats through Ha for 12 frames of heron`.
 */
export function lackingFor(lights: readonly JudgedFrame[], night: Pick<Night, 'timeline' | 'accounts'>): string[] {
  const trains = night.accounts.ledgers.map(({ train }) => train);
  const coverage = coverageOf({ ...night, accounts: { ...night.accounts, lights } }).sort(
    (a, b) => trains.indexOf(a.train) - trains.indexOf(b.train),
  );
  const said = (kind: string, lacking: readonly Coverage[], what: (one: Coverage) => string): string[] =>
    [...groupBy(lacking, (one) => JSON.stringify([one.train, what(one)])).values()].flatMap((same) => {
      const [first] = same;
      if (first === undefined) return [];
      const frames = counted(sum(same.map((one) => one.lights)), 'frame');
      return [`no ${kind} ${what(first)} for ${frames} of ${first.train}`];
    });
  return [
    ...said(
      'darks',
      coverage.filter(({ darks }) => darks === 0),
      (one) => `of ${settingText(one)}`,
    ),
    ...said(
      'flats',
      coverage.filter(({ flats }) => flats === 0),
      ({ filter, binning }) =>
        (filter === undefined || filterSpelt(filter) === 'None' ? 'without a filter' : `through ${filter}`) +
        (binning === undefined || binning === '1×1' ? '' : `, binned ${binning}`),
    ),
  ];
}

function settingText({ seconds, gain, offset, binning, temperatureC }: LightGroup): string {
  return [
    `${lengthOf(seconds)} s`,
    ...(gain === undefined ? [] : [`gain ${gain}`]),
    ...(offset === undefined ? [] : [`offset ${offset}`]),
    ...(binning === undefined || binning === '1×1' ? [] : [`binned ${binning}`]),
    ...(temperatureC === undefined ? [] : [`${decimal(temperatureC, 0)} °C`]),
  ].join(', ');
}
