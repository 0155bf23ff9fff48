import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import { type Alike, findAlikeCustomers, findAlikePlaces } from './alike.ts'
import type { Kind } from './queries.ts'

/** Another customer or place that may be the same, as it is offered to the staff. */
export interface Offer {
  /** The head of its group. */
  id: number
  /** 'Hazel Underhill, 6 Foxglove Close' */
  words: string
  /** 'same phone and address' */
  by: string
  /** Whether the address is one of the signs. */
  address: boolean
  /** The number of the request whose beds are offered along, where beds are wanted. */
  bedsOf?: string | null
}

/** Whom to offer for the customer or the place that heads a group. */
export async function findOffers(db: Kysely<Database>, kind: Kind, headId: number): Promise<Offer[]> {
  const find = kind === 'customer' ? findAlikeCustomers : findAlikePlaces
  return (await find(db, headId)).map(offerInWords)
}

function offerInWords({ head_id, name, street, phone, email, address }: Alike): Offer {
  const signs = [phone && 'phone', email && 'email', address && 'address'].filter(Boolean)
  const last = signs.pop()
  return {
    id: head_id,
    words: [name, street].filter(Boolean).join(', '),
    by: `same ${[signs.join(', '), last].filter(Boolean).join(' and ')}`,
    address,
  }
}
