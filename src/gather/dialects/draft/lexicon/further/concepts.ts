/** What the lexicon has words for. */
export type Concept =
  | 'exposure'
  | 'frame'
  | 'dither'
  | 'settling'
  | 'focus'
  | 'filter'
  | 'slew'
  | 'centre'
  | 'flip'
  | 'guiding'
  | 'star'
  | 'hold'
  | 'session'
  | 'cooler'
  | 'noise'
  | 'open'
  | 'close'
  | 'start'
  | 'stop'
  | 'grab'
  | 'release'
  | 'arrive'
  | 'doing'
  | 'did'
  | 'wait'
  | 'pause'
  | 'resume'
  | 'lose'
  | 'find'
  | 'fail'
  | 'abort'
  | 'ready'
  | 'danger'
  | 'clear'
  | 'parked'
  | 'chatter'
  | 'negation';

/**
 * The words of one more language, concept by concept, as `wordList` reads them: plain words without accents. They come
 * from knowledge of the languages, not from formats.
 */
export type FurtherWords = Readonly<Record<Concept, string>>;
