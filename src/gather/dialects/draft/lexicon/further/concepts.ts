/** What a line may be about. `noise` occurs in every log and is irrelevant to any account. */
export type SubjectId =
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
  | 'noise';

/** What happens to a subject. */
export type Motion =
  | 'open'
  | 'close'
  | 'start'
  | 'grab'
  | 'release'
  | 'stop'
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
  | 'clear';

/** The concepts that the lexicon has words for. */
export type Concept = SubjectId | Motion | 'parked' | 'chatter' | 'negation';

/**
 * The words of one more language, concept by concept, as `wordList` reads them: plain words without accents. They come
 * from knowledge of the languages, not from formats.
 */
export type FurtherWords = Readonly<Record<Concept, string>>;
