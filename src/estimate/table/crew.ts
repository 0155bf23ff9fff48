import { Decimal, one, sumOf } from '../../lib/decimal.ts'
import { once } from '../../lib/once.ts'
import type { RateTable } from './rate-table.ts'

/** How many of a kind come along, with their wage in money per labor hour and what is paid on top as a share of it. */
export interface Worker {
  /** Empty where one wage stands for everybody. */
  name: string
  count: Decimal
  wage: Decimal
  burden: Decimal
}

/** Who comes to a job. There are no workers while no wage is known. */
export interface Crew {
  size: Decimal
  workers: Worker[]
}

/** The crew as it is told for one job: how many of each kind; of one name, '', where one wage stands for everybody. */
export type CrewTold = { name: string; count: string }[]

/** Who comes to a usual job: the people that are listed, or else so many at the one wage. */
export const crewOf = once(
  ({ people, labor, costs }: Pick<RateTable, 'people' | 'labor' | 'costs'>): Crew => {
    const listed = people
      .filter(({ come }) => Number(come) > 0)
      .map(({ name, come, wage, burden }) => worker(name, come, wage, burden ?? costs.burden))
    if (listed.length > 0) return { size: sumOf(listed.map(({ count }) => count)), workers: listed }
    const size = new Decimal(labor.crew)
    return {
      size,
      workers: costs.wage === null ? [] : [worker('', labor.crew, costs.wage, costs.burden)],
    }
  },
)

function worker(name: string, count: string, wage: string, burden: string): Worker {
  return { name, count: new Decimal(count), wage: new Decimal(wage), burden: new Decimal(burden) }
}

/** The wage of a labor hour with what the employer pays on top, over the whole crew; null while it isn't known. */
export function wageCost(table: Pick<RateTable, 'people' | 'labor' | 'costs'>): Decimal | null {
  const { size, workers } = crewOf(table)
  if (workers.length === 0) return null
  return sumOf(workers.map(({ count, wage, burden }) => count.times(wage).times(one.plus(burden)))).div(size)
}

/** A rate table with the crew of one job as its usual one; as it is where none of them is known to it. */
export function withCrew(table: RateTable, told: CrewTold | undefined): RateTable {
  if (!told) return table
  const countOf = (name: string) => told.find(one => one.name === name)?.count ?? '0'
  const people = table.people.map(person => ({ ...person, come: countOf(person.name) }))
  if (people.some(({ come }) => Number(come) > 0)) return { ...table, people }
  const crew = countOf('')
  return people.length > 0 || Number(crew) === 0 ? table : { ...table, labor: { ...table.labor, crew } }
}
