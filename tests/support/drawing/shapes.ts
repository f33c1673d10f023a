/** The light of stars of every shape, as it is before the pixels. Shares no code with the program. */

/** A star's light over the plane, before the pixels; its sum is the flux. */
export type Profile =
  | { readonly kind: 'gaussian'; readonly fwhm: number }
  | { readonly kind: 'moffat'; readonly fwhm: number; readonly beta: number }
  /** Light between two radii, softened by a Gaussian: a defocused star behind a secondary mirror. */
  | { readonly kind: 'ring'; readonly inner: number; readonly outer: number; readonly soft: number };

export interface DrawnShape {
  readonly profile: Profile;
  /** a/b; the geometric mean of both widths is the profile's FWHM. */
  readonly elongation?: number;
  /** Of the long axis, degrees from +x towards +y. */
  readonly direction?: number;
  /** Movement during the exposure: offsets in px and their shares of the time. */
  readonly path?: readonly { readonly x: number; readonly y: number; readonly share: number }[];
}

export const FWHM_PER_SIGMA = Math.sqrt(8 * Math.LN2);

/** Light per px² at an offset from the star, for a flux of 1. */
export function brightnessOf(shape: DrawnShape): (dx: number, dy: number) => number {
  const { elongation = 1, direction = 0, path = [{ x: 0, y: 0, share: 1 }] } = shape;
  const radial = radialOf(shape.profile);
  if (elongation === 1 && shape.path === undefined) return (dx, dy) => radial(dx * dx + dy * dy);
  const cos = Math.cos((direction * Math.PI) / 180);
  const sin = Math.sin((direction * Math.PI) / 180);
  const stretch = Math.sqrt(elongation);
  return (dx, dy) => {
    let sum = 0;
    for (const step of path) {
      const x = dx - step.x;
      const y = dy - step.y;
      const along = (x * cos + y * sin) / stretch;
      const across = (-x * sin + y * cos) * stretch;
      sum += step.share * radial(along * along + across * across);
    }
    return sum;
  };
}

/** Light by the square of the distance, px². */
function radialOf(profile: Profile): (square: number) => number {
  switch (profile.kind) {
    case 'gaussian': {
      const variance = (profile.fwhm / FWHM_PER_SIGMA) ** 2;
      return (square) => Math.exp(-square / (2 * variance)) / (2 * Math.PI * variance);
    }
    case 'moffat': {
      const { beta } = profile;
      const alpha2 = (profile.fwhm / 2) ** 2 / (2 ** (1 / beta) - 1);
      const peak = (beta - 1) / (Math.PI * alpha2);
      const power = inversePower(beta);
      return (square) => peak * power(1 + square / alpha2);
    }
    case 'ring': {
      const { inner, outer, soft } = profile;
      const edge = (r: number, at: number): number => 1 / (1 + Math.exp((r - at) / soft));
      const height = 1 / (Math.PI * (outer ** 2 - inner ** 2));
      return (square) => {
        const r = Math.sqrt(square);
        return height * (edge(r, outer) - edge(r, inner));
      };
    }
  }
}

/** x to the power of −β; by products and a root where β is half a whole number, which takes a sixth of the time. */
function inversePower(beta: number): (x: number) => number {
  if (!Number.isInteger(2 * beta)) return (x) => x ** -beta;
  const whole = Math.floor(beta);
  const isHalf = whole !== beta;
  return (x) => {
    const inverse = 1 / x;
    let power = isHalf ? Math.sqrt(inverse) : 1;
    for (let i = 0; i < whole; i++) power *= inverse;
    return power;
  };
}

export function widthOf(profile: Profile): number {
  return profile.kind === 'ring' ? profile.outer : profile.fwhm;
}

/** Within this of a star its light bends so much that 25 places of a pixel are needed, px. */
export function coreOf({ profile, elongation = 1, path = [] }: DrawnShape): number {
  const moved = Math.max(0, ...path.map(({ x, y }) => Math.hypot(x, y)));
  const wide = profile.kind === 'ring' ? profile.outer + 8 * profile.soft : 2.5 * profile.fwhm;
  return Math.sqrt(elongation) * wide + moved;
}

export function reachOf({ profile, elongation = 1, path = [] }: DrawnShape): number {
  const moved = Math.max(0, ...path.map(({ x, y }) => Math.hypot(x, y)));
  const wide = profile.kind === 'moffat' ? 14 : 4;
  return Math.sqrt(elongation) * wide * widthOf(profile) + moved + 2;
}

/** Steps of a uniform movement of a length and direction, px and degrees, around the middle. */
export function straightPath(length: number, direction: number, steps = 25): NonNullable<DrawnShape['path']> {
  const angle = (direction * Math.PI) / 180;
  return Array.from({ length: steps }, (_, step) => {
    const along = length * ((step + 0.5) / steps - 0.5);
    return { x: along * Math.cos(angle), y: along * Math.sin(angle), share: 1 / steps };
  });
}

/** The FWHM as recorded: of the light averaged over pixels, and around the star for each radius. Round shapes only. */
export function recordedFwhm(profile: Profile): number {
  const brightness = brightnessOf({ profile });
  const average = (radius: number): number => {
    let sum = 0;
    for (let angle = 0; angle < 16; angle++) {
      const x = radius * Math.cos((angle * Math.PI) / 8 + 0.1);
      const y = radius * Math.sin((angle * Math.PI) / 8 + 0.1);
      for (let j = -4; j <= 4; j++) for (let i = -4; i <= 4; i++) sum += brightness(x + i / 9, y + j / 9);
    }
    return sum;
  };
  const half = average(0) / 2;
  let low = 0;
  let high = 4 * widthOf(profile);
  for (let round = 0; round < 50; round++) {
    const middle = (low + high) / 2;
    if (average(middle) > half) low = middle;
    else high = middle;
  }
  return low + high;
}
