import type { FormFields } from '../http/form-fields.ts'
import type { Errors, FormReading, Typed } from '../http/posted.ts'
import type { Key, Translate } from '../language/catalogue.ts'
import { MOST_BYTES, makeGardenPicture } from '../photos/garden-picture.ts'
import { TooManyPictures } from '../photos/one-at-a-time.ts'
import { lookAtPicture } from '../photos/read-picture.ts'
import type { Getting } from './get.ts'

const MOST_UNITS = 99_999
const MOST_PAID = 999_999
const MOST_WHERE = 80
const KEY = /^[\da-f]{8}(-[\da-f]{4}){3}-[\da-f]{12}$/
const SLUG = /^[a-z0-9]+(-[a-z0-9]+)*$/

/** Reads what somebody got, from the fields `line.<nth>.…` of its own line and what the page put beside them; a photo of the ticket only where there is room. */
export async function readGetting(
  fields: FormFields,
  day: string,
  say: Translate,
  hasRoom: () => Promise<boolean>,
): Promise<FormReading<Getting>> {
  const own = fields.group(`line.${fields.carried('nth')}`)
  const key = fields.text('key')
  const slug = fields.text('slug')
  if (!KEY.test(key) || !SLUG.test(slug)) fields.fault('', say('loads.not-wanted'))
  const of = fields.text('of') === 'extra' ? 'extra' : 'finish'
  const unitsSaid = say('loads.say-units')
  const units = own.figure('units', {
    ...{ places: 3, above: 0, most: MOST_UNITS },
    ...{ missing: unitsSaid, unreadable: unitsSaid, outside: unitsSaid },
  })
  const onHandId = fields.carried('onHand') || null
  const paidSaid = say('loads.say-paid')
  const paid =
    onHandId === null
      ? own.figure('paid', { places: 2, most: MOST_PAID, unreadable: paidSaid, outside: paidSaid })
      : null
  const boughtAt = own.line('where', { most: MOST_WHERE, tooLong: say('loads.too-long') })
  const ticket = await readTicket(own, say, hasRoom)
  const chosen = own.has('pack') ? own.text('pack') : fields.text('pack')
  const pack = SLUG.test(chosen) ? chosen : ''
  const delivered = fields.tick('delivered')
  const seen = fields.carried('seen')
  return fields.reading({
    ...{ key, day, seen, of, slug, pack, delivered, onHandId, units: units ?? '0', paid, boughtAt, ticket },
  })
}

async function readTicket(
  own: FormFields,
  say: Translate,
  hasRoom: () => Promise<boolean>,
): Promise<Buffer | null> {
  const file = own.file('ticket')
  if (!file) return null
  const bytes = Buffer.from(await file.arrayBuffer())
  const looked = await lookAtPicture(bytes, file.type, MOST_BYTES)
  const fault = (key: Key, params: Record<string, string>) => {
    own.fault('ticket', say(key, params))
    return null
  }
  if (!looked.ok) return fault(looked.fault.key, looked.fault.params)
  if (!(await hasRoom())) return fault('photos.no-room-left', {})
  try {
    const made = await makeGardenPicture(bytes)
    return made.ok ? made.made.picture.jpeg : fault(made.fault.key, made.fault.params)
  } catch (error) {
    if (!(error instanceof TooManyPictures)) throw error
    return fault('photos.unreadable', {})
  }
}

/** Which thing to be bought a small form is about. */
export function readWhat(fields: FormFields): { of: 'finish' | 'extra'; slug: string } {
  return { of: fields.text('of') === 'extra' ? 'extra' : 'finish', slug: fields.text('slug') }
}

export interface Again {
  values?: Typed
  errors?: Errors
  status?: number
}
