/** A night record's schema id. A separate module: writing needs no schema, which takes long to load. */
export const SCHEMA_ID = 'nightledger/night/1';
