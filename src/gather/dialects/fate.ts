/**
 * What became of a line: it yielded events, a guiding sample or context for other lines; it is ignored on purpose; a
 * rule matched, but time or numbers are unreadable; or nothing matched.
 */
export type Fate = 'events' | 'sample' | 'context' | 'ignored' | 'unusable' | 'unmatched';
