import { sql } from 'kysely'
import type { TestApp } from '../helpers/app.ts'
import { askedHeld } from '../helpers/maybe-junk.ts'
import { sendRequest } from '../helpers/requests.ts'
import { mine, type Race } from './race.ts'
import type { Sent } from './two-services.ts'

/** One that is held as maybe junk, whose sender was asked whether it was them, and what may be said of it. */
const held = async (app: TestApp, cookie: string, email: string) => {
  const confirm: Sent = { path: await askedHeld(app, email), form: {} }
  const { number } = await app.db
    .selectFrom('maybe_junk')
    .select('number')
    .where(sql`sending->>'email'`, '=', email)
    .executeTakeFirstOrThrow()
  const staff = (does: string, form: Record<string, string> = {}): Sent => ({
    ...{ path: `/queue/maybe-junk/${does}`, cookie },
    form,
  })
  return {
    confirm,
    real: staff(`${number}/real`),
    junk: staff(`${number}/junk`),
    allJunk: staff('all', { numbers: number }),
  }
}

/** Whether the staff said that it is junk, held or in the queue. */
async function junkOf({ db }: TestApp, email: string): Promise<string[]> {
  const { rows } = await sql`
    select 1 from maybe_junk where sending->>'email' = ${email} and junk_at is not null
    union all select 1 from quote_request join customer on customer.id = customer_id
      where email = ${email} and junk_at is not null`.execute(db)
  return rows.map(() => 'junk')
}

const BY_SENDER = {
  ...{ stages: ['new'], history: ['address confirmed', 'sent'] },
  outbox: ['receipt', 'request-arrived', 'request-received'],
}
const BY_STAFF = { stages: ['new'], history: ['marked as real', 'sent'], outbox: ['request-received'] }

/** What is held as maybe junk: taken in once, or called junk, whoever says so first. */
export const HELD_RACES: Race[] = [
  {
    name: 'taking in what was held, by its sender and by the staff',
    forms: async (app, cookie, email) => {
      const { confirm, real } = await held(app, cookie, email)
      return [confirm, real]
    },
    // Whoever comes second by the link has confirmed the address all the same.
    outcomes: [
      BY_SENDER,
      {
        ...{ ...BY_STAFF, history: ['address confirmed', 'marked as real', 'sent'] },
        outbox: ['receipt', 'request-received'],
      },
    ],
  },
  {
    name: 'calling junk what its sender says is real',
    forms: async (app, cookie, email) => {
      const { confirm, junk } = await held(app, cookie, email)
      return [confirm, junk]
    },
    besides: junkOf,
    ends: true,
    // In the queue it is called junk there; called junk, the link leads nowhere.
    outcomes: [BY_SENDER, { stages: [], besides: ['junk'] }],
  },
  {
    name: 'saying real and junk of what was held, of it and of all at once',
    forms: async (app, cookie, email) => {
      const { real, junk, allJunk } = await held(app, cookie, email)
      return [real, junk, allJunk]
    },
    besides: junkOf,
    // What was called junk is taken in still; once it is in the queue, no list of junk has it.
    outcomes: [BY_STAFF],
  },
  {
    name: 'calling a request junk while its visit is set',
    forms: async (app, cookie, email) => {
      const { number } = await sendRequest(app, mine(email))
      const visit = { 'visit.free': '2026-05-05T15:00:00Z', 'visit.seen': '0', 'visit.anyway': 'yes' }
      return [
        { path: `/queue/${number}/visit`, form: visit, cookie },
        { path: `/queue/${number}/junk`, form: {}, cookie },
      ]
    },
    besides: junkOf,
    // With a visit it isn't held apart, whatever was said before.
    outcomes: [['visit set'], ['marked as junk', 'visit set']].map(history => ({
      ...{ stages: ['visit set'], visits: ['2026-05-05 15:00'], history, outbox: ['visit-set'] },
    })),
  },
]
