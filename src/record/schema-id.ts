/** What a night record says that it is. By itself: who writes one needs no schema, which takes long to load. */
export const SCHEMA_ID = 'nightledger/night/1';
