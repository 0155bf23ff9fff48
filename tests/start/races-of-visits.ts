import { findLinkPath } from '../../src/requests/links.ts'
import { requireRequestId } from '../../src/requests/queries.ts'
import { offerTimes } from '../../src/visits/pick-time.ts'
import { findVisitAhead } from '../../src/visits/queries.ts'
import { keepMeasurements, setVisit } from '../../src/visits/visit.ts'
import type { TestApp } from '../helpers/app.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'
import { mine, type Race, shownOn } from './race.ts'
import type { Sent } from './two-services.ts'

const [MORNING, NOON, LATE] = ['2026-03-10 15:00', '2026-03-10 17:30', '2026-03-11 20:00'] as const
const instant = (time: string) => Temporal.Instant.from(`${time.replace(' ', 'T')}:00Z`)

/** A request whose homeowner was sent MORNING and NOON to pick from, with MORNING set already where that is `set`. */
const visited = async (app: TestApp, cookie: string, email: string, set = false) => {
  const { id, number } = await sendRequest(app, mine(email))
  if (set) await setVisit(app.deps, 1, id, instant(MORNING))
  else await offerTimes(app.deps, 1, id, [instant(MORNING), instant(NOON)])
  const seen = String((await findVisitAhead(app.db, id))?.id ?? 0)
  const own = await findLinkPath(app.db, app.deps.secretKey, 'own page', id)
  const staff = (does: string, form: Record<string, string>): Sent => ({
    ...{ path: `/queue/${number}/${does}`, cookie },
    form,
  })
  const pick = (what: string): Sent => ({
    path: `${own}/visit`,
    form: { seen, pick: what.includes(' ') ? instant(what).toString() : what },
  })
  return {
    number,
    measure: staff('measurements', SHEET),
    pick,
    set: (time: string) => staff('visit', { 'visit.seen': seen, 'visit.free': instant(time).toString() }),
    callOff: staff('visit/call-off', {}),
    leaveOut: staff('visit/leave-out', {}),
    offer: staff('visit/times', { 'times[]': instant(NOON).toString() }),
    cannot: staff('cannot-do', { reason: 'far', words: '' }),
    cancel: { path: `${own}/call-off`, form: { reason: 'Moving' } } as Sent,
  }
}

/** The one bed of the sheet, a foot longer than it was told. */
const SHEET = {
  ...{ measuredBy: 'tape', do: 'keep', 'beds.0.told': '0', 'beds.0.shape': 'rectangle' },
  ...{ 'beds.0.sizes.length': '21 ft', 'beds.0.sizes.width': '5', 'beds.0.count': '1' },
  ...{ 'beds.0.planted': 'open', 'beds.0.lying': 'bare', 'beds.0.lyingDepth': '' },
  ...{ 'beds.0.finish': 'shredded-wood', 'beds.0.depth': '3' },
}

/** Nothing of before is in the way. */
async function clear({ db, deps }: TestApp): Promise<void> {
  const at = deps.now().toString()
  await db
    .updateTable('visit')
    .set({ called_off_at: at })
    .where('called_off_at', 'is', null)
    .where('done_at', 'is', null)
    .execute()
}

const picked = (time: string) => ({
  ...{ stages: ['visit set'], visits: [time], history: ['visit set'] },
  outbox: ['visit-set', 'visit-staff'],
})
const BY_STAFF = { stages: ['visit set'], history: ['visit set'], outbox: ['visit-set'] }
const MOVED = { ...BY_STAFF, history: ['visit moved'] }
const OFF = { stages: ['new'], history: ['visit called off'], outbox: ['visit-off'] }
const CANCELED = { stages: ['called off'], history: ['called off'], outbox: ['called-off-staff', 'canceled'] }

/** Setting a visit, moving and canceling it, by the homeowner and by the staff. */
export const VISIT_RACES: Race[] = [
  {
    name: 'picking a time, and the staff setting another',
    forms: async (app, cookie, email) => {
      await clear(app)
      const { pick, set } = await visited(app, cookie, email)
      return [pick(MORNING), set(LATE)]
    },
    onlyOne: true,
    outcomes: [picked(MORNING), { ...BY_STAFF, visits: [LATE] }],
  },
  {
    name: 'setting a visit for two times',
    forms: async (app, cookie, email) => {
      await clear(app)
      const { set } = await visited(app, cookie, email)
      return [set(MORNING), set(LATE)]
    },
    onlyOne: true,
    outcomes: [MORNING, LATE].map(time => ({ ...BY_STAFF, visits: [time] })),
  },
  {
    name: 'picking one of the times and the other',
    forms: async (app, cookie, email) => {
      await clear(app)
      const { pick } = await visited(app, cookie, email)
      return [pick(MORNING), pick(NOON)]
    },
    onlyOne: true,
    outcomes: [picked(MORNING), picked(NOON)],
  },
  ...[
    { name: 'two homeowners picking the same time', staff: 0 },
    { name: 'the staff setting a visit for a time that another homeowner picks', staff: 1 },
    { name: 'setting two visits for the same time', staff: 2 },
  ].map(
    ({ name, staff }): Race => ({
      name,
      forms: async (app, cookie, email) => {
        await clear(app)
        const both = [await visited(app, cookie, email), await visited(app, cookie, email)]
        return both.map(({ pick, set }, nth) => (nth < staff ? set(MORNING) : pick(MORNING)))
      },
      onlyOne: true,
      outcomes: [0, 1].map(nth => ({
        ...(nth < staff ? { ...BY_STAFF, visits: [MORNING] } : picked(MORNING)),
        stages: nth === 0 ? ['visit set', 'new'] : ['new', 'visit set'],
      })),
    }),
  ),
  {
    name: 'moving a visit, by the homeowner and by the staff',
    forms: async (app, cookie, email) => {
      await clear(app)
      const { pick, set } = await visited(app, cookie, email, true)
      return [pick('2026-03-12 15:00'), set(LATE)]
    },
    onlyOne: true,
    outcomes: [
      { ...picked('2026-03-12 15:00'), history: ['visit moved'] },
      { ...MOVED, visits: [LATE] },
    ],
  },
  {
    name: 'the staff canceling a visit while the homeowner moves it',
    forms: async (app, cookie, email) => {
      await clear(app)
      const { pick, callOff } = await visited(app, cookie, email, true)
      return [pick('2026-03-12 15:00'), callOff]
    },
    outcomes: [
      OFF,
      {
        ...{ ...OFF, history: ['visit called off', 'visit moved'] },
        outbox: ['visit-off', 'visit-set', 'visit-staff'],
      },
    ],
  },
  {
    name: 'the homeowner canceling a visit, and moving it',
    forms: async (app, cookie, email) => {
      await clear(app)
      const { pick } = await visited(app, cookie, email, true)
      return [pick('2026-03-12 15:00'), pick('off')]
    },
    // Where there is no visit any more, that is said on the page that the form leads back to.
    outcomes: [
      { ...OFF, outbox: ['visit-off', 'visit-staff'] },
      { ...picked('2026-03-12 15:00'), history: ['visit moved'] },
    ],
  },
  {
    name: 'setting a visit and leaving it out',
    forms: async (app, cookie, email) => {
      await clear(app)
      const { set, leaveOut } = await visited(app, cookie, email)
      return [set(LATE), leaveOut]
    },
    outcomes: [
      { ...BY_STAFF, visits: [LATE] },
      { ...BY_STAFF, visits: [LATE], history: ['visit left out', 'visit set'] },
    ],
  },
  {
    name: 'setting a visit while the homeowner cancels',
    forms: async (app, cookie, email) => {
      await clear(app)
      const { set, cancel } = await visited(app, cookie, email)
      return [set(LATE), cancel]
    },
    outcomes: [
      CANCELED,
      {
        ...{ ...CANCELED, history: ['called off', 'visit set'] },
        outbox: ['called-off-staff', 'canceled', 'visit-set'],
      },
    ],
  },
  {
    name: 'measuring the beds again while their price is sent',
    forms: async (app, cookie, email) => {
      await clear(app)
      const { number, measure } = await visited(app, cookie, email, true)
      await keepMeasurements(app.deps, 1, await requireRequestId(app.db, number), told(bedTold()))
      const shown = await shownOn(app, cookie, `/queue/${number}/quote`)
      const send = { path: `/queue/${number}/quote`, form: { ...shown, do: 'confirm' }, cookie }
      return [send, measure]
    },
    onlyOne: true,
    outcomes: [
      { stages: ['quoted'], history: ['quoted'], outbox: ['quote-ready'] },
      { stages: ['measured'], history: ['measured'] },
    ],
  },
  {
    name: 'turning a request down while the homeowner picks a time',
    forms: async (app, cookie, email) => {
      await clear(app)
      const { pick, cannot } = await visited(app, cookie, email)
      return [pick(MORNING), cannot]
    },
    outcomes: [
      { stages: ["can't do"], history: ["can't do"], outbox: ['turned-down'] },
      {
        ...{ stages: ["can't do"], history: ["can't do", 'visit set'] },
        outbox: ['turned-down', 'visit-set', 'visit-staff'],
      },
    ],
  },
]
