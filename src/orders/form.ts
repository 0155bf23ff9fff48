import { readDay } from '../days/form.ts'
import type { OrderState } from '../db/schema/goods.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import type { Ordering } from './order.ts'
import type { SupplierTold } from './suppliers.ts'

const SLUG = /^[a-z0-9]+(-[a-z0-9]+)*$/
const MOST_UNITS = 99_999
const MOST_LEAD = 30
const STATES: OrderState[] = ['confirmed', 'delivered', 'canceled']
const TOO_LONG = 'That’s too long.'

/** Reads an order that was given, as the page offered it; `units` may have been changed on the phone with the supplier. */
export function readOrdering(fields: FormFields): FormReading<Ordering> {
  const own = fields.group(`order.${fields.carried('nth')}`)
  const say = 'Say how many were ordered, such as 6 or 2.5.'
  const units = own.figure('units', {
    ...{ places: 3, above: 0, most: MOST_UNITS },
    ...{ missing: say, unreadable: say, outside: say },
  })
  const supplierId = Number(/^[1-9]\d{0,14}$/.exec(own.text('supplier'))?.[0] ?? 0)
  if (supplierId === 0) own.fault('supplier', 'Say from whom.')
  const day = readDay(fields.text('day'))
  const [slug, pack] = [fields.text('slug'), fields.text('pack')]
  if (!day || !SLUG.test(slug) || (pack !== '' && !SLUG.test(pack)))
    fields.fault('', 'That isn’t on the list any more.')
  const of = fields.text('of') === 'extra' ? 'extra' : 'finish'
  const delivered = fields.tick('delivered')
  return fields.reading({ supplierId, day: day ?? '', of, slug, pack, delivered, units: units ?? '0' })
}

/** Reads what became of an order, from the fields of its own row. */
export function readState(fields: FormFields, id: number): FormReading<{ state: OrderState; note: string }> {
  const state = fields.choice('state', STATES, 'Say what became of it.')
  const note = fields.line(`dropped.${id}`, { most: 200, tooLong: TOO_LONG })
  return fields.reading({ state: state ?? 'confirmed', note })
}

/** Reads a supplier; of what they sell only what is in `known` counts. */
export function readSupplier(fields: FormFields, known: string[]): FormReading<SupplierTold> {
  const name = fields.line('name', { most: 80, tooLong: TOO_LONG, missing: 'Give their name.' })
  const phone = fields.line('phone', { most: 40, tooLong: TOO_LONG })
  const cutoff = fields.line('cutoff', { most: 120, tooLong: TOO_LONG })
  const hours = fields.line('hours', { most: 120, tooLong: TOO_LONG })
  const say = `Type a number of days from 0 to ${MOST_LEAD}.`
  const lead = fields.wholeNumber('leadDays', {
    most: MOST_LEAD,
    ...{ missing: say, unreadable: say, outside: say },
  })
  const sells = fields.ticks('sells').filter(one => known.includes(one))
  return fields.reading({
    name,
    phone,
    cutoff,
    hours,
    leadDays: lead ?? 0,
    keeps: fields.tick('keeps'),
    sells,
  })
}
