import { keepCrew, takeOff } from '../../src/days/crew.ts'
import type { TestApp } from './app.ts'

/** Hours of Monday to Friday. */
export const weekdays = (hours: string) => [...Array.from({ length: 5 }, () => hours), '0', '0']

/** Two who work as much as one number a day, eight hours, and one of them off for two days in June. Gives the page's address. */
export async function crewWithDaysOff({ db, deps }: TestApp): Promise<string> {
  const people = ['Ann Fern', 'Bo Reed'].map(name => ({ id: null, name, hours: weekdays('4') }))
  const known = await db.selectFrom('crew_member').select('id').execute()
  if (known.length === 0) await keepCrew(deps, people, [])
  const { id } = await db.selectFrom('crew_member').select('id').orderBy('id').executeTakeFirstOrThrow()
  await takeOff(deps, id, '2026-06-01', '2026-06-02')
  return '/settings/days/crew'
}
