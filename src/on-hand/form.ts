import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import type { Translate } from '../language/catalogue.ts'
import type { Counted } from './count.ts'
import type { OnHandMove } from './move.ts'
import type { PackNamed } from './pack-words.ts'

const MOST = 99_999
const PLACES = 3
const MOST_SPOT = 60
const MOST_NOTE = 200
const KEY = /^[\da-f]{8}(-[\da-f]{4}){3}-[\da-f]{12}$/

/** How a pack is named in a form. */
export function packValue({ of, slug, pack }: PackNamed): string {
  return [of, slug, pack].join(' ')
}

/** Reads what is put on hand by hand, of one of these packs. */
export function readPut(fields: FormFields, packs: PackNamed[], say: Translate): FormReading<OnHandMove> {
  const values = packs.map(packValue)
  const chosen = fields.choice('what', values, say('hand.pick'))
  const sentence = say('hand.say-how-many')
  const units = fields.figure('units', {
    ...{ places: PLACES, above: 0, most: MOST },
    ...{ missing: sentence, unreadable: sentence, outside: sentence },
  })
  const spot = fields.line('spot', { most: MOST_SPOT, tooLong: say('hand.too-long') })
  const key = fields.text('key')
  if (!KEY.test(key)) fields.fault('', say('hand.say-how-many'))
  const pack = packs[values.indexOf(chosen ?? '')] ?? { of: 'finish', slug: '', pack: '' }
  return fields.reading({
    ...pack,
    spot,
    key,
    kind: 'by hand',
    units: units ?? '0',
    note: readNote(fields, say),
  })
}

/** Reads what was counted. */
export function readCount(fields: FormFields, say: Translate): FormReading<Counted> {
  const sentence = say('hand.say-count')
  const units = fields.figure('units', {
    ...{ places: PLACES, most: MOST },
    ...{ missing: sentence, unreadable: sentence, outside: sentence },
  })
  const seen = /^\d{1,7}(\.\d{1,3})?$/.exec(fields.text('seen'))?.[0] ?? '-1'
  return fields.reading({ seen, units: units ?? '0', note: readNote(fields, say) })
}

function readNote(fields: FormFields, say: Translate): string {
  return fields.line('note', { most: MOST_NOTE, tooLong: say('hand.too-long') })
}
