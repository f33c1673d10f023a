/** Nesting and fields beyond these are no log record. */
export const MAX_DEPTH = 12;
export const MAX_FIELDS = 200;
/** Ends the name of a list that a record of a document holds as a whole, beside the fields of its first element. */
export const WHOLE_LIST = '[]';
