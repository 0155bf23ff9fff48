import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import type { Decision } from './same.ts'

export interface Decided {
  other: number
  decision: Decision
  /** Where the form stood: a page of ours. */
  back: string | null
}

const DECISIONS = ['same', 'place', 'apart'] as const

/** Reads whether another customer, or another place, is the same; the buttons say which. */
export function readDecision(fields: FormFields): FormReading<Decided> {
  const decision = fields.choice('decision', DECISIONS, 'Say whether they are the same.')
  const other = fields.carried('other')
  if (other === 0) fields.fault('other', 'Say who is the same.')
  const number = /^\d{2}-\d{4,9}$/.exec(fields.text('number'))?.[0]
  return fields.reading({
    other,
    decision: decision ?? 'apart',
    back: number ? `/${fields.text('back') === 'put-in' ? 'put-in' : 'queue'}/${number}` : null,
  })
}
