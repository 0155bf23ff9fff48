import { datedDay } from '../language/dates-in-words.ts'
import { type Firm, isExempt } from './firms.ts'

/** How a firm's certificate stands on a day: 'certificate TX-1, good through Mar 2, 2026'; null where none was given. */
export function certificateInWords(firm: Firm, today: string): string | null {
  const { exempt_number: number, exempt_until: until } = firm
  if (number === '') return null
  if (until === null) return `Tax exemption certificate ${number}, without an end date`
  return isExempt(firm, today)
    ? `Tax exemption certificate ${number}, good through ${datedDay(until)}`
    : `Tax exemption certificate ${number} expired on ${datedDay(until)}: tax is charged until there’s a new one`
}

/** What to keep in mind with a firm's job, a sentence each; none where nobody agreed on anything. */
export function firmNotes(firm: Firm | undefined, today: string): string[] {
  if (!firm) return []
  return [
    firm.rules && `Their rules: ${firm.rules}`,
    certificateInWords(firm, today) ?? '',
    firm.days_to_pay === null ? '' : `They pay within ${firm.days_to_pay} days of the bill.`,
    [firm.bill_name, firm.bill_email, firm.bill_address].some(Boolean)
      ? `The bill goes to ${[firm.bill_name, firm.bill_email, firm.bill_address.replaceAll('\n', ', ')].filter(Boolean).join(', ')}.`
      : '',
  ].filter(Boolean)
}
