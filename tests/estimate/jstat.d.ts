declare module 'jstat' {
  const jstat: {
    normal: {
      inv(p: number, mean: number, deviation: number): number
      cdf(x: number, mean: number, deviation: number): number
    }
    mean(values: number[]): number
    variance(values: number[]): number
    quantiles(values: number[], shares: number[]): number[]
  }
  export default jstat
}
