import type { BedTold, StopTold } from '../estimate/job/bed.ts'

/** What happens to a request after it is sent, in order; `at` is a moment as momentOf reads it. */
export type Happening = { at: string } & (
  | { verb: 'confirm the address' | 'leave the visit out' | 'lapse' | 'take up again' }
  | { verb: 'accept'; orderNumber?: string }
  | { verb: 'set a visit'; for: string }
  | { verb: 'measure'; sizes: Record<string, string>[] }
  | { verb: 'quote'; added?: { description: string; amount: string; reason: string }[]; note?: string }
  | { verb: 'book' | 'choose a week'; daysAhead: number }
  | { verb: 'close' | 'bill' }
  | { verb: 'do part of it'; restAhead: number; hours: string; note: string }
  | { verb: 'pay'; amount: string; way: 'cash' | 'check' | 'card'; tip?: string }
  | { verb: 'the check comes back'; fee: string }
  | { verb: 'decline'; reason: 'price' | 'later' | 'myself' | 'other'; words: string }
  | { verb: 'call off'; reason: string }
  | { verb: "can't do"; reason: 'far' | 'full' | 'kind' | 'other'; words: string }
  | { verb: 'note'; words: string }
  | { verb: 'same as'; before: string; decision: 'same' | 'place' }
)

/** An invented homeowner and what becomes of the request. Phones are of the numbers kept for fiction. */
export interface Story {
  sent: string
  name: string
  phone?: string
  email?: string
  street: string
  postcode: string
  language?: 'en' | 'es'
  preferredTimes?: string
  gate?: string
  dog?: string
  note?: string
  extras?: string[]
  /** Told to the staff on the phone. */
  putIn?: true
  stops?: StopTold[]
  beds: BedTold[]
  after: Happening[]
}

/** A bed as told; what isn't said is a bare, open bed of shredded wood, taped. */
export function bed(shape: string, sizes: Record<string, string>, instead: Partial<BedTold> = {}): BedTold {
  return {
    shape,
    sizes,
    count: '1',
    measuredBy: 'tape',
    planted: 'open',
    lying: 'bare',
    finish: 'shredded-wood',
    depth: '',
    ...instead,
  }
}
