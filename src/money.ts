export { cents, Decimal, roundToCent, sumOf, zero } from './lib/decimal.ts'
