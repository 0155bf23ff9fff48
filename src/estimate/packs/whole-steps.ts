import type { Decimal } from '../../lib/decimal.ts'

// Beyond it a quotient's last digits are those of the division: 5.000…01 bales are five.
const PLACES = 20

/** The least whole number that is not below a quotient: 20 ft³ ÷ 2 ft³ a bag are 10 bags, never 11. */
export function wholeSteps(quotient: Decimal): Decimal {
  return quotient.toDecimalPlaces(PLACES).ceil()
}
