import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import type { Translate } from '../language/catalogue.ts'
import { Decimal } from '../lib/decimal.ts'
import type { Driven } from './miles.ts'

const MOST_ODOMETER = 9_999_999
/** Nobody drives farther in a day. */
const MOST_A_DAY = 2000
const KEY = /^[\da-f]{8}(-[\da-f]{4}){3}-[\da-f]{12}$/

/** Reads how far somebody drove: what the odometer said before and after, or the distance alone. */
export function readMiles(
  fields: FormFields,
  { day, today, unit }: { day: string; today: string; unit: Driven['unit'] },
  say: Translate,
): FormReading<Driven> {
  const key = fields.text('milesKey')
  if (!KEY.test(key)) fields.fault('', say('miles.again'))
  if (day > today) fields.fault('', say('miles.not-come'))
  const tooLong = say('loads.too-long')
  const vehicle = fields.line('vehicle', { most: 80, tooLong, missing: say('miles.say-vehicle') })
  const odometer = { places: 1, most: MOST_ODOMETER, ...both(say('miles.say-odometer')) }
  const out = fields.figure('odometerOut', odometer)
  const back = fields.figure('odometerBack', odometer)
  const told = fields.figure('distance', {
    ...{ places: 1, above: 0, most: MOST_A_DAY },
    ...both(say('miles.say-distance')),
  })
  const words = fields.line('milesWords', { most: 200, tooLong })
  const isFaulty = ['odometerOut', 'odometerBack', 'distance'].some(name => fields.errors[name])
  const distance = isFaulty ? null : distanceOf(fields, { out, back, told }, say)
  return fields.reading({
    ...{ key, day, vehicle, unit, words, odometer_out: out, odometer_back: back },
    distance: distance ?? '0',
  })
}

function both(sentence: string) {
  return { unreadable: sentence, outside: sentence }
}

interface Figures {
  out: string | null
  back: string | null
  told: string | null
}

function distanceOf(fields: FormFields, { out, back, told }: Figures, say: Translate): string | null {
  const refuse = (name: string, sentence: string) => {
    fields.fault(name, sentence)
    return null
  }
  if (out === null && back === null) return told ?? refuse('distance', say('miles.say-one'))
  if (out === null) return refuse('odometerOut', say('miles.say-both'))
  if (back === null) return refuse('odometerBack', say('miles.say-both'))
  const driven = new Decimal(back).minus(out)
  if (!driven.gt(0)) return refuse('odometerBack', say('miles.back-first'))
  if (driven.gt(MOST_A_DAY)) return refuse('odometerBack', say('miles.too-far'))
  if (told !== null && !driven.eq(told)) return refuse('distance', say('miles.differs'))
  return driven.toFixed(1)
}
