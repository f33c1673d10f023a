/** The site in the rig file. */
import { IANAZone } from 'luxon';
import { z } from 'zod';
import { mapping, number, text } from './fields.js';

export const site = z
  .object(
    {
      name: text('the name of the site').default('unnamed site'),
      latitude: number('degrees, north positive', -90, 90),
      longitude: number('degrees, east positive', -180, 360),
      elevation: number('metres', -500, 9000).optional(),
      timezone: text('an IANA time zone, such as Europe/Madrid')
        .refine((zone) => IANAZone.isValidZone(zone), {
          error: (issue) => `is not an IANA time zone: "${String(issue.input)}"; write one such as Europe/Madrid`,
        })
        .optional(),
      minimumAltitude: number('degrees', -5, 89).default(25),
      horizon: z
        .array(
          z.tuple([number('azimuth in degrees', 0, 360), number('altitude in degrees', -10, 90)], {
            error: 'must be a pair [azimuth, altitude]',
          }),
          { error: 'must be a list of [azimuth, altitude] pairs' },
        )
        .default([]),
    },
    { error: mapping('{ latitude: 40.42, longitude: -1.12 }') },
  )
  .loose();
