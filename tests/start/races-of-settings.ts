import { sql } from 'kysely'
import { requireBusiness } from '../../src/business/queries.ts'
import { keepHolidays } from '../../src/days/days-off.ts'
import type { TestApp } from '../helpers/app.ts'
import { SETTINGS_FIELDS } from '../helpers/people.ts'
import type { Race } from './race.ts'
import type { Sent } from './two-services.ts'

const owner = (path: string, cookie: string, form: Sent['form']): Sent => ({ path, form, cookie })

const business = (cookie: string, name: string, laborHoursADay: string) =>
  owner('/settings/business', cookie, {
    ...SETTINGS_FIELDS,
    ...{ 'business.name': name, 'business.laborHoursADay': laborHoursADay },
  })

/** Enough people for what the other races book. */
const CREW = Array.from({ length: 20 }, (_, nth) => `Hand ${nth + 1}`)
const crew = (cookie: string, hours: string) =>
  owner(
    '/settings/days/crew',
    cookie,
    Object.fromEntries(
      CREW.flatMap((name, nth) => [
        [`crew.${nth}.name`, name],
        ...Array.from({ length: 7 }, (_, weekday) => [`crew.${nth}.h${weekday}`, hours]),
      ]),
    ),
  )

/** Which holidays are kept, and which days are off for them. */
async function holidaysOf({ db }: TestApp): Promise<string[]> {
  const { rows } = await sql<{ what: string }>`
    select 'keeps ' || unnest(holidays) as what from business
    union all select 'off ' || off_for from work_day where off_for in ('Juneteenth', 'Thanksgiving Day')
      and room_hours = 0 group by off_for
    order by what`.execute(db)
  return rows.map(({ what }) => what)
}

/** Settings as two save them at once: what one of them says, whole. */
export const SETTING_RACES: Race[] = [
  {
    name: 'facts of the business, as two save them',
    forms: async (_app, cookie) => [
      business(cookie, 'Fern Beds', '200'),
      business(cookie, 'Moss Beds', '240'),
    ],
    besides: async ({ db }) => {
      const { name, labor_hours_a_day } = await requireBusiness(db)
      await db.updateTable('business').set({ labor_hours_a_day: '500' }).execute()
      return [`${name}, ${Number(labor_hours_a_day)} hours`]
    },
    outcomes: [
      { stages: [], besides: ['Fern Beds, 200 hours'] },
      { stages: [], besides: ['Moss Beds, 240 hours'] },
    ],
  },
  {
    name: 'the holidays that are kept, as two save them',
    forms: async (app, cookie) => {
      await keepHolidays(app.deps, [])
      return ['juneteenth', 'thanksgiving'].map(key =>
        owner('/settings/days/holidays', cookie, { 'holidays[]': [key] }),
      )
    },
    besides: holidaysOf,
    outcomes: [
      { stages: [], besides: ['keeps juneteenth', 'off Juneteenth'] },
      { stages: [], besides: ['keeps thanksgiving', 'off Thanksgiving Day'] },
    ],
  },
  {
    name: 'who works, with hours that two tell otherwise',
    forms: async (app, cookie) => {
      await app.db.deleteFrom('crew_member').execute()
      return [crew(cookie, '23'), crew(cookie, '24')]
    },
    besides: async ({ db }) => {
      const { weekday_hours } = await requireBusiness(db)
      const hours = new Set(weekday_hours?.map(Number))
      const people = await db.selectFrom('crew_member').select('name').execute()
      // Everything else is raced with the room that a day has without a crew.
      await db.deleteFrom('crew_member').execute()
      await db.updateTable('business').set({ weekday_hours: null }).execute()
      return [`${people.length} people`, ...[...hours].map(sum => `${sum} hours`)]
    },
    onlyOne: true,
    outcomes: [
      { stages: [], besides: ['20 people', '460 hours'] },
      { stages: [], besides: ['20 people', '480 hours'] },
    ],
  },
]
