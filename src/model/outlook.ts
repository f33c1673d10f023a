/** What the coming nights offer for unfinished targets. */
export interface Outlook {
  /** First evening considered, `YYYY-MM-DD`. */
  readonly from: string;
  /** The site's name, or `null` when it has none. */
  readonly site: string | null;
  readonly assumptions: OutlookAssumptions;
  readonly pace: Pace;
  readonly targets: readonly TargetOutlook[];
}

/** The parameters of the hours ahead. */
export interface OutlookAssumptions {
  /** Sun's altitude below which it is dark, degrees. */
  readonly sunBelowDeg: number;
  readonly minimumAltitudeDeg: number;
  readonly hasHorizon: boolean;
  /** Whether the altitude limit is from a record or a default. */
  readonly isLimitKnown: boolean;
  /** Separation from the Moon beyond which narrowband is worth exposing, degrees. */
  readonly moonSeparationDeg: number;
  /** The same for deep red lines. */
  readonly deepRedSeparationDeg: number;
  /** Hours above the limit in darkness that make a night worthwhile. */
  readonly worthHours: number;
}

/** Statistics of the user's past nights, applied to coming ones. */
export interface Pace {
  /** Nights with kept integration and known darkness, and the days from the first of them to the last. */
  readonly nights: number;
  readonly days: number;
  /** Nights used in 30.44 days. */
  readonly nightsPerMonth: number | null;
  /** Kept integration of all trains per hour of darkness: median, and the middle 80 % of nights. */
  readonly keptPerDarkHour: Range | null;
  /** Kept hours per night used. */
  readonly keptHoursPerNight: Range | null;
}

/** An estimate with its spread: 10th, 50th and 90th percentile. */
export interface Range {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** Hours of one night in which a target is above its limit in darkness. */
export interface NightHours {
  readonly date: string;
  /** Darkness of the whole night. */
  readonly dark: number;
  readonly up: number;
  /** Of `up`: with the Moon below the horizon. */
  readonly moonless: number;
  /** Of `up`: with the Moon up and farther off than the limit. */
  readonly farMoon: number;
  /** Of `up`: with the Moon up and farther off than the limit of deep red lines. */
  readonly deepRedMoon: number;
}

/** The average night of a month. */
export interface MonthHours {
  /** `YYYY-MM` */
  readonly month: string;
  readonly up: number;
  readonly moonless: number;
  readonly farMoon: number;
}

/** When a target can be imaged. Dates are evenings. */
export type Season =
  | { readonly state: 'now'; readonly until: string | null }
  | { readonly state: 'later'; readonly from: string; readonly until: string | null }
  | { readonly state: 'never'; readonly bestHours: number };

/** One target's coming nights. */
export interface TargetOutlook {
  readonly name: string;
  readonly season: Season;
  readonly months: readonly MonthHours[];
  readonly nights: readonly NightHours[];
  readonly remainingHours: number;
  /** What is missing per filter, most first. */
  readonly wants: readonly Want[];
  /** Absent (`null`) with too few past nights. */
  readonly estimate: Estimate | null;
}

/** Hours a goal lacks. */
export interface Want {
  readonly filter: string | null;
  readonly train: string | null;
  readonly hours: number;
  /** Missing fraction of the goal, 0…1. */
  readonly share: number;
  /** Whether the filter tolerates moonlight; not applicable to a goal over all filters. */
  readonly isNarrowband: boolean;
}

/** Number of further nights, if all go to this target; from resampled past nights. */
export interface Estimate {
  readonly draws: number;
  /** Fraction of simulations that finish within the nights considered, and before this season's end. */
  readonly finished: number;
  readonly finishedThisSeason: number;
  /** Nights used until finished; `null` if the simulation at that rank does not finish. */
  readonly nights: { readonly low: number; readonly middle: number | null; readonly high: number | null } | null;
  /** Evening on which it is finished. */
  readonly dates: { readonly low: string; readonly middle: string | null; readonly high: string | null } | null;
}
