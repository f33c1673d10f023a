/** Header facts about camera, telescope and site: the same for most frames of a night. */
import { FLUX } from '../../vocabulary/bounds.js';
import type { HeaderSite } from '../../model/frame.js';
import type { CardReader } from './card-reader.js';
import { isClockVouched } from './clock-facts.js';
import type { KeywordTable, Meaning } from './keywords.js';
import { sitePlace } from './places.js';
import { RepeatedFacts } from './repeated-facts.js';

const BINNING_RANGE = { from: 1, to: 64, zeroIsUnknown: true };
const LENGTH_RANGE = { from: 0, to: 1_000_000, zeroIsUnknown: true };
const SETTING_RANGE = { from: -1_000_000, to: 1_000_000 };
const ROTATION_RANGE = { from: -3600, to: 3600 };
const ELEVATION_RANGE = { from: -500, to: 9000 };
const MEASURE_RANGE = { ...FLUX, zeroIsUnknown: true };

const CAMERA: readonly Meaning[] = [
  'timeSource',
  'timeUnit',
  'timeError',
  'binningX',
  'binningY',
  'telescope',
  'instrument',
  'gain',
  'offset',
];

function cameraFacts(reader: CardReader) {
  return {
    isClockVouched: isClockVouched(reader) ? true : undefined,
    binning: readBinning(reader),
    telescope: reader.text('telescope'),
    instrument: reader.text('instrument'),
    gain: reader.number('gain', SETTING_RANGE),
    offset: reader.number('offset', SETTING_RANGE),
  };
}

const EQUIPMENT: readonly Meaning[] = [
  'electronsPerAdu',
  'readNoiseElectrons',
  'pedestalAdu',
  'saturationAdu',
  'bayerPattern',
  'focalLengthMm',
  'apertureMm',
  'binningX',
  'binningY',
  'unbinnedPixelSizeUm',
  'binnedPixelSizeUm',
  'siteLatitude',
  'siteLongitude',
  'siteElevationM',
  'pierSide',
  'rotationDeg',
  'software',
];

function equipmentFacts(reader: CardReader) {
  return {
    electronsPerAdu: reader.number('electronsPerAdu', MEASURE_RANGE),
    readNoiseElectrons: reader.number('readNoiseElectrons', MEASURE_RANGE),
    pedestalAdu: readPedestal(reader),
    saturationAdu: reader.number('saturationAdu', MEASURE_RANGE),
    bayerPattern: reader.text('bayerPattern'),
    focalLengthMm: reader.number('focalLengthMm', LENGTH_RANGE),
    apertureMm: reader.number('apertureMm', LENGTH_RANGE),
    pixelSizeUm: readPixelSize(reader, readBinning(reader.quiet())?.x ?? 1),
    site: readSite(reader),
    pierSide: reader.text('pierSide'),
    rotationDeg: reader.number('rotationDeg', ROTATION_RANGE),
    software: reader.text('software'),
  };
}

/** Values repeated among frames read with one table. */
interface Repeated {
  readonly camera: RepeatedFacts<ReturnType<typeof cameraFacts>>;
  readonly equipment: RepeatedFacts<ReturnType<typeof equipmentFacts>>;
}

const repeated = new WeakMap<KeywordTable, Repeated>();

/** The facts of the frames that are read with a table. */
export function repeatedOf(table: KeywordTable): Repeated {
  let facts = repeated.get(table);
  if (facts === undefined) {
    facts = {
      camera: new RepeatedFacts(table, CAMERA, cameraFacts),
      equipment: new RepeatedFacts(table, EQUIPMENT, equipmentFacts),
    };
    repeated.set(table, facts);
  }
  return facts;
}

function readSite(reader: CardReader): HeaderSite | undefined {
  const site = sitePlace(reader);
  return site && Object.assign(site, { elevationM: reader.number('siteElevationM', ELEVATION_RANGE) });
}

/** Some writers state the correction to be added to the pixels: only the sign differs. */
function readPedestal(reader: CardReader): number | undefined {
  const level = reader.number('pedestalAdu', SETTING_RANGE);
  return level === undefined ? undefined : Math.abs(level);
}

/** Binning along both axes; where only one is given the other is the same. */
function readBinning(reader: CardReader): { readonly x: number; readonly y: number } | undefined {
  const x = reader.number('binningX', BINNING_RANGE);
  const y = reader.number('binningY', BINNING_RANGE);
  const either = x ?? y;
  return either === undefined ? undefined : { x: x ?? either, y: y ?? either };
}

/**
 * The unbinned pixel. XPIXSZ was defined as the size after binning, and is read so; as some writers put the
 * unbinned size there, the division is reported whenever frames are binned.
 */
function readPixelSize(reader: CardReader, binning: number): number | undefined {
  const unbinned = reader.number('unbinnedPixelSizeUm', LENGTH_RANGE);
  if (unbinned !== undefined) return unbinned;
  const binned = reader.number('binnedPixelSizeUm', LENGTH_RANGE);
  if (binned === undefined || binning === 1) return binned;
  const card = reader.firstName('binnedPixelSizeUm') ?? 'XPIXSZ';
  const size = binned / binning;
  reader.notes.push({
    code: 'binned-pixel-size',
    card,
    what: `${card} is ${binned} µm at ${binning}-fold binning, read as the binned size: the pixel itself is ${size} µm`,
    remedy: 'If that is not so, give pixelSize in the rig file.',
  });
  return size;
}
