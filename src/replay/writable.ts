/** An object of one's own that is filled anew, where one for each of a million would take longer than its use. */
export type Writable<T> = { -readonly [K in keyof T]: T[K] };
