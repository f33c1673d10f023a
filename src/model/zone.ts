/** The whole-hour zone of a longitude (`UTC+2`, `UTC`): local mean time to the hour, good enough to find a night's noon. Degrees, east positive, on any turn. */
export function zoneByLongitude(longitudeDeg: number): string {
  const turn = Math.abs(longitudeDeg) <= 180 ? 0 : 360 * Math.round(longitudeDeg / 360);
  const hours = Math.round((longitudeDeg - turn) / 15);
  return hours === 0 ? 'UTC' : `UTC${hours > 0 ? '+' : '-'}${Math.abs(hours)}`;
}
