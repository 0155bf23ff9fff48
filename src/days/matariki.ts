/** Te Kāhui o Matariki Public Holiday Act 2022, schedule 1, of New Zealand: no rule gives these dates, and no later ones are set. */
const DATES = [
  ...['2022-06-24', '2023-07-14', '2024-06-28', '2025-06-20', '2026-07-10', '2027-06-25', '2028-07-14'],
  ...['2029-07-06', '2030-06-21', '2031-07-11', '2032-07-02', '2033-06-24', '2034-07-07', '2035-06-29'],
  ...['2036-07-18', '2037-07-10', '2038-06-25', '2039-07-15', '2040-07-06', '2041-07-19', '2042-07-11'],
  ...['2043-07-03', '2044-06-24', '2045-07-07', '2046-06-29', '2047-07-19', '2048-07-03', '2049-06-25'],
  ...['2050-07-15', '2051-06-30', '2052-06-21'],
]

/** The day on which Matariki is observed in a year; undefined where the law sets none. */
export function matariki(year: number): string | undefined {
  return DATES.find(day => day.startsWith(`${year}-`))
}
