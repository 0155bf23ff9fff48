import type { FastifyReply } from 'fastify'
import { WEEKDAYS } from '../business/form.ts'
import { type Business, findBusiness } from '../business/queries.ts'
import { type Sharing, sharingOf } from '../business/sharing.ts'
import { timeZones } from '../business/time-zones.ts'
import type { Role } from '../db/schema/accounts.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { COUNTRIES } from '../language/countries.ts'
import { dayInWords, momentInWords } from '../language/dates-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import { findRoleChanges } from './change-role.ts'
import { findInvitations } from './invitation-queries.ts'
import { findOthers } from './queries.ts'

interface StaffView {
  id: number
  name: string
  email: string
  role: Role
  /** Whether a code or a passkey is asked of them. */
  asks_more: unknown
}

declare module '../http/render.ts' {
  interface Views {
    'account/settings': {
      values: Record<string, string>
      workingDays: string[]
      timeZones: { value: string; label: string }[]
      countries: { value: string; label: string }[]
      weekdays: string[]
      staff: StaffView[]
      invitations: { id: number; name: string; email: string; role: Role; ends: string }[]
      /** Who got another role, and from whom. */
      roleChanges: { words: string; at: string; when: string }[]
      sendsMail: boolean
      sharing: Sharing
      scripts: string[]
    }
  }
}

interface Shown {
  typed?: Typed
  workingDays?: string[]
  errors?: Errors
}

/** Sends the page Settings; of a form of it that was refused, what was typed and what is wrong. */
export async function showSettings(
  reply: FastifyReply,
  deps: Deps,
  { typed, workingDays, errors = {} }: Shown,
  status = Object.keys(errors).length > 0 ? 422 : 200,
) {
  const business = await findBusiness(deps.db)
  if (!business) throw new NotFound()
  const { rates } = await deps.standing.read()
  return reply.page(
    'account/settings',
    {
      values: { ...factsAsFields(business), ...typed },
      workingDays: workingDays ?? business.working_days.map(String),
      timeZones: timeZones(),
      countries: Object.entries(COUNTRIES).map(([value, label]) => ({ value, label })),
      weekdays: WEEKDAYS,
      staff: await findOthers(deps.db),
      invitations: await openInvitations(deps, business.time_zone),
      roleChanges: await roleChanges(deps, business.time_zone),
      sendsMail: deps.config.smtpUrl !== undefined,
      sharing: sharingOf(deps.config.publicUrl, business.name, rates?.body),
      scripts: ['copy.js'],
      errors,
    },
    status,
  )
}

async function openInvitations({ db, now }: Deps, timeZone: string) {
  const rows = await findInvitations(db, now().toString())
  return rows.map(({ id, name, email, role, ends_at }) => ({
    id,
    name,
    email,
    role,
    ends: dayInWords(dayOf(Temporal.Instant.from(ends_at), timeZone), 'en'),
  }))
}

async function roleChanges({ db }: Deps, timeZone: string) {
  return (await findRoleChanges(db)).map(({ name, was, becomes, by, made_at }) => ({
    words: `${name}: from ${was} to ${becomes}, by ${by}`,
    at: made_at,
    when: momentInWords(made_at, timeZone, 'en'),
  }))
}

function factsAsFields(business: Business): Record<string, string> {
  return {
    'business.name': business.name,
    'business.phone': business.phone,
    'business.email': business.email,
    'business.timeZone': business.time_zone,
    'business.country': business.country,
    'business.laborHoursADay': business.labor_hours_a_day.replace(/\.?0+$/, ''),
    'business.quoteHoldsDays': String(business.quote_holds_days),
    'business.answerWithinDays': String(business.answer_within_days),
    'business.photosEach': String(business.photos_each),
    'business.photosMegabytes': String(business.photos_megabytes),
    'business.photosMonths': String(business.photos_months),
    sites: business.sites.join('\n'),
  }
}
