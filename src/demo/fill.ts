import { randomUUID } from 'node:crypto'
import { makeBill } from '../billing/make-bill.ts'
import { acceptQuote, bookDay } from '../bookings/booking.ts'
import { callOff } from '../bookings/call-off.ts'
import { cannotDo } from '../bookings/cannot-do.ts'
import { declineQuote, lapseQuotes } from '../bookings/not-this-time.ts'
import { requireBusiness } from '../business/queries.ts'
import { closeJob } from '../closing/close-job.ts'
import { nextVersion } from '../closing/queries.ts'
import { freeFirstDays, freeWeeks } from '../days/queries.ts'
import { weekText } from '../days/week.ts'
import type { Deps } from '../deps.ts'
import type { Told } from '../estimate/job/bed.ts'
import { plainTerms } from '../estimate/job/terms.ts'
import { dropOvertaken } from '../letters/drop-overtaken.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import { messages } from '../messages.ts'
import { decideCustomers } from '../people/same.ts'
import { markSeen } from '../queue/news.ts'
import { makeQuote } from '../quotes/make-quote.ts'
import { findNewestQuote } from '../quotes/queries.ts'
import { confirmAddress } from '../requests/confirm-address.ts'
import { noteRequest } from '../requests/note.ts'
import { sendQuoteRequest } from '../requests/quote-request.ts'
import { takeUpAgain } from '../requests/take-up-again.ts'
import { keepMeasurements, leaveVisitOut, setVisit } from '../visits/visit.ts'
import { associationStory, moveAssociationIn } from './association.ts'
import { openDemoBusiness } from './business.ts'
import { doPart } from './half-done.ts'
import { fillMaybeJunk } from './maybe-junk.ts'
import { momentOf } from './moment.ts'
import { pay, returnLast } from './money.ts'
import type { Happening, Story } from './stories.ts'
import { storiesAgain } from './stories-again.ts'
import { doneStories } from './stories-done.ts'
import { lastSeasonStories } from './stories-last-season.ts'
import { openStories } from './stories-open.ts'
import { settledStories } from './stories-settled.ts'
import { fillYard } from './yard.ts'

const NEWS_HOURS = 48

/** The clock of the demonstration: it stands in the past while that is told, and runs by itself after. */
export interface DemoClock {
  at: Temporal.Instant | null
}

interface Telling {
  deps: Deps
  clock: DemoClock
  today: Temporal.Instant
  ownerId: number
}

/** Opens the invented business and tells every story by the application's own verbs, at the times it says. */
export async function fillDemo(
  deps: Deps,
  clock: DemoClock,
  progress: (told: number, of: number) => void,
): Promise<void> {
  const today = deps.now()
  const moment = (story: Story) => momentOf(story.sent, today).epochMilliseconds
  const told = [
    ...openStories,
    ...settledStories,
    ...doneStories,
    ...storiesAgain,
    ...lastSeasonStories,
    associationStory,
  ]
  const stories = told.sort((a, b) => moment(a) - moment(b))
  clock.at = momentOf('-400 08:00', today)
  const ownerId = await openDemoBusiness(deps)
  await moveAssociationIn(deps, ownerId)
  for (const [index, story] of stories.entries()) {
    await tell({ deps, clock, today, ownerId }, story)
    progress(index + 1, stories.length)
  }
  clock.at = null
  await lapseQuotes(deps)
  await fillYard(deps, ownerId)
  await fillMaybeJunk(deps)
  await dropOvertaken({ ...deps, messages })
}

async function tell(telling: Telling, story: Story): Promise<void> {
  const { deps, clock, today } = telling
  clock.at = momentOf(story.sent, today)
  const { beds, stops, extras = [], postcode } = story
  const told: Told = { beds, ...(stops && { stops }), extras, postcode }
  const sending = {
    submissionKey: randomUUID(),
    told,
    name: story.name,
    phone: story.phone ?? '',
    email: story.email ?? '',
    street: story.street,
    postcode: story.postcode,
    preferredTimes: story.preferredTimes ?? '',
    gate: story.gate ?? '',
    dog: story.dog ?? '',
    note: story.note ?? '',
    language: story.language ?? 'en',
  } as const
  const doer = story.putIn ? ({ kind: 'staff', accountId: telling.ownerId } as const) : undefined
  const { id } = await sendQuoteRequest(deps, sending, undefined, doer)
  for (const happening of story.after) {
    clock.at = momentOf(happening.at, today)
    await bringAbout(telling, id, story, happening)
  }
  // By now the owner has looked at all but the latest news.
  if (clock.at && clock.at.until(today).total('hours') > NEWS_HOURS)
    await markSeen(deps, id, Number.MAX_SAFE_INTEGER)
}

async function bringAbout({ deps, today, ownerId }: Telling, id: number, story: Story, happening: Happening) {
  switch (happening.verb) {
    case 'confirm the address':
      return confirmAddress(deps, id)
    case 'leave the visit out':
      return leaveVisitOut(deps, ownerId, id)
    case 'set a visit':
      return setVisit(deps, ownerId, id, momentOf(happening.for, today))
    case 'measure':
      return keepMeasurements(deps, ownerId, id, measuredOf(story, happening.sizes))
    case 'quote':
      return quote(deps, ownerId, id, happening)
    case 'accept':
      return acceptQuote(deps, id, { ...happening, revision: 1, typedName: story.name })
    case 'book':
      return book(deps, id, addDays(dayOf(today, 'UTC'), happening.daysAhead))
    case 'choose a week':
      return chooseWeek(deps, id, addDays(dayOf(today, 'UTC'), happening.daysAhead))
    case 'do part of it':
      return doPart(deps, ownerId, id, addDays(dayOf(today, 'UTC'), happening.restAhead), happening)
    case 'close':
      return closeJob(deps, ownerId, id, await nextVersion(deps.db, id))
    case 'bill':
      return makeBill(deps, ownerId, id, { before: 0, added: [], total: null })
    case 'pay':
      return pay(deps, ownerId, id, happening)
    case 'the check comes back':
      return returnLast(deps, ownerId, id, happening)
    case 'decline':
      return declineQuote(deps, id, happening)
    case 'call off':
      return callOff(deps, id, happening.reason)
    case "can't do":
      return cannotDo(deps, ownerId, id, happening)
    case 'note':
      return noteRequest(deps, ownerId, id, happening.words)
    case 'lapse':
      return lapseQuotes(deps)
    case 'take up again':
      return takeUpAgain(deps, ownerId, id)
    case 'same as':
      return decide(deps, ownerId, id, happening)
    default:
      return happening satisfies never
  }
}

async function decide(deps: Deps, accountId: number, id: number, happening: Happening & { verb: 'same as' }) {
  const one = await deps.db
    .selectFrom('quote_request')
    .select('customer_id as id')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  const other = await deps.db
    .selectFrom('customer')
    .select('id')
    .where('name', '=', happening.before)
    .where('id', '<>', one.id)
    .executeTakeFirstOrThrow()
  await decideCustomers(deps, { one: one.id, other: other.id, accountId }, happening.decision)
}

function measuredOf(story: Story, sizes: Record<string, string>[]) {
  const beds = story.beds.map((bed, index) => ({
    ...bed,
    sizes: sizes[index] ?? bed.sizes,
    measuredBy: 'tape',
    toldBed: index,
  }))
  const { stops, extras = [], postcode } = story
  return { beds, ...(stops && { stops }), extras, postcode }
}

async function quote(deps: Deps, ownerId: number, id: number, happening: Happening & { verb: 'quote' }) {
  const { added = [], note = '' } = happening
  const asWorkedOut = {
    revision: 1,
    basis: null,
    amounts: null,
    laborHours: null,
    why: null,
    terms: plainTerms,
  }
  await makeQuote(deps, ownerId, id, { ...asWorkedOut, added, note })
}

/** As while the owner offered weeks. */
async function chooseWeek(deps: Deps, id: number, from: string): Promise<void> {
  const choose = (day_choice: 'day' | 'week') => deps.db.updateTable('business').set({ day_choice }).execute()
  const [business, quote] = await Promise.all([requireBusiness(deps.db), findNewestQuote(deps.db, id)])
  const [first] = await freeWeeks(deps.db, business, quote!.labor_hours, from, 1, deps.now())
  await choose('week')
  await bookDay(deps, id, weekText(first!.monday))
  await choose('day')
}

async function book(deps: Deps, id: number, from: string): Promise<void> {
  const [business, quote] = await Promise.all([requireBusiness(deps.db), findNewestQuote(deps.db, id)])
  const [first] = await freeFirstDays(deps.db, business, quote!.labor_hours, from, 1, deps.now())
  await bookDay(deps, id, first!.day)
}
