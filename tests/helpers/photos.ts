import { randomUUID } from 'node:crypto'
import { expect } from 'vitest'
import { addPhotos } from '../../src/requests/changed-by-homeowner.ts'
import { holdPhoto } from '../../src/requests/photos/queries.ts'
import type { Sending } from '../../src/requests/quote-request.ts'
import { halves } from '../photos/pictures.ts'
import type { TestApp } from './app.ts'
import type { Browser } from './people.ts'
import { BEDS, CAROL } from './request-form.ts'
import { sendRequest } from './requests.ts'

/** A small photo of a bed. */
export const photo = () => halves('#336633', '#553311', 40, 30).jpeg().toBuffer()

/** Sends a photo as the script of a form does. */
export function sendOne(browser: Browser, bytes: Buffer, path = '/request/photos') {
  return browser
    .post(path)
    .set('content-type', 'application/octet-stream')
    .set('accept', 'application/json')
    .send(bytes)
}

/** Holds a photo past the routes, of nothing that could be seen. Gives what the form carries for it. */
export function holdPast({ db, deps }: TestApp): Promise<string> {
  const picture = { jpeg: Buffer.from('a photo'), width: 4, height: 3 }
  return holdPhoto(db, { picture, small: picture }, deps.now())
}

/** Gives a request a photo, as its homeowner does. */
export async function givePhoto(app: TestApp, id: number, words = ''): Promise<number> {
  await addPhotos(app.deps, id, [{ token: await holdPast(app), words }])
  const [newest] = await app.db
    .selectFrom('request_photo')
    .select('id')
    .where('quote_request_id', '=', id)
    .orderBy('id', 'desc')
    .execute()
  return newest!.id
}

/** Sends a request without beds. */
export function sendUnseen(app: TestApp, instead: Partial<Sending> = {}) {
  return sendRequest(app, { told: { beds: [], extras: [], postcode: '' }, sentAs: 'look', ...instead })
}

/** Sends a photo as a script does; gives what the form carries for it. */
export async function hold(app: TestApp): Promise<string> {
  const answer = await sendOne(app.browser(), await photo())
  expect([answer.status, answer.body]).toEqual([200, { kept: expect.stringMatching(/^[\w-]{43}$/) }])
  return answer.body.kept
}

/** Posts who and where with fields as given, as a browser does of a form with files in it; `files` by the field's name. */
export function sendWith(
  browser: Browser,
  fields: Record<string, string>,
  files: Record<string, Buffer> = {},
  path = '/requests',
) {
  const post = browser.post(path)
  for (const [name, value] of Object.entries(fields)) post.field(name, value)
  for (const [name, bytes] of Object.entries(files))
    post.attach(name, bytes, { filename: 'bed.jpg', contentType: 'image/jpeg' })
  return post
}

/** Who and where, with a key of its own, and how it is asked for; within the area that is served. */
export const asked = (as: string, more: Record<string, string> = {}) => ({
  ...CAROL,
  as,
  submissionKey: randomUUID(),
  ...more,
})

export const measured = (more: Record<string, string> = {}) => ({
  ...BEDS,
  ...CAROL,
  submissionKey: randomUUID(),
  ...more,
})

/** The tokens of photos that a page carries. */
export function tokensIn(page: string): string[] {
  return [...page.matchAll(/name="photos\.\d\.kept" value="([\w-]{43})"/g)].map(([, token]) => token!)
}

/** What is kept of the photos of homeowners, in their order. */
export function keptPhotos({ db }: TestApp) {
  return db
    .selectFrom('request_photo')
    .select(['id', 'quote_request_id', 'place', 'words', 'token_hash'])
    .orderBy('id')
    .execute()
}
