/**
 * The one table of meaning → accepted FITS keywords. The first keyword of a row that stands in a header counts.
 * A rig file may add keywords to any row; they come before those listed here.
 */
import { STRUCTURE_KEYWORDS } from './image-shape.js';
import { KeywordSet, normalKeyword } from './keyword-set.js';

/** Accepted keywords. Standard: FITS Standard 4.0, sections 4.4.2, 8 and 9; the rest is common practice, no source. */
export const KEYWORDS = {
  kind: ['IMAGETYP', 'IMGTYPE', 'OBSTYPE', 'FRAMETYP'],
  target: ['OBJECT', 'OBJNAME', 'TARGNAME', 'TARGET'],
  filter: ['FILTER', 'FILTER1', 'FILTERID', 'FILTNAM'],
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

  /** Places: the n-th right ascension belongs to the n-th declination. Degrees, or sexagesimal text. */
  rightAscension: ['RA', 'OBJCTRA', 'RA_OBJ', 'RA_TARG', 'RA_PNT', 'TELRA'],
  declination: ['DEC', 'OBJCTDEC', 'DEC_OBJ', 'DEC_TARG', 'DEC_PNT', 'TELDEC'],
  equinox: ['EQUINOX', 'EPOCH'],
  celestialFrame: ['RADESYS', 'RADECSYS'],
  axisType1: ['CTYPE1'],
  axisType2: ['CTYPE2'],
  axisValue1: ['CRVAL1'],
  axisValue2: ['CRVAL2'],

  /** The camera's own gain and offset settings; electrons per ADU stand in a row of their own. */
  gain: ['GAIN'],
  offset: ['OFFSET', 'BLKLEVEL'],
  binningX: ['XBINNING', 'XBIN', 'CCDXBIN'],
  binningY: ['YBINNING', 'YBIN', 'CCDYBIN'],
  sensorTemperatureC: ['CCD-TEMP', 'CCDTEMP', 'DET-TEMP', 'DETTEMP'],
  setTemperatureC: ['SET-TEMP', 'SETTEMP'],
  electronsPerAdu: ['EGAIN'],
  readNoiseElectrons: ['RDNOISE', 'READNOIS', 'RON'],
  /** Micrometres. Rows apart, for a keyword either means the pixel as made or the pixel as binned. */
  unbinnedPixelSizeUm: ['PIXSIZE1'],
  binnedPixelSizeUm: ['XPIXSZ', 'PIXSIZE'],

  focalLengthMm: ['FOCALLEN', 'FOCLEN'],
  apertureMm: ['APTDIA', 'TELDIAM'],
  focusPosition: ['FOCUSPOS', 'FOCPOS', 'TELFOCUS'],
  focusTemperatureC: ['FOCTEMP', 'FOCUSTEM'],
  rotationDeg: ['ROTANGLE', 'ROTATANG', 'ROTPA', 'CROTA2'],
  pierSide: ['PIERSIDE'],

  starSize: ['STARSIZE', 'HFR', 'FWHM', 'MEANFWHM'],
  starCount: ['STARCNT', 'NSTARS'],
  backgroundAdu: ['BACKGRND', 'BKGLEVEL', 'SKYLEVEL', 'SKYBKG'],

  /** Degrees or sexagesimal text, east positive, and metres. */
  siteLatitude: ['OBSGEO-B', 'SITELAT', 'LAT-OBS', 'OBS-LAT', 'LATITUDE'],
  siteLongitude: ['OBSGEO-L', 'SITELONG', 'LONG-OBS', 'OBS-LONG', 'LONGITUD'],
  siteElevationM: ['OBSGEO-H', 'SITEELEV', 'ALT-OBS', 'OBS-ELEV', 'ELEVATIO'],
} as const satisfies Readonly<Record<string, readonly string[]>>;

/** What a keyword may mean. */
export type Meaning = keyof typeof KEYWORDS;

/** Keywords to accept besides the table's, by meaning. A rig file may name a meaning that does not exist: see `unknownMeanings`. */
export type ExtraKeywords = Partial<Readonly<Record<Meaning, readonly string[]>>>;

/** Accepted keywords by meaning, and the set of all of them. */
export interface KeywordTable {
  readonly accepted: Readonly<Record<Meaning, readonly string[]>>;
  /** Every keyword of the table and of the data's structure. */
  readonly wanted: KeywordSet;
}

/** All meanings. */
export const MEANINGS = Object.keys(KEYWORDS) as readonly Meaning[];

/**
 * Makes the table to read headers with.
 *
 * @param extra keywords to accept before the usual ones; more than eight characters mean a HIERARCH keyword
 * @param keep further keywords to read, whatever they mean
 */
export function keywordTable(extra: ExtraKeywords = {}, keep: readonly string[] = []): KeywordTable {
  const accepted: Record<string, readonly string[]> = {};
  for (const meaning of MEANINGS) accepted[meaning] = [...(extra[meaning] ?? []).map(normalKeyword), ...KEYWORDS[meaning]];
  return {
    accepted: accepted as KeywordTable['accepted'],
    wanted: new KeywordSet([...STRUCTURE_KEYWORDS, ...Object.values(accepted).flat(), ...keep]),
  };
}

/** Keys that are no meaning: slips of the pen, to be told. */
export function unknownMeanings(extra: ExtraKeywords): string[] {
  return Object.keys(extra).filter((key) => !Object.hasOwn(KEYWORDS, key));
}
