import { expect, test } from 'vitest'
import { rateFigures } from '../../../src/estimate/table/rate-table.ts'
import { figure, INVENTED } from '../../../src/estimate/table/row.ts'
import { unconfirmedGroups } from '../../../src/rates/start/start-figures.ts'
import { fullTable } from '../csv/tables.ts'

test('a figure with a source is listed whatever section it is of', () => {
  const ferry = figure('ferry', 'The ferry', { section: 'crossing', start: '5', source: INVENTED })
  const table = { ...fullTable(), ferry: '5' }
  const listed = unconfirmedGroups(table, rateFigures.extend({ ferry })).flatMap(({ figures }) => figures)
  expect(listed.map(({ key }) => key)).toContain('ferry')
})
