import { Decimal } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { jobQuantities } from '../job/quantities.ts'
import { type Terms, termsTold } from '../job/terms.ts'
import { workOutPrice } from '../price/firm-price.ts'
import { tableForJob } from '../price/job-table.ts'
import type { RateTable } from '../table/rate-table.ts'
import { bedSteps } from './bed-steps.ts'
import { extraBuyingSteps, finishBuyingSteps } from './buying-steps.ts'
import { costSteps } from './cost-steps.ts'
import { fetchingSteps } from './fetching-steps.ts'
import { figuresOf } from './figures.ts'
import { laborHourSteps, laborSteps } from './labor-steps.ts'
import { priceSteps } from './price-steps.ts'

/** The steps of a job's figures, each a line of words and numbers in English, for the staff. */
export interface Worksheet {
  beds: string[][]
  buying: { name: string; steps: string[] }[]
  labor: string[]
  laborHour: string[]
  price: string[]
  cost: string[]
}

/** Tells how every figure of a firm price comes about. Made only when somebody asks: the price itself needs none of it. */
export function worksheetOf(job: Job, rates: RateTable, terms: Terms = termsTold(job, rates)): Worksheet {
  const table = tableForJob(rates, terms)
  const f = figuresOf(table)
  const quantities = jobQuantities(job, table)
  const price = workOutPrice(job, table, terms)
  const { lines, tax, total, net, shopping } = price
  const { trips } = shopping
  const fetching = fetchingSteps(shopping, table, f)
  return {
    beds: job.beds.map((bed, index) => bedSteps(bed, quantities.beds[index]!, table, f)),
    buying: [
      ...shopping.finishes.map((toBuy, index) => ({
        name: toBuy.finish.name.en,
        steps: finishBuyingSteps(toBuy, quantities.finishes[index]!, table, f),
      })),
      ...shopping.extras.map(toBuy => ({
        name: toBuy.extra.name.en,
        steps: extraBuyingSteps(toBuy, table, f),
      })),
      ...(fetching.length > 0 ? [{ name: 'Picking up', steps: fetching }] : []),
    ],
    labor: laborSteps(job, quantities, trips, price.laborHours, table, f),
    laborHour: laborHourSteps(table, f),
    price: priceSteps({ job, lines, tax, total, terms, table, figures: f }),
    cost: costSteps(
      price.costs,
      { net, laborHours: new Decimal(price.laborHoursTotal), trips, postcode: job.postcode },
      table,
      f,
    ),
  }
}
