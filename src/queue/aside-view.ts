import { findStaff } from '../account/queries.ts'
import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { shortDate } from '../language/dates-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import type { RequestRow } from '../requests/queries.ts'
import { type OwnLink, viewOwnLink } from './own-link.ts'

/** What is done with a request besides its step: how it is set aside, and whose it is. */
export interface AsideView {
  /** Until when it is on hold. */
  held: string | null
  givenTo: string | null
  /** '' is nobody. */
  givenId: string
  /** Whether there is anybody to give it to. */
  mayGive: boolean
  staff: { value: string; label: string }[]
  ownLink: OwnLink | null
}

export async function viewAside(deps: Deps, business: Business, wanted: RequestRow): Promise<AsideView> {
  const staff = await findStaff(deps.db)
  const { on_hold_until, given_to } = wanted
  const isHeld = on_hold_until !== null && on_hold_until > dayOf(deps.now(), business.time_zone)
  return {
    held: isHeld ? shortDate(on_hold_until) : null,
    givenTo: staff.find(({ id }) => id === given_to)?.name ?? null,
    givenId: String(given_to ?? ''),
    mayGive: staff.length > 1,
    ownLink: await viewOwnLink(deps, wanted.id, business.time_zone),
    staff: [
      { value: '', label: 'Nobody in particular' },
      ...staff.map(({ id, name }) => ({ value: String(id), label: name })),
    ],
  }
}
