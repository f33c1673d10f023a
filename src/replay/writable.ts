/** A reusable mutable object, where allocating one for each of a million would take longer than its use. */
export type Writable<T> = { -readonly [K in keyof T]: T[K] };
