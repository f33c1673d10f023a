/**
 * Colours as people with a colour vision deficiency see them, and how far apart two colours look.
 */
import { channels, toLinear } from '../../src/report/design/contrast.js';

type Triple = readonly [number, number, number];
type Matrix = readonly [Triple, Triple, Triple];

/**
 * Dichromacy simulated in linear sRGB: G. M. Machado, M. M. Oliveira & L. A. F. Fernandes 2009, "A physiologically-based
 * model for simulation of color vision deficiency", IEEE Transactions on Visualization and Computer Graphics 15, 1291,
 * matrices for severity 1.0. Values from memory.
 */
export const DEFICIENCIES: Readonly<Record<'protanopia' | 'deuteranopia' | 'tritanopia', Matrix>> = {
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

const NORMAL: Matrix = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

function apply(matrix: Matrix, [r, g, b]: Triple): Triple {
  const row = ([x, y, z]: Triple): number => Math.min(1, Math.max(0, x * r + y * g + z * b));
  return [row(matrix[0]), row(matrix[1]), row(matrix[2])];
}

/** Lightness and two opponent axes of linear sRGB: Oklab, B. Ottosson 2020, "A perceptual color space for image processing". From memory. */
function oklab([r, g, b]: Triple): Triple {
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}

function linear(hex: string): Triple {
  const [r, g, b] = channels(hex);
  return [toLinear(r), toLinear(g), toLinear(b)];
}

/** How far apart two colours look: distance in Oklab times 100. About 2 is just visible side by side. */
export function difference(a: string, b: string, deficiency?: keyof typeof DEFICIENCIES): number {
  const matrix = deficiency === undefined ? NORMAL : DEFICIENCIES[deficiency];
  const [x, y] = [oklab(apply(matrix, linear(a))), oklab(apply(matrix, linear(b)))];
  return 100 * Math.hypot(x[0] - y[0], x[1] - y[1], x[2] - y[2]);
}
