const MOST_DECIMALS = 9
const LOCALES = { en: 'en-US', es: 'es-US' } as const

/**
 * An amount of money as people read it, "$1,240.00"; whole when it has no cents to tell and `whole` is asked for, with
 * what it has below a cent when `exact` is.
 */
export function moneyInWords(
  amount: string,
  currency: string,
  language: 'en' | 'es',
  { whole = false, exact = false }: { whole?: boolean; exact?: boolean } = {},
): string {
  const format = formatFor(LOCALES[language], {
    style: 'currency',
    currency,
    currencyDisplay: 'narrowSymbol',
    trailingZeroDisplay: whole ? 'stripIfInteger' : 'auto',
    ...(exact ? { maximumFractionDigits: MOST_DECIMALS } : {}),
  })
  return format.format(amount as `${number}`)
}

/** A figure as people read it, "1,208.4", with at most so many decimals. */
export function figureInWords(value: string, language: 'en' | 'es', decimals = 2): string {
  return formatFor(LOCALES[language], { maximumFractionDigits: decimals }).format(value as `${number}`)
}

const formats = new Map<string, Intl.NumberFormat>()

// Making one takes many times as long as using it.
function formatFor(locale: string, options: Intl.NumberFormatOptions): Intl.NumberFormat {
  const key = locale + JSON.stringify(options)
  const format = formats.get(key) ?? new Intl.NumberFormat(locale, options)
  formats.set(key, format)
  return format
}

/** "$620 to $810", whole where there are no cents. */
export function rangeInWords(low: string, high: string, currency: string): string {
  const [from, to] = [low, high].map(amount => moneyInWords(amount, currency, 'en', { whole: true }))
  return from === to ? from! : `${from} to ${to}`
}
