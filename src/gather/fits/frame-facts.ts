/**
 * What one header says about its frame, in plain units.
 */
import { COUNT, FLUX, FOCUS_POSITION, PIXELS, TEMPERATURE_C } from '../../vocabulary/bounds.js';
import type { HeaderFrame, LightFacts, StarSize } from '../../model/frame.js';
import type { Interval } from '../../model/interval.js';
import { CardReader } from './card-reader.js';
import { localOffsetMinutes } from './clock-facts.js';
import { repeatedOf } from './equipment-facts.js';
import { MISSING_EXPOSURE_TIME } from './exposure-notes.js';
import { exposureTime } from './exposure-time.js';
import { readKind } from './frame-kind.js';
import { headerHash } from './header-hash.js';
import { normalKeyword } from './keyword-set.js';
import type { KeywordTable } from './keywords.js';
import { tellCutOff, type HeaderNote } from './notes.js';
import { fieldPlace } from './places.js';
import { presentIn } from './present-keywords.js';
import type { FitsHeader } from './read-header.js';

const MEASURE_RANGE = { ...FLUX, zeroIsUnknown: true };
const SIZE_RANGE = { ...PIXELS, zeroIsUnknown: true };

/** Facts from a frame's file and the caller's table in addition to the header. */
export interface FrameContext {
  /** Path relative to the session folder, with forward slashes. */
  readonly file: string;
  readonly table: KeywordTable;
  /** The present, UTC ms: later dates are reported. */
  readonly nowMs: number;
  /** Keywords whose raw values the frame keeps, under the names given here. */
  readonly keep: readonly string[];
}

/** A frame and the notes on the values in its header. */
export interface FrameWithNotes {
  readonly frame: HeaderFrame;
  readonly notes: readonly HeaderNote[];
}

/** Converts a header to a frame. An invalid value is noted and its fact absent; nothing is guessed without a note. */
export function headerFrame(header: FitsHeader, { file, table: whole, nowMs, keep }: FrameContext): FrameWithNotes {
  const notes: HeaderNote[] = [];
  const table = presentIn(header.cards, whole);
  const reader = new CardReader(header.cards, table, notes);
  const { seconds, unlikely, span } = exposureTime(reader, nowMs);
  const localOffset = localOffsetMinutes(reader);
  const { camera, equipment } = repeatedOf(table);
  const { isClockVouched, binning, telescope, instrument, gain, offset } = camera.of(header.cards, notes);
  const axes = header.image?.axes;
  const sensorTemperatureC = reader.number('sensorTemperatureC', TEMPERATURE_C);
  const setTemperatureC = reader.number('setTemperatureC', TEMPERATURE_C);
  const focusPosition = reader.number('focusPosition', FOCUS_POSITION);
  const focusTemperatureC = reader.number('focusTemperatureC', TEMPERATURE_C);
  const backgroundAdu = reader.number('backgroundAdu', MEASURE_RANGE);
  const made = equipment.of(header.cards, notes);
  const kind = readKind(reader, seconds);
  // A light has a nonzero length: its program did not state it.
  const isUnstated = kind === 'light' && seconds === 0;
  if (isUnstated) notes.push(MISSING_EXPOSURE_TIME);
  const filter = kind === 'light' || kind === 'flat' ? readFilter(reader, axes) : undefined;
  const sky = kind === 'light' ? skyFacts(reader, span) : NO_SKY;
  // One literal, absent facts undefined: objects of one shape are made quickest and kept smallest, and a copy of thirty
  // properties costs as much as reading them.
  const frame = {
    file,
    sizeBytes: header.sizeBytes,
    isCutOff: tellCutOff(header.notes) ? true : undefined,
    headerHash: headerHash(header, table),
    cards: keep.length === 0 ? undefined : keptCards(header, keep),
    exposureSeconds: isUnstated ? undefined : seconds,
    unlikelySeconds: unlikely,
    isClockVouched,
    localOffsetMinutes: localOffset,
    telescope,
    instrument,
    gain,
    offset,
    binning,
    sensorTemperatureC,
    setTemperatureC,
    focusPosition,
    focusTemperatureC,
    backgroundAdu,
    electronsPerAdu: made.electronsPerAdu,
    readNoiseElectrons: made.readNoiseElectrons,
    pedestalAdu: made.pedestalAdu,
    saturationAdu: made.saturationAdu,
    bayerPattern: made.bayerPattern,
    focalLengthMm: made.focalLengthMm,
    apertureMm: made.apertureMm,
    pixelSizeUm: made.pixelSizeUm,
    width: axes?.[0],
    height: axes?.[1],
    site: made.site,
    pierSide: made.pierSide,
    rotationDeg: made.rotationDeg,
    software: made.software,
    exposure: span,
    kind,
    filter,
    target: sky.target,
    pointing: sky.pointing,
    starSize: sky.starSize,
    starCount: sky.starCount,
    starFluxAdu: sky.starFluxAdu,
  };
  // The facts are those that its kind may have.
  return { frame: frame as HeaderFrame, notes };
}

type SkyFacts = Pick<LightFacts, 'target' | 'pointing' | 'starSize' | 'starCount' | 'starFluxAdu'>;

const NO_SKY: SkyFacts = {};

/** A light's facts on its target, its field and the stars in it. */
function skyFacts(reader: CardReader, span: Interval | undefined): SkyFacts {
  const halfFlux = reader.number('starSize', SIZE_RANGE);
  const fwhm = halfFlux ?? reader.number('starFwhm', SIZE_RANGE);
  const starSize: StarSize | undefined =
    fwhm === undefined ? undefined : { pixels: fwhm, measure: halfFlux === undefined ? 'fwhm' : 'half-flux' };
  return {
    target: reader.text('target'),
    pointing: fieldPlace(reader, span?.startMs),
    starSize,
    starCount: reader.number('starCount', COUNT),
    starFluxAdu: reader.number('starFluxAdu', MEASURE_RANGE),
  };
}

/** What frames of a colour camera without a filter are counted under. */
const COLOUR = 'colour';
/** Planes of an image in colours, along its third axis. Common practice, no source. */
const COLOUR_PLANES = 3;

function readFilter(reader: CardReader, axes: readonly number[] | undefined): string | undefined {
  const inColours = reader.text('colourMatrix') !== undefined || axes?.[2] === COLOUR_PLANES;
  return reader.text('filter') ?? (inColours ? COLOUR : undefined);
}

function keptCards(header: FitsHeader, keep: readonly string[]): Record<string, string | number | boolean> {
  const cards: Record<string, string | number | boolean> = {};
  for (const keyword of keep) {
    const value = header.cards.get(normalKeyword(keyword)) ?? null;
    if (value !== null) cards[keyword] = value;
  }
  return cards;
}
