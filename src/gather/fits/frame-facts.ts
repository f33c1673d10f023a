/**
 * What one header says about its frame, in plain units.
 */
import { hash } from 'node:crypto';
import { COUNT, FLUX, FOCUS_POSITION, PIXELS, TEMPERATURE_C } from '../../vocabulary/bounds.js';
import type { FrameKind, HeaderFrame, HeaderSite, StarSize } from '../../model/frame.js';
import type { Interval } from '../../model/interval.js';
import { CardReader } from './card-reader.js';
import type { CardValue } from './card-values.js';
import { clockFacts } from './clock-facts.js';
import { exposureTime } from './exposure-time.js';
import { normalKeyword } from './keyword-set.js';
import type { Keyword, KeywordTable } from './keywords.js';
import { type HeaderNote, show } from './notes.js';
import { fieldPlace, sitePlace } from './places.js';
import type { FitsHeader } from './read-header.js';

const BINNING_RANGE = { from: 1, to: 64, zeroIsUnknown: true };
const LENGTH_RANGE = { from: 0, to: 1_000_000, zeroIsUnknown: true };
const MEASURE_RANGE = { ...FLUX, zeroIsUnknown: true };
const SIZE_RANGE = { ...PIXELS, zeroIsUnknown: true };
const SETTING_RANGE = { from: -1_000_000, to: 1_000_000 };
const ROTATION_RANGE = { from: -3600, to: 3600 };
const ELEVATION_RANGE = { from: -500, to: 9000 };

/** What a frame's file and the caller's table say besides the header. */
export interface FrameContext {
  /** Path relative to the session folder, with forward slashes. */
  readonly file: string;
  readonly table: KeywordTable;
  /** The present, UTC ms: later dates are reported. */
  readonly nowMs: number;
  /** Keywords whose raw values the frame keeps, under the names given here. */
  readonly keep: readonly string[];
}

/** A frame and what is odd about the values in its header. */
export interface FrameWithNotes {
  readonly frame: HeaderFrame;
  readonly notes: readonly HeaderNote[];
}

/**
 * Makes a frame of a header. A value that makes no sense is noted and its fact absent; nothing is guessed but
 * what a note tells.
 */
export function headerFrame(header: FitsHeader, { file, table, nowMs, keep }: FrameContext): FrameWithNotes {
  const notes: HeaderNote[] = [];
  const reader = new CardReader(header.cards, table, notes);
  const { seconds, span } = exposureTime(reader, nowMs);
  const clock = clockFacts(reader);
  const binning = readBinning(reader);
  const axes = header.image?.axes;
  // One literal, absent facts undefined, and what only some kinds have put into the same object: objects of few shapes
  // are made quickest and kept smallest, and a copy of thirty properties costs as much as reading them.
  const common = {
    file,
    sizeBytes: header.sizeBytes,
    headerHash: headerHash(header, table),
    cards: keep.length === 0 ? undefined : keptCards(header, keep),
    exposureSeconds: seconds,
    isClockVouched: clock.isVouched,
    localOffsetMinutes: clock.localOffsetMinutes,
    telescope: reader.text('telescope'),
    instrument: reader.text('instrument'),
    gain: reader.number('gain', SETTING_RANGE),
    offset: reader.number('offset', SETTING_RANGE),
    binning,
    sensorTemperatureC: reader.number('sensorTemperatureC', TEMPERATURE_C),
    setTemperatureC: reader.number('setTemperatureC', TEMPERATURE_C),
    focusPosition: reader.number('focusPosition', FOCUS_POSITION),
    focusTemperatureC: reader.number('focusTemperatureC', TEMPERATURE_C),
    backgroundAdu: reader.number('backgroundAdu', MEASURE_RANGE),
    electronsPerAdu: reader.number('electronsPerAdu', MEASURE_RANGE),
    readNoiseElectrons: reader.number('readNoiseElectrons', MEASURE_RANGE),
    pedestalAdu: readPedestal(reader),
    saturationAdu: reader.number('saturationAdu', MEASURE_RANGE),
    bayerPattern: reader.text('bayerPattern'),
    focalLengthMm: reader.number('focalLengthMm', LENGTH_RANGE),
    apertureMm: reader.number('apertureMm', LENGTH_RANGE),
    pixelSizeUm: readPixelSize(reader, binning?.x ?? 1),
    width: axes?.[0],
    height: axes?.[1],
    site: readSite(reader),
    pierSide: reader.text('pierSide'),
    rotationDeg: reader.number('rotationDeg', ROTATION_RANGE),
    software: reader.text('software'),
  };
  const dated = Object.assign(common, span === undefined ? { exposure: undefined } : { exposure: span });
  const kind = readKind(reader, seconds);
  if (kind === 'light') return { frame: Object.assign(dated, skyFacts(reader, span)), notes };
  if (kind === 'flat') return { frame: Object.assign(dated, { kind, filter: readFilter(reader) }), notes };
  return { frame: Object.assign(dated, { kind }), notes };
}

/** What a light says of its target, its field and the stars in it. */
function skyFacts(reader: CardReader, span: Interval | undefined) {
  const halfFlux = reader.number('starSize', SIZE_RANGE);
  const fwhm = halfFlux ?? reader.number('starFwhm', SIZE_RANGE);
  const starSize: StarSize | undefined =
    fwhm === undefined ? undefined : { pixels: fwhm, measure: halfFlux === undefined ? 'fwhm' : 'half-flux' };
  return {
    kind: 'light' as const,
    filter: readFilter(reader),
    target: reader.text('target'),
    pointing: fieldPlace(reader, span?.startMs),
    starSize,
    starCount: reader.number('starCount', COUNT),
    starFluxAdu: reader.number('starFluxAdu', MEASURE_RANGE),
  };
}

/** What frames of a colour camera without a filter are counted under. */
const COLOUR = 'colour';

function readFilter(reader: CardReader): string | undefined {
  return reader.text('filter') ?? (reader.text('colourMatrix') === undefined ? undefined : COLOUR);
}

function readSite(reader: CardReader): HeaderSite | undefined {
  const site = sitePlace(reader);
  return site && Object.assign(site, { elevationM: reader.number('siteElevationM', ELEVATION_RANGE) });
}

function keptCards(header: FitsHeader, keep: readonly string[]): Record<string, string | number | boolean> {
  const cards: Record<string, string | number | boolean> = {};
  for (const keyword of keep) {
    const value = header.cards.get(normalKeyword(keyword)) ?? null;
    if (value !== null) cards[keyword] = value;
  }
  return cards;
}

/** Without a type card, what is exposed is a light and what is not is a bias. */
function readKind(reader: CardReader, seconds: number | undefined): FrameKind {
  const text = reader.text('kind');
  if (text === undefined) {
    const kind = seconds === 0 ? 'bias' : 'light';
    reader.notes.push({
      code: 'missing-kind',
      card: 'IMAGETYP',
      what: `no card says what the exposure is for; it was taken as a ${kind}`,
      remedy: 'Have the capture program write IMAGETYP, or name the keyword it uses in the rig file.',
    });
    return kind;
  }
  const kind = frameKind(text);
  if (kind !== undefined) return kind;
  const card = reader.firstName('kind') ?? 'IMAGETYP';
  reader.notes.push({
    code: 'unknown-kind',
    card,
    what: `${card} is ${show(text)}, which names no known kind of frame; it was counted as 'other'`,
    remedy: 'Have the capture program write Light, Dark, Flat or Bias.',
  });
  return 'other';
}

/** Some writers state what has to be added to the pixels to be rid of it: the sign is theirs, the level the same. */
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

/**
 * Spellings of IMAGETYP (common practice, no source). Order matters: a dark flat names both, and a master of any kind
 * is no exposure.
 */
const SPELLINGS: readonly (readonly [RegExp, FrameKind])[] = [
  [/master|integration|stack/, 'other'],
  [/dark.*flat|flat.*dark/, 'dark-flat'],
  [/flat/, 'flat'],
  [/dark/, 'dark'],
  [/bias|zero|offset/, 'bias'],
  [/light|object|science|^sci$|target/, 'light'],
  [/focus|test|snapshot|preview|comp|arc|acquisition|calib/, 'other'],
];

/** The text reported last, and its kind: frames of one kind come in long runs. */
let lastTold: { readonly text: string; readonly kind: FrameKind | undefined } = { text: '', kind: undefined };

/**
 * Tells the kind of a frame from the text of its type card: `Light Frame`, `LIGHT`, `object`, `FLATDARK`, `Master
 * Bias`… Masters are `other`, for they are results, not exposures.
 *
 * @returns `undefined` for a spelling that is not known
 */
export function frameKind(text: string): FrameKind | undefined {
  if (text !== lastTold.text) {
    const spelling = text.toLowerCase();
    lastTold = { text, kind: SPELLINGS.find(([pattern]) => pattern.test(spelling))?.[1] };
  }
  return lastTold.kind;
}

/**
 * A frame's identity: SHA-256 (hex) over the cards that identify an exposure (when, how long, with what) and the
 * image's size.
 *
 * Values are hashed, not bytes, and the file's name is not among them: the hash stays when a file is moved, renamed,
 * compressed to .gz or .fz, or rewritten by another program, and when later programs add cards (a plate solution, say)
 * or correct the object's name. It does not depend on a rig file's extra keywords. A header without any date is hashed
 * over every card of the keyword table. Frames whose headers tell nothing apart, such as bias frames within one second
 * under dates without fraction, share a hash.
 */
export function headerHash({ cards, image }: FitsHeader, { wanted, identity }: KeywordTable): string {
  const values = cards.valuesBy(wanted);
  const dates = cardLines(values, identity.dates);
  const others = cardLines(values, dates === '' ? identity.all : identity.making);
  return hash('sha256', `${dates}${others}${image?.axes.join('×') ?? ''}`, 'hex');
}

/** `KEYWORD=value`, a line each, of the cards that have one. */
function cardLines(values: readonly (CardValue | undefined)[], keywords: readonly Keyword[]): string {
  let lines = '';
  for (const { name, number } of keywords) {
    const value = values[number];
    if (value !== undefined && value !== null) lines += `${name}=${value}\n`;
  }
  return lines;
}
