/**
 * The treatment of a field of the night when a report is shared: copied, rounded, or left out. A field without a class
 * does not compile.
 */
export type RedactionClass = 'public' | 'coarse' | 'private';
