/** FITS headers: files in, frames and warnings out. */
export type { CardValue } from './card-values.js';
export type { Cards } from './cards.js';
export { type FrameContext, type FrameWithNotes, headerFrame } from './frame-facts.js';
export { headerHash } from './header-hash.js';
export type { ImageShape } from './image-shape.js';
export { type ExtraKeywords, KEYWORDS, type KeywordTable, keywordTable, MEANINGS, type Meaning } from './keywords.js';
export type { HeaderNote } from './notes.js';
export { type FitsHeader, type HeaderResult, readHeader } from './read-header.js';
export { type HeaderFrames, isFitsName, type ReadFramesOptions, readHeaderFrames } from './read-header-frames.js';
