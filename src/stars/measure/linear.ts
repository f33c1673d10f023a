/** Solves a small symmetric system by Gaussian elimination with pivots; `undefined` if it has no unique solution. */
export function solve(matrix: Float64Array, right: Float64Array): Float64Array | undefined {
  const size = right.length;
  const m = matrix.slice();
  const r = right.slice();
  const at = (row: number, column: number): number => m[row * size + column] as number;
  for (let pivot = 0; pivot < size; pivot++) {
    let best = pivot;
    for (let row = pivot + 1; row < size; row++) if (Math.abs(at(row, pivot)) > Math.abs(at(best, pivot))) best = row;
    if (!(Math.abs(at(best, pivot)) > 1e-300)) return undefined;
    for (let column = 0; column < size; column++) {
      const kept = at(pivot, column);
      m[pivot * size + column] = at(best, column);
      m[best * size + column] = kept;
    }
    [r[pivot], r[best]] = [r[best] as number, r[pivot] as number];
    for (let row = pivot + 1; row < size; row++) {
      const factor = at(row, pivot) / at(pivot, pivot);
      for (let column = pivot; column < size; column++)
        m[row * size + column] = at(row, column) - factor * at(pivot, column);
      r[row] = (r[row] as number) - factor * (r[pivot] as number);
    }
  }
  for (let row = size - 1; row >= 0; row--) {
    let sum = r[row] as number;
    for (let column = row + 1; column < size; column++) sum -= at(row, column) * (r[column] as number);
    r[row] = sum / at(row, row);
  }
  return r.every(Number.isFinite) ? r : undefined;
}
