import { afterEach, beforeEach, expect, test } from 'vitest'
import { type TestApp, testApp } from '../../helpers/app.ts'
import { openBusiness } from '../../helpers/people.ts'
import { putInForce } from '../../helpers/rate-tables.ts'
import { drafting } from './drafting.ts'

let app: TestApp
let draft: ReturnType<typeof drafting>
beforeEach(async () => {
  app = await testApp()
  const { owner } = await openBusiness(app)
  draft = drafting(app, owner)
  await putInForce(app, table => ({
    ...table,
    finishes: table.finishes.map(one =>
      one.slug === 'stone' ? { ...one, substitutes: ['compost', 'dyed-wood', 'pine-straw'] } : one,
    ),
  }))
  await draft.open(2)
})
afterEach(() => app.close())

const finish = async (slug: string) => (await draft.stored()).body.finishes.find(one => one.slug === slug)!

test('substitutes are picked one after the other, with a place for one more', async () => {
  expect(await draft.formOf('/rates/draft/finish.stone')).toMatchObject({
    'substitutes.0': 'compost',
    'substitutes.1': 'dyed-wood',
    'substitutes.2': 'pine-straw',
    'substitutes.3': '',
  })
  const answer = await draft.saveSection('finish.stone', {
    'substitutes.0': 'pine-straw',
    'substitutes.1': '',
    'substitutes.2': '',
    'substitutes.3': 'compost',
    soldOut: 'yes',
  })
  expect(answer.status).toBe(303)
  expect(await finish('stone')).toMatchObject({
    substitutes: ['pine-straw', 'compost'],
    soldOut: true,
    offered: true,
  })
})

test('one picked twice, or that isn’t to be picked, is refused beside its field, and what was picked is kept', async () => {
  const twice = await draft.saveSection('finish.stone', { 'substitutes.3': 'compost' })
  expect(twice.status).toBe(422)
  expect(twice.text).toMatch(/id="substitutes-3-error">You already picked that one above\./)
  expect(twice.text).toMatch(/<select[^>]*name="substitutes\.3"[^>]*>[\s\S]*?value="compost" selected/)
  for (const other of ['stone', 'gold']) {
    const refused = await draft.saveSection('finish.stone', { 'substitutes.1': other })
    expect([other, refused.status]).toEqual([other, 422])
    expect(refused.text).toMatch(/id="substitutes-1-error">Pick one of these\./)
  }
  expect((await finish('stone')).substitutes).toEqual(['compost', 'dyed-wood', 'pine-straw'])
})

test('whoever takes a finish out takes it out of the others’ substitutes', async () => {
  const out = { 'finishes.1.out': 'yes', 'new.en': 'Pebbles', 'new.es': 'Guijarros', 'new.like': 'stone' }
  expect((await draft.saveSection('finishes', out)).status).toBe(303)
  expect((await draft.stored()).body.finishes.map(({ slug }) => slug)).not.toContain('dyed-wood')
  expect((await finish('stone')).substitutes).toEqual(['compost', 'pine-straw'])
  // One that starts like it starts with what is left of them too.
  expect((await finish('pebbles')).substitutes).toEqual(['compost', 'pine-straw'])
})

test('one that starts like a finish that is sold out isn’t', async () => {
  await draft.saveSection('finish.stone', { soldOut: 'yes' })
  await draft.saveSection('finishes', { 'new.en': 'Pebbles', 'new.es': 'Guijarros', 'new.like': 'stone' })
  expect((await finish('pebbles')).soldOut).toBe(false)
})

test('the last finish that homeowners can pick is kept for them', async () => {
  for (const slug of ['dyed-wood', 'bark-nuggets', 'pine-straw', 'compost', 'stone'])
    await draft.saveSection(`finish.${slug}`, { soldOut: 'yes' })
  const form = await draft.formOf('/rates/draft/finish.shredded-wood')
  const { offered: _, ...hidden } = form
  const refused = await draft.post('/rates/draft/finish.shredded-wood', hidden)
  expect(refused.status).toBe(422)
  expect(refused.text).toMatch(/id="offered-error">Homeowners need at least one material that is shown/)
  // Said once in the list of faults, and once beside the field.
  expect(refused.text.match(/Homeowners need at least one material/g)).toHaveLength(2)
  const out = await draft.saveSection('finishes', { 'finishes.0.out': 'yes' })
  expect([out.status, out.text.match(/at least one material/gi)?.length]).toEqual([422, 1])
  expect((await finish('shredded-wood')).offered).toBe(true)
})
