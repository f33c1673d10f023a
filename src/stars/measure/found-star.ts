/** One star while its frame is measured: positions from 0 in the frame, levels in samples, sizes in stored pixels. */
export interface FoundStar {
  x: number;
  y: number;
  readonly kind: 'star' | 'blend' | 'ring';
  /** Brightest sample, and how many in its neighbourhood equal it. */
  readonly peak: number;
  readonly plateau: number;
  readonly level: number;
  readonly noise: number;
  /** Adaptive moments, px²; absent if they do not converge. */
  moments: { readonly xx: number; readonly xy: number; readonly yy: number } | undefined;
  /** Sum in the aperture and its uncertainty. */
  readonly flux: number;
  readonly fluxUncertainty: number;
  /** A neighbour shares the aperture. */
  crowded: boolean;
  /** From the profile, for the stars selected for close measurement. */
  fwhm: number | undefined;
  /** The same without the pixel's contribution, for small stars. */
  ownFwhm: number | undefined;
  halfFlux: number | undefined;
  /** How much flatter it is along its long axis than across. */
  flatness: number | undefined;
}
