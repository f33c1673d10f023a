/** Local time at Cierzo Hill in October 2026 before the change: UTC + 2 h. */
const LOCAL_MS = 2 * 3_600_000;

export interface Parts {
  readonly year: string;
  readonly month: string;
  readonly day: string;
  readonly hour: string;
  readonly minute: string;
  readonly second: string;
  readonly ms: string;
}

function parts(ms: number): Parts {
  const iso = new Date(ms).toISOString();
  return {
    year: iso.slice(0, 4),
    month: iso.slice(5, 7),
    day: iso.slice(8, 10),
    hour: iso.slice(11, 13),
    minute: iso.slice(14, 16),
    second: iso.slice(17, 19),
    ms: iso.slice(20, 23),
  };
}

export const utcParts = (atMs: number): Parts => parts(atMs);
export const localParts = (atMs: number): Parts => parts(atMs + LOCAL_MS);
