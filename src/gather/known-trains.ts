/**
 * Trains named by a log, compared with those of the rig. A name unknown to the rig would silently drop its exposures.
 */
import { groupBy, listed, type LineTimes, type LogEvent, type Warning } from '../model/index.js';

/**
 * One log's events with the rig's own ids. Names are compared case-insensitively; events of another train count for
 * none, since those of the mount and the guiding still apply.
 *
 * @param trains the rig's ids
 */
export function withKnownTrains<E extends LogEvent>(
  events: readonly E[],
  trains: readonly string[],
): { readonly events: E[]; readonly warnings: Warning[] } {
  const idOf = idsOf(trains);
  const known: E[] = [];
  const strange: E[] = [];
  // Mostly it is the train of the line before.
  let [last, lastId]: (string | undefined)[] = [];
  for (const event of events) {
    if (event.train !== last) {
      last = event.train;
      lastId = idOf(last);
    }
    const id = lastId;
    if (id === undefined && event.train !== undefined) strange.push(event);
    known.push(id === event.train ? event : { ...event, train: id });
  }
  return { events: known, warnings: unknownTrains(strange, trains) };
}

/** The instants of lines with the rig's own ids; those of a train that the rig does not have are of none. */
export function timesOfKnownTrains(times: readonly LineTimes[], trains: readonly string[]): LineTimes[] {
  const idOf = idsOf(trains);
  return times.map((own) => ({ ...own, train: idOf(own.train) }));
}

/** The rig's id of a train as a log names it; `undefined` where the rig has none. */
function idsOf(trains: readonly string[]): (name: string | undefined) => string | undefined {
  const ids = new Map(trains.map((id) => [id.toLowerCase(), id]));
  return (name) => (name === undefined ? undefined : ids.get(name.toLowerCase()));
}

function unknownTrains(strange: readonly LogEvent[], trains: readonly string[]): Warning[] {
  const [first] = strange;
  if (!first) return [];
  const names = [...groupBy(strange, ({ train }) => train).keys()].flatMap((name) => name ?? []);
  const exposures = strange.filter(({ event }) => event === 'exposure-begin').length;
  const [one = 'NAME'] = names;
  return [
    {
      code: 'unknown-train',
      message:
        `the log names ${listed(names)}, but the rig's trains are ${trains.join(', ')}: ` +
        `${exposures} of its exposures are left out. Give a train of the rig that id, or map the name to an id: ` +
        `"trains: { ${one}: ${trains[0] ?? 'ID'} }" in the dialect`,
      source: first.source,
      count: strange.length,
    },
  ];
}
