import type { FastifyRequest } from 'fastify'
import { MOST_PHOTOS } from '../../business/form.ts'
import type { Deps } from '../../deps.ts'
import { FormFields } from '../../http/form-fields.ts'
import { Uploaded } from '../../http/uploaded.ts'
import type { Translate } from '../../language/catalogue.ts'
import { oneLine } from '../../lib/typed-text.ts'
import { MOST_BYTES } from '../../photos/garden-picture.ts'
import type { CarriedPhoto } from './keep.ts'
import { findHeld } from './queries.ts'
import { type Sender, takePhoto } from './take.ts'

/** The part of a form that photos are added with. */
export interface PhotoFields {
  /** Those that are held already, with the paths of their small pictures. */
  kept: (CarriedPhoto & { path: string })[]
  /** What was typed beside files that are still to be chosen, one for each photo that may be added. */
  open: { words: string }[]
  most: number
  megabytes: number
  /** Where a script sends each photo. */
  address: string
}

/** Where photos are sent to one by one, before their request is. */
export const PHOTOS_PATH = '/request/photos'

/** The fields for `most` photos, with what is held already and what was typed beside files that aren't. */
export function photoFields(
  most: number,
  kept: CarriedPhoto[] = [],
  open: { words: string }[] = [],
  address = PHOTOS_PATH,
): PhotoFields | null {
  if (most <= 0) return null
  const left = Math.max(0, most - kept.length)
  return {
    kept: kept.map(photo => ({ ...photo, path: `${PHOTOS_PATH}/${photo.token}` })),
    open: Array.from({ length: left }, (_, index) => ({ words: open[index]?.words ?? '' })),
    most,
    megabytes: MOST_BYTES / 1e6,
    address,
  }
}

export interface PhotosRead {
  kept: CarriedPhoto[]
  /** What was typed beside files that were refused, or aren't chosen yet. */
  open: { words: string }[]
}

const LONGEST_WORDS = 120

/**
 * Reads the photos of a form: those that it carries, and files, which are held at once, so that what is right isn't lost
 * where the form has to be shown again. What is wrong is said beside the field in which the file is to be chosen again.
 */
export async function readPhotos(
  deps: Deps,
  request: FastifyRequest,
  fields: FormFields,
  { most, sender, say }: { most: number; sender: Sender; say: Translate },
): Promise<PhotosRead> {
  const rows = rowsOf(fields)
  const tokens = rows.flatMap(({ token }) => (token ? [token] : []))
  const held = await findHeld(deps.db, tokens, deps.now())
  if (tokens.some(token => !held.has(token))) fields.fault('photos', say('photos.gone'))
  const kept: CarriedPhoto[] = []
  const open: { words: string; message?: string }[] = []
  for (const { token, words, file } of rows) {
    const isThere = file !== null || held.has(token)
    if (isThere && kept.length >= most) fields.fault('photos', say('photos.too-many'))
    else if (file) {
      const bytes = new Uint8Array(await file.arrayBuffer())
      const taken = await takePhoto(deps, request, bytes, sender)
      if (taken.ok) kept.push({ token: taken.token, words })
      else open.push({ words, message: say(taken.fault.key, taken.fault.params) })
    } else if (isThere) kept.push({ token, words })
    else if (words !== '') open.push({ words })
  }
  for (const [index, row] of [...kept, ...open].entries()) {
    if ('message' in row && row.message) fields.fault(`photos.${index}.file`, row.message)
    if (row.words.length > LONGEST_WORDS) fields.fault(`photos.${index}.words`, say('contact.too-long'))
  }
  const cut = request.body instanceof Uploaded ? request.body.cut : null
  if (cut) fields.fault('photos', say(cut === 'no room' ? 'photos.no-room' : 'photos.cut'))
  return { kept, open }
}

/** The photos that a form carries, and what was typed beside files, as hidden fields of a page that has to come first. */
export function carriedPhotos(
  fields: Record<string, unknown>,
  read?: PhotosRead,
): [name: string, value: string][] {
  const rows = read
    ? [...read.kept.map(({ token, words }) => ({ token, words })), ...read.open]
    : rowsOf(new FormFields(fields))
  return rows.flatMap((row, index) =>
    [
      [`photos.${index}.kept`, 'token' in row ? row.token : ''],
      [`photos.${index}.words`, row.words],
    ].filter((field): field is [string, string] => field[1] !== ''),
  )
}

function rowsOf(fields: FormFields) {
  return Array.from({ length: MOST_PHOTOS }, (_, index) => {
    const row = fields.group(`photos.${index}`)
    const token = row.tick('drop') ? '' : row.text('kept')
    return { token, words: oneLine(row.text('words')), file: row.file('file') }
  })
}
