import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { writeLetter } from '../../src/letters/letter.ts'
import { messages } from '../../src/messages.ts'
import { findOutboxMessage } from '../../src/outbox/queries.ts'
import { CHANGEABLE, LANGUAGES, startWords } from '../../src/outbox/words.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

const PAGE = '/settings/words'
let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
beforeEach(() => app.db.deleteFrom('message_words').execute())
afterAll(() => app.close())

/** The form of a message as the page has it at first, with something else in it. */
function form(name: string, instead: Record<string, string> = {}): Record<string, string> {
  const { sentences } = CHANGEABLE.find(one => one.name === name)!
  const fields = sentences.flatMap(sentence =>
    LANGUAGES.map(language => [
      `${language}-${sentence.key.replace('.', '-')}`,
      startWords(sentence, language),
    ]),
  )
  return { ...Object.fromEntries(fields), ...instead }
}
const save = (name: string, instead: Record<string, string>) =>
  owner.post(`${PAGE}/${name}`).type('form').send(form(name, instead))

async function firstLetter(id: number) {
  const { id: outboxId } = await app.db
    .selectFrom('outbox')
    .select('id')
    .where('quote_request_id', '=', id)
    .where('kind', '=', 'request-received')
    .executeTakeFirstOrThrow()
  return (await writeLetter({ ...app.deps, messages }, (await findOutboxMessage(app.db, outboxId))!))!
}

test('what is changed is said, in its own language alone, with its blanks filled in and no markup', async () => {
  const saved = await save('received', {
    'en-mail-received-subject': '{business} has got it: {number}',
    'en-mail-received': 'We’ll be in touch in <b>{days}</b> days.',
    'en-text-received': 'See {link} for {number}',
  })
  expect(saved.status).toBe(303)
  const english = await sendRequest(app)
  const letter = await firstLetter(english.id)
  expect(letter.subject).toBe(`Fern Beds has got it: ${english.number}`)
  expect(letter.text).toContain('We’ll be in touch in <b>2</b> days.')
  expect(letter.html).toContain('in &lt;b&gt;2&lt;/b&gt; days.')
  const spanish = await sendRequest(app, { language: 'es' })
  expect((await firstLetter(spanish.id)).subject).toBe(`Recibimos su solicitud ${spanish.number}`)
  const texted = await sendRequest(app, { email: '' })
  expect((await firstLetter(texted.id)).words).toBe(
    `Fern Beds: See http://localhost:8080${texted.ownPath} for ${texted.number}`,
  )
})

test.each([
  [
    'en-mail-received',
    'Hello {nmae}',
    '{nmae} isn’t a blank that this message can fill. It can fill {number}, {days}, {business}.',
  ],
  ['es-mail-received', 'Hola {price}', '{price} isn’t a blank'],
  ['en-mail-received', 'Hello {number', 'Close every { with a }.'],
  ['en-text-received', 'We have it.', 'A text needs its link'],
  ['en-text-received', `${'We have it. '.repeat(30)}{link}`, 'too long for a text'],
  ['en-text-received', `${'Спасибо '.repeat(12)}{link}`, 'too long for a text'],
  ['en-mail-received', 'a'.repeat(1001), 'longer than 1,000'],
])('%s: refused beside its field, and kept as typed', async (field, words, sentence) => {
  const answer = await save('received', { [field]: words })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain(sentence)
  expect(answer.text).toContain(words)
  expect(await app.db.selectFrom('message_words').selectAll().execute()).toEqual([])
})

test('every sentence as it starts may be saved, and none of that is kept as the owner’s own', async () => {
  for (const { name } of CHANGEABLE) expect([name, (await save(name, {})).status]).toEqual([name, 303])
  expect(await app.db.selectFrom('message_words').selectAll().execute()).toEqual([])
})

test('it is shown with the newest request, and put back', async () => {
  const { number, ownPath } = await sendRequest(app, { street: '7 Quince Street' })
  await save('visit', { 'en-mail-visit': 'Look out for us at {street}, {number}.' })
  const { text } = await owner.get(PAGE)
  expect(text).toContain(`Look out for us at 7 Quince Street, ${number}.`)
  expect(text).toContain(
    `Fern Beds: We have your request ${number}: http://localhost:8080${ownPath}`.replace("'", '&#39;'),
  )
  expect((await owner.post(`${PAGE}/visit/back`)).status).toBe(303)
  expect((await owner.get(PAGE)).text).not.toContain('Look out for us')
  await save('visit', { 'en-mail-visit': 'Look out!' })
  await save('visit', { 'en-mail-visit': '' })
  expect(await app.db.selectFrom('message_words').selectAll().execute()).toEqual([])
  expect((await owner.post(`${PAGE}/nothing`)).status).toBe(404)
})
