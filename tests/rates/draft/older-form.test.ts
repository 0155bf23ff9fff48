import { afterEach, beforeEach, expect, test } from 'vitest'
import { type TestApp, testApp } from '../../helpers/app.ts'
import { type Browser, openBusiness } from '../../helpers/people.ts'
import { drafting } from './drafting.ts'

let app: TestApp
let owner: Browser
let draft: ReturnType<typeof drafting>
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  draft = drafting(app, owner)
})
afterEach(() => app.close())

/** The form of labor as it was before tables said `labor`, open in a browser while the program was upgraded. */
async function openedBefore(typed: string) {
  const form = await draft.formOf('/rates/draft/labour', { 'labor.stair': typed })
  return Object.fromEntries(
    Object.entries(form).map(([name, text]) => [name.replace(/^labor\./, 'labour.'), text]),
  )
}

test('a form of labor that was opened before an upgrade can be sent after it', async () => {
  const sent = await draft.post('/rates/draft/labour', await openedBefore('3'))
  expect(sent.status).toBe(303)
  expect(await draft.stored()).toMatchObject({ body: { labor: { stair: '0.03' } } })
})

test('nor is a wage or an extra’s hours lost that had another name then', async () => {
  const form = await draft.formOf('/rates/draft/costs', {
    'costs.wage': '31.50',
    'floors.payPerLaborHour': '44',
  })
  const older = Object.entries(form).map(([name, text]) => [
    name.replace('costs.wage', 'costs.crewHour').replace('PerLaborHour', 'PerCrewHour'),
    text,
  ])
  expect((await draft.post('/rates/draft/costs', Object.fromEntries(older))).status).toBe(303)
  expect(await draft.stored()).toMatchObject({
    body: { costs: { wage: '31.50' }, floors: { payPerLaborHour: '44' } },
  })
  const edging = await draft.formOf('/rates/draft/extra.edging', { 'laborHours.upper': '0.07' })
  const before = Object.entries(edging).map(([name, text]) => [name.replace('laborHours', 'crewHours'), text])
  expect((await draft.post('/rates/draft/extra.edging', Object.fromEntries(before))).status).toBe(303)
  const { body } = (await draft.stored())!
  expect(body.extras.find(({ slug }) => slug === 'edging')!.laborHours.upper).toBe('0.07')
})

test('and where a figure of it can’t be read, all that was typed is still there', async () => {
  const sent = await draft.post('/rates/draft/labour', await openedBefore('a lot'))
  expect(sent.status).toBe(422)
  expect(sent.text).toContain('“a lot” can’t be read as a figure')
  expect(sent.text.match(/Give a (figure|share)/g)).toBeNull()
})
