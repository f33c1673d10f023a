/** Minimum lead of an event over the next best. */
export const LEAD = 0.5;
/**
 * A poorer fit with the timeline requires a larger lead. On the open formats a third of the events with a smaller lead
 * were wrong, and they were 2 % of all.
 */
const LEAD_OF_DOUBTFUL = 1;
const FITS = 0.75;
const LEAD_OF_MISFITS = 2.5;
const MISFIT = 0.35;

/** The required lead of an event, given its fit; 0: no evidence. */
export function leadOver(fit: number): number {
  return fit !== 0 && fit < MISFIT ? LEAD_OF_MISFITS : fit < FITS ? LEAD_OF_DOUBTFUL : LEAD;
}
