/**
 * A figure as people write one, made a plain decimal: "1,250.50" is 1250.50, "3,8" is 3.8, "1.200,5" is 1200.5. Of two
 * kinds of marks the last parts the decimals; a comma alone before three digits groups them ("1,250" is 1250, but
 * "0,250" is 0.250), a point alone parts the decimals ("1.250") unless there are more of it ("1.250.000"). Null where
 * the marks make no figure. `digits` are nothing but digits, points and commas, and at least one digit.
 */
export function plainDecimal(digits: string): string | null {
  const last = Math.max(digits.lastIndexOf('.'), digits.lastIndexOf(','))
  if (last < 0) return digits
  const mark = digits[last]!
  const isAlone = !digits.includes(mark === ',' ? '.' : ',')
  const grouped = mark === ',' ? /^[1-9]\d{0,2}(,\d{3})+$/ : /^[1-9]\d{0,2}(\.\d{3}){2,}$/
  if (isAlone && grouped.test(digits)) return digits.replaceAll(mark, '')
  const [whole, decimals] = [digits.slice(0, last), digits.slice(last + 1)]
  const groups = mark === ',' ? /^\d{1,3}(\.\d{3})+$/ : /^\d{1,3}(,\d{3})+$/
  if (!/^\d*$/.test(whole) && !groups.test(whole)) return null
  const plain = whole.replace(/[.,]/g, '') || '0'
  return decimals === '' ? plain : `${plain}.${decimals}`
}
