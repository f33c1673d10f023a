/** Nesting and fields beyond these are no log record. */
export const MAX_DEPTH = 12;
export const MAX_FIELDS = 200;
