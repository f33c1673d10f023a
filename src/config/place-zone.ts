/**
 * The time zone of a place, without a network: by the boundaries of a lookup library, else by the longitude's hour.
 */
import lookup from '@photostructure/tz-lookup';
import { IANAZone } from 'luxon';
import { zoneByLongitude } from '../model/index.js';

/**
 * The IANA zone of a location; at sea, or if this machine does not know the zone, the whole-hour zone of the longitude.
 *
 * @param longitudeDeg degrees, east positive, on any turn
 */
export function placeZone(latitudeDeg: number, longitudeDeg: number): string {
  const longitude = ((((longitudeDeg + 180) % 360) + 360) % 360) - 180;
  if (!Number.isFinite(longitude) || !(Math.abs(latitudeDeg) <= 90)) return zoneByLongitude(longitudeDeg);
  const zone = lookup(latitudeDeg, longitude);
  return !zone.startsWith('Etc/') && IANAZone.isValidZone(zone) ? zone : zoneByLongitude(longitude);
}
