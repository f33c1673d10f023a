/**
 * The only table of meaning → accepted FITS keywords. The first keyword of a row present in a header wins. A rig file
 * may add keywords to any row; they take precedence.
 */
import type { Warning } from '../../model/warning.js';
import { STRUCTURE_KEYWORDS } from './image-shape.js';
import { KeywordSet, normalKeyword, REMARK } from './keyword-set.js';

/** Accepted keywords. Standard: FITS Standard 4.0, sections 4.4.2, 8 and 9; the rest is common practice, no source. */
export const KEYWORDS = {
  kind: ['IMAGETYP', 'IMGTYPE', 'OBSTYPE', 'FRAMETYP'],
  /** Counts only if its text names a kind: others number their frames there, or name a coordinate system. */
  kindOrElse: ['FRAME'],
  target: ['OBJECT', 'OBJNAME', 'TARGNAME', 'TARGET'],
  filter: ['FILTER', 'FILTER1', 'FILTERID', 'FILTNAM'],
  /** A mosaic of colour filters on the sensor itself. */
  colourMatrix: ['BAYERPAT'],
  telescope: ['TELESCOP'],
  instrument: ['INSTRUME', 'DETECTOR', 'CAMERA'],
  software: ['SWCREATE', 'CREATOR', 'SOFTWARE', 'PROGRAM'],

  /** Seconds with the shutter open. */
  exposureSeconds: ['EXPTIME', 'EXPOSURE', 'ITIME'],
  /** Durations of the standard, in the unit of TIMEUNIT (section 9.7). */
  exposureInTimeUnit: ['XPOSURE', 'TELAPSE'],
  timeUnit: ['TIMEUNIT'],

  /** Dates: start, middle and end of the exposure, and the time of day for dates without one. */
  dateBegin: ['DATE-BEG', 'DATE-OBS'],
  dateMiddle: ['DATE-AVG'],
  dateEnd: ['DATE-END'],
  timeOfDay: ['TIME-OBS', 'TIME-BEG', 'UTC-OBS', 'UTSTART', 'UT', 'UTC'],
  mjdBegin: ['MJD-BEG', 'MJD-OBS'],
  mjdMiddle: ['MJD-AVG'],
  mjdEnd: ['MJD-END'],
  jdBegin: ['JD-BEG', 'JD-OBS', 'JD'],
  timeScale: ['TIMESYS'],
  /** Systematic error of the time stamps, in the unit of TIMEUNIT (standard, section 9.4.3). */
  timeError: ['TIMSYER'],
  /** Text that names the time source, such as a receiver; no keyword is common, the rig file may name one. */
  timeSource: [],
  /** The same instant as the begin, by the clock on the wall. */
  dateLocal: ['DATE-LOC'],

  /** Places: the n-th right ascension belongs to the n-th declination. Degrees, or sexagesimal text. */
  rightAscension: ['RA', 'OBJCTRA', 'RA_OBJ', 'RA_TARG', 'RA_PNT', 'TELRA'],
  declination: ['DEC', 'OBJCTDEC', 'DEC_OBJ', 'DEC_TARG', 'DEC_PNT', 'TELDEC'],
  equinox: ['EQUINOX', 'EPOCH'],
  celestialFrame: ['RADESYS', 'RADECSYS'],
  axisType1: ['CTYPE1'],
  axisType2: ['CTYPE2'],
  axisValue1: ['CRVAL1'],
  axisValue2: ['CRVAL2'],

  /** The camera's own gain and offset settings; electrons per ADU have a row of their own. */
  gain: ['GAIN'],
  offset: ['OFFSET', 'BLKLEVEL'],
  binningX: ['XBINNING', 'XBIN', 'CCDXBIN'],
  binningY: ['YBINNING', 'YBIN', 'CCDYBIN'],
  sensorTemperatureC: ['CCD-TEMP', 'CCDTEMP', 'DET-TEMP', 'DETTEMP'],
  setTemperatureC: ['SET-TEMP', 'SETTEMP'],
  electronsPerAdu: ['EGAIN'],
  readNoiseElectrons: ['RDNOISE', 'READNOIS', 'RON'],
  /** Level of a pixel without light, ADU. */
  pedestalAdu: ['PEDESTAL'],
  saturationAdu: ['SATURATE', 'SATLEVEL'],
  bayerPattern: ['BAYERPAT'],
  /** Micrometres. Rows apart, for a keyword either means the pixel as made or the pixel as binned. */
  unbinnedPixelSizeUm: ['PIXSIZE1'],
  binnedPixelSizeUm: ['XPIXSZ', 'PIXSIZE'],

  focalLengthMm: ['FOCALLEN', 'FOCLEN'],
  apertureMm: ['APTDIA', 'TELDIAM'],
  focusPosition: ['FOCUSPOS', 'FOCPOS', 'TELFOCUS'],
  focusTemperatureC: ['FOCTEMP', 'FOCUSTEM'],
  rotationDeg: ['ROTANGLE', 'ROTATANG', 'ROTPA', 'CROTA2'],
  pierSide: ['PIERSIDE'],

  /** Half-flux radius, pixels. */
  starSize: ['STARSIZE', 'HFR'],
  /** Full width at half maximum, pixels. */
  starFwhm: ['FWHM', 'MEANFWHM'],
  starCount: ['STARCNT', 'NSTARS'],
  /** Of the same stars in every frame of a field, ADU over the whole exposure. */
  starFluxAdu: ['STARFLUX'],
  backgroundAdu: ['BACKGRND', 'BKGLEVEL', 'SKYLEVEL', 'SKYBKG'],

  /** Degrees or sexagesimal text, east positive, and metres. */
  siteLatitude: ['OBSGEO-B', 'SITELAT', 'LAT-OBS', 'OBS-LAT', 'LATITUDE'],
  siteLongitude: ['OBSGEO-L', 'SITELONG', 'LONG-OBS', 'OBS-LONG', 'LONGITUD'],
  siteElevationM: ['OBSGEO-H', 'SITEELEV', 'ALT-OBS', 'OBS-ELEV', 'ELEVATIO'],
} as const satisfies Readonly<Record<string, readonly string[]>>;

/** The possible meanings of a keyword. */
export type Meaning = keyof typeof KEYWORDS;

/** Additional accepted keywords, by meaning. A rig file may hold others: see `extraKeywordWarnings`. */
export type ExtraKeywords = Partial<Readonly<Record<Meaning, readonly string[]>>>;

/** Meanings whose cards have informative comments: the moment of a date, a unit in brackets (section 4.3.2). */
const REMARKED: readonly Meaning[] = ['dateBegin', 'exposureSeconds', 'focalLengthMm', 'apertureMm', 'rightAscension'];

/** A keyword and its number in the table's set. */
export interface Keyword {
  readonly name: string;
  readonly number: number;
}

/** Accepted keywords by meaning, and the set of all of them. */
export interface KeywordTable {
  readonly accepted: ReadonlyMap<Meaning, readonly Keyword[]>;
  /** Keywords of right ascension and declination that belong together. */
  readonly places: readonly (readonly [rightAscension: Keyword, declination: Keyword])[];
  /** Every keyword of the table and of the data's structure. */
  readonly wanted: KeywordSet;
  /** Cards that identify an exposure, extra keywords aside. */
  readonly identity: ExposureIdentity;
}

/** Keywords whose values distinguish exposures. */
export interface ExposureIdentity {
  readonly dates: readonly Keyword[];
  /** How long, through what, onto what, in what state. */
  readonly making: readonly Keyword[];
  /** All keywords of the table, for headers without a date. */
  readonly all: readonly Keyword[];
}

const DATING: readonly Meaning[] = ['dateBegin', 'dateMiddle', 'dateEnd', 'mjdBegin', 'mjdMiddle', 'mjdEnd', 'jdBegin'];
const MAKING: readonly Meaning[] = [
  'timeOfDay',
  'timeScale',
  'exposureSeconds',
  'exposureInTimeUnit',
  'filter',
  'telescope',
  'instrument',
  'binningX',
  'binningY',
  'gain',
  'offset',
  'sensorTemperatureC',
  'focusPosition',
];

/** All meanings. */
export const MEANINGS = Object.keys(KEYWORDS) as readonly Meaning[];

/**
 * Makes the table to read headers with.
 *
 * @param extra keywords to accept before the usual ones; more than eight characters mean a HIERARCH keyword
 * @param keep further keywords to read, regardless of meaning
 */
export function keywordTable(extra: ExtraKeywords = {}, keep: readonly string[] = []): KeywordTable {
  const named = (meaning: Meaning): string[] => (extra[meaning] ?? []).map(normalKeyword);
  const names = byMeaning((meaning) => [...named(meaning), ...KEYWORDS[meaning]]);
  const wanted = new KeywordSet([
    ...STRUCTURE_KEYWORDS,
    ...Object.values(names).flat(),
    ...REMARKED.flatMap((meaning) => names[meaning].map((name) => name + REMARK)),
    ...keep.map(normalKeyword),
  ]);
  const keyword = (name: string): Keyword => ({ name, number: wanted.numberOf(name) ?? Number.NaN });
  const usual = (meanings: readonly Meaning[]): Keyword[] =>
    meanings.flatMap((meaning) => KEYWORDS[meaning].map(keyword));
  const placeNames = [
    ...pairs(named('rightAscension'), named('declination')),
    ...pairs(KEYWORDS.rightAscension, KEYWORDS.declination),
  ];
  return {
    accepted: new Map(MEANINGS.map((meaning) => [meaning, names[meaning].map(keyword)])),
    places: placeNames.map(([rightAscension, declination]) => [keyword(rightAscension), keyword(declination)]),
    wanted,
    identity: { dates: usual(DATING), making: usual(MAKING), all: usual(MEANINGS) },
  };
}

function byMeaning<T>(make: (meaning: Meaning) => T): Record<Meaning, T> {
  return Object.fromEntries(MEANINGS.map((meaning) => [meaning, make(meaning)])) as Record<Meaning, T>;
}

/** What is wrong with extra keywords: mistakes, to be reported. */
export function extraKeywordWarnings(extra: ExtraKeywords): Warning[] {
  const unknown = Object.keys(extra).filter((key) => !Object.hasOwn(KEYWORDS, key));
  const warnings = unknown.map(
    (key): Warning => ({
      code: 'unknown-meaning',
      message:
        `'${key}' among the extra header keywords is not a known meaning; write one of ` + `${MEANINGS.join(', ')}.`,
    }),
  );
  const [right, declination] = [extra.rightAscension?.length ?? 0, extra.declination?.length ?? 0];
  if (right !== declination) {
    warnings.push({
      code: 'unpaired-keywords',
      message:
        `The extra header keywords name ${right} for rightAscension and ${declination} for declination, but ` +
        'they form pairs; give as many of one as of the other.',
    });
  }
  return warnings;
}

function pairs(first: readonly string[], second: readonly string[]): [string, string][] {
  return first.flatMap((name, index): [string, string][] => {
    const partner = second[index];
    return partner === undefined ? [] : [[name, partner]];
  });
}
