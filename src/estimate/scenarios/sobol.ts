export const SOBOL_DIMENSIONS = 16

// Per dimension from the second: the degree s, the coefficients a, and the first direction numbers m.
const directions: [s: number, a: number, m: number[]][] = [
  [1, 0, [1]],
  [2, 1, [1, 3]],
  [3, 1, [1, 3, 1]],
  [3, 2, [1, 1, 1]],
  [4, 1, [1, 1, 3, 3]],
  [4, 4, [1, 3, 5, 13]],
  [5, 2, [1, 1, 5, 5, 17]],
  [5, 4, [1, 1, 5, 5, 5]],
  [5, 7, [1, 1, 7, 11, 19]],
  [5, 11, [1, 1, 5, 1, 1]],
  [5, 13, [1, 1, 1, 3, 11]],
  [5, 14, [1, 3, 5, 5, 31]],
  [6, 1, [1, 3, 3, 9, 7, 49]],
  [6, 13, [1, 1, 1, 15, 21, 21]],
  [6, 16, [1, 3, 1, 13, 27, 49]],
]

/**
 * The first 2^bits Sobol points in Gray-code order, one array per dimension, point 0 at the origin. Direction numbers
 * of S. Joe and F. Y. Kuo, SIAM J. Sci. Comput. 30 (2008), file new-joe-kuo-6.21201.
 */
export function sobolPoints(bits: number): Float64Array[] {
  return Array.from({ length: SOBOL_DIMENSIONS }, (_, dimension) => oneDimension(dimension, bits))
}

function oneDimension(dimension: number, bits: number): Float64Array {
  const steps = directionNumbers(dimension, bits)
  const points = new Float64Array(2 ** bits)
  let point = 0
  for (let index = 1; index < points.length; index++) {
    point ^= steps[trailingZeros(index)]!
    points[index] = point / 2 ** bits
  }
  return points
}

function directionNumbers(dimension: number, bits: number): number[] {
  const [degree, coefficients, first] = dimension === 0 ? [0, 0, []] : directions[dimension - 1]!
  const numbers: number[] = []
  for (let index = 0; index < bits; index++) {
    if (dimension === 0) numbers.push(1)
    else if (index < degree) numbers.push(first[index]!)
    else numbers.push(nextNumber(numbers, degree, coefficients))
  }
  return numbers.map((number, index) => number * 2 ** (bits - 1 - index))
}

function nextNumber(numbers: number[], degree: number, coefficients: number): number {
  const back = (steps: number) => numbers[numbers.length - steps]!
  let next = back(degree) ^ (2 ** degree * back(degree))
  for (let step = 1; step < degree; step++) {
    if ((coefficients >> (degree - 1 - step)) & 1) next ^= 2 ** step * back(step)
  }
  return next
}

function trailingZeros(index: number): number {
  return 31 - Math.clz32(index & -index)
}
