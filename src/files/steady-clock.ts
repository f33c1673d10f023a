/**
 * A clock that only goes forward, for how long something takes, ms. Node's `performance` tells the same and costs the
 * loading of all that it measures with, 1 ms of every start.
 */
export function steadyMs(): number {
  const [seconds, nanoseconds] = process.hrtime();
  return seconds * 1000 + nanoseconds / 1e6;
}
