/** Limits on nesting and fields; a log record has fewer. */
export const MAX_DEPTH = 12;
export const MAX_FIELDS = 200;
/**
 * Suffix of the name of a list that a document record holds as a whole, in addition to the fields of its first element.
 */
export const WHOLE_LIST = '[]';
