const centreOver = [
  3.387132872796366608, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125,
  45921.953931549871457, 67265.770927008700853, 33430.575583588128105, 2509.0809287301226727,
]
const centreUnder = [
  1, 42.313330701600911252, 687.1870074920579083, 5394.1960214247511077, 21213.794301586595867,
  39307.89580009271061, 28729.085735721942674, 5226.495278852854561,
]
const tailOver = [
  1.42343711074968357734, 4.6303378461565452959, 5.7694972214606914055, 3.64784832476320460504,
  1.27045825245236838258, 0.24178072517745061177, 0.0227238449892691845833, 7.7454501427834140764e-4,
]
const tailUnder = [
  1, 2.05319162663775882187, 1.6763848301838038494, 0.68976733498510000455, 0.14810397642748007459,
  0.0151986665636164571966, 5.475938084995344946e-4, 1.05075007164441684324e-9,
]

/** The standard normal deviate below which a share p lies, 1e-10 < p < 1 − 1e-10 (M. J. Wichura, AS 241, 1988). */
export function inverseNormal(p: number): number {
  const q = p - 0.5
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q
    return (q * polynomial(centreOver, r)) / polynomial(centreUnder, r)
  }
  const r = Math.sqrt(-Math.log(Math.min(p, 1 - p))) - 1.6
  return (Math.sign(q) * polynomial(tailOver, r)) / polynomial(tailUnder, r)
}

function polynomial(coefficients: number[], x: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0)
}
