/** The basis of the night's effective integration, in sentences. */
import {
  counted,
  decimal,
  groupBy,
  listed,
  weighedTotals,
  type WeighedTotal,
  type MeasureNote,
  type Night,
  WORTH_DOUBTS,
  type WorthDoubt,
} from '../../../../model/index.js';

/** Why an effective time is a range. */
const DOUBTS: Readonly<Record<WorthDoubt, string>> = {
  'clear-air': 'the air is assumed to be clear, and unnoticed haze takes up to 0.2 mag',
  'clear-nights': 'the clearest frames of this night are within about 0.05 mag of those of the clearest night',
  'moon-model': 'moonlight is modelled, which is good to 20 % in V and 0.3 mag in other bands',
  'sky-of-nights': 'a moonless sky varies by about 0.2 mag from night to night',
};

const MEASURES: Readonly<Record<MeasureNote['measure'], string>> = {
  level: 'background levels',
  flux: 'star fluxes',
  'star-count': 'star counts',
};

/** The reference, the sky, what was measured and what is assumed. */
export function basisOf(night: Night): string[] {
  const { worth } = night;
  if (!worth) return [];
  const sky =
    `Dark sky at the zenith: ${decimal(worth.darkSkyMagArcsec2, 1)} mag per square arcsecond, ` +
    `${worth.darkSkyFrom === 'rig-file' ? 'from the rig file' : 'assumed; give darkSky in the rig file'}.`;
  const measures = [
    ...groupBy(worth.measures, (note) => JSON.stringify([note.measure, note.used, note.how])).values(),
  ].map((notes) => measureSentence(notes));
  const lacks = [
    ...groupBy(
      worth.noises.filter((note) => note.missing.length > 0),
      (note) => note.train,
    ),
  ].map(([train, notes]) => ({ train, what: listed([...new Set(notes.flatMap((note) => note.missing))]) }));
  const lacking = [...groupBy(lacks, ({ what }) => what)].map(
    ([what, those]) =>
      `${listed(those.map(({ train }) => train))}: the sky is taken to be the only noise; to include read noise, ` +
      `give ${what} in the rig file.`,
  );
  const assumed = worth.noises.filter((note) => note.assumedBand);
  const doubts = WORTH_DOUBTS.filter((doubt) => weighedTotals(night).some((t) => t.worth.doubts.includes(doubt)));
  const ownSkies = weighedTotals(night).filter((t) => t.worth.zenith.from === 'night');
  return [
    `Counted in subs of ${decimal(worth.referenceMs / 1000, 0)} s under the moonless sky at the zenith: the ` +
      'same for all trains, filters and nights' +
      (worth.referenceFrom === 'rig-file' ? ', by the rig file' : '; referenceSub in the rig file sets another') +
      '.',
    ...(ownSkies.length > 0 ? [ownSkySentence(ownSkies)] : []),
    ...(doubts.length > 0 ? [`Shown as a range, because ${doubts.map((doubt) => DOUBTS[doubt]).join('; ')}.`] : []),
    sky,
    ...(worth.measures.some((note) => note.measure === 'level')
      ? []
      : ['No background level was measured: the sky is the model’s, good to ±0.3 mag.']),
    ...(worth.measures.some((note) => note.measure === 'flux')
      ? []
      : [
          'No star flux was measured: the air is taken to be clear, and cloud or haze would make the effective ' +
            'times shorter.',
        ]),
    ...measures,
    ...lacking,
    ...(assumed.length > 0
      ? [
          'The band of ' +
            listed([
              ...new Set(assumed.map((note) => (note.filter === '' ? 'frames without a filter' : note.filter))),
            ]) +
            ' is not known, and V was taken; give its wavelength in the rig file.',
        ]
      : []),
  ];
}

/** What was compared with this night only, and how to make it comparable with other nights. */
function ownSkySentence(totals: readonly WeighedTotal[]): string {
  const whose = groupBy(totals, ({ train, filter }) => JSON.stringify([train, filter]));
  const named = [...whose.values()].flatMap(([first]) => {
    const electrons = first?.worth.zenith.electronsPerSecond;
    return first === undefined
      ? []
      : [`${first.train} ${first.filter}${electrons == null ? '' : ` ${Number(electrons.toPrecision(2))}`}`];
  });
  return (
    `But the dark sky of ${listed(named)} is this night’s own, by its background levels (electrons per second and ` +
    'pixel): these hours are not added to those of other nights, and goals count them in clock time, until zenithSky ' +
    'in the rig file fixes one for all.'
  );
}

function measureSentence(notes: readonly MeasureNote[]): string {
  const [first] = notes;
  if (!first) return '';
  const whose = listed(
    [...groupBy(notes, (note) => note.train)].map(
      ([train, own]) => `${train} ${own.map((note) => note.filter).join(' ')}`,
    ),
  );
  const frames = counted(
    notes.reduce((sum, note) => sum + note.frames, 0),
    'frame',
  );
  return (
    `${whose}: ${MEASURES[first.measure]} of ${frames} ${first.used ? 'were used' : 'were not used'}, ` +
    `${first.how}.`
  );
}
