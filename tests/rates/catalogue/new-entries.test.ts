import { expect, test } from 'vitest'
import { z } from 'zod'
import { carrier } from '../../../src/estimate/table/fetching.ts'
import { type RateTable, rateFigures } from '../../../src/estimate/table/rate-table.ts'
import { figure } from '../../../src/estimate/table/row.ts'
import { isList, type ListPart } from '../../../src/rates/draft/section.ts'
import { sectionGroups } from '../../../src/rates/draft/sections-of.ts'
import { fullTable } from '../csv/tables.ts'

const reach = figure('reach', 'How far it reaches', { unit: '{length}', start: { us: '20', metric: '6' } })
const figures = rateFigures.extend({ carriers: z.array(carrier.extend({ reach })) })

function carriersPart(units: RateTable['units']): ListPart {
  const sections = sectionGroups({ ...fullTable(), units }, figures).flatMap(group => group.sections)
  return sections.find(({ key }) => key === 'carriers')!.parts.find(isList)!
}

test('what is added to a list starts as it does in the units of the table', () => {
  expect(carriersPart('us').blank).toMatchObject({ reach: '20' })
  expect(carriersPart('metric').blank).toMatchObject({ reach: '6' })
})
