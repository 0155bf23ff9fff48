import type { Step } from '../db/schema/stages.ts'
import type { FormFields } from '../http/form-fields.ts'
import { readDate } from '../lib/dates.ts'
import type { After } from './list.ts'
import { isStep, type Narrowed } from './steps.ts'

const LONGEST_SEARCH = 100

/** What an address asks of the list: everything that narrows it, and where a page begins. */
export interface Asked extends Narrowed {
  /** What is searched for; '' is nothing. */
  typed: string
  step: Step | null
  apart: 'hold' | 'junk' | null
  /** As it stands in the address: the number of an account, 'nobody', or '' for everybody's. */
  who: string
  after: After | null
}

/** Reads `q`, `step`, `show`, `who` and `after`; what can't be read narrows nothing. */
export function readAsked(asked: FormFields): Asked {
  const step = asked.text('step')
  const apart = asked.text('show')
  const who = /^(nobody|\d{1,9})$/.exec(asked.text('who'))?.[0] ?? ''
  return {
    typed: asked.text('q').slice(0, LONGEST_SEARCH).trim(),
    step: isStep(step) ? step : null,
    apart: apart === 'hold' || apart === 'junk' ? apart : null,
    who,
    givenTo: who === '' ? null : who === 'nobody' ? 'nobody' : Number(who),
    after: readAfter(asked.text('after')),
  }
}

/** The address of the same list from a row on, or from its beginning. */
export function pathOf(
  { typed, step, apart, who }: Omit<Asked, 'givenTo' | 'after'>,
  after: After | null,
): string {
  const fields = {
    q: typed,
    step: step ?? '',
    show: apart ?? '',
    who,
    after: after ? [after.id, after.due].filter(Boolean).join('@') : '',
  }
  const query = new URLSearchParams(Object.entries(fields).filter(([, text]) => text !== ''))
  return query.size > 0 ? `/queue?${query}` : '/queue'
}

function readAfter(typed: string): After | null {
  const [, id, due = ''] = /^(\d{1,15})(?:@([1-9]\d{3}-[-\d:.TZ]{6,35}))?$/.exec(typed) ?? []
  // What the database would refuse begins at the top again.
  if (id === undefined || (due !== '' && !isDue(due))) return null
  return { id: Number(id), due }
}

function isDue(typed: string): boolean {
  if (readDate(typed)) return true
  try {
    return Boolean(Temporal.Instant.from(typed))
  } catch {
    return false
  }
}
