/**
 * What became of a line: it gave events, a guiding sample or something for other lines; it is to be ignored; a rule
 * matched, but time or numbers cannot be read; or nothing matched.
 */
export type Fate = 'events' | 'sample' | 'context' | 'ignored' | 'unusable' | 'unmatched';
