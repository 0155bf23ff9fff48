export { cents, Decimal, roundToCent, sumOf, zero } from './estimate/decimal.ts'
