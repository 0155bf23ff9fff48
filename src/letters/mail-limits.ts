import { type Kysely, sql, type Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import { linkToken } from '../lib/tokens.ts'

/** How many mails may go out in an hour by the clock; of texts too, counted by themselves. */
export const MAILS_AN_HOUR = {
  /** To one address that anybody may have typed; what is beyond is given up. */
  unconfirmedAddress: 3,
  /** To one phone, which nobody ever confirms: of those too, what is beyond is given up. */
  phone: 6,
  /** To all such addresses together; what is beyond waits, as it does with those below. */
  unconfirmed: 60,
  /** To one address that is confirmed, or the owner's. */
  address: 60,
  all: 300,
}

const KEPT = { hours: 24 }

/** What is counted together, how many of it may go out in an hour, and what becomes of those beyond. */
interface Count {
  counted: string
  most: number
  beyond: 'stopped' | 'waits'
}

/** Where a message goes: to a mail address that may be anybody's, or to the digits of a phone. */
export type Counted = { address: string; unconfirmed: boolean } | { phone: string }

/** A mail that has been counted in an hour. */
export interface Reserved {
  counts: Count[]
  hour: string
}

class Full extends Error {
  readonly beyond: Count['beyond']

  constructor({ beyond }: Count) {
    super('Enough mails in this hour')
    this.beyond = beyond
  }
}

/**
 * Counts a mail before it is sent; where enough of the kind went out in this hour it isn't counted, and what is to
 * become of it is given. Every count is a statement that refuses above its limit; all of them are made, or none.
 */
export async function reserve(
  db: Kysely<Database>,
  secretKey: string,
  to: Counted,
  at: Temporal.Instant,
): Promise<Reserved | Count['beyond']> {
  const hour = at.round({ smallestUnit: 'hour', roundingMode: 'floor' }).toString()
  const counts = countsOf(secretKey, to)
  try {
    await db.transaction().execute(async trx => {
      for (const count of counts) await countOne(trx, count, hour)
    })
  } catch (error) {
    if (error instanceof Full) return error.beyond
    throw error
  }
  return { counts, hour }
}

/** Takes a mail back that was counted and couldn't be sent, so that a mail server that is down uses nothing up. */
export async function giveBack(db: Kysely<Database>, { counts, hour }: Reserved): Promise<void> {
  await db.transaction().execute(async trx => {
    for (const { counted } of counts) {
      await trx
        .updateTable('mail_hour')
        .set(eb => ({ mails: eb('mails', '-', 1) }))
        .where('counted', '=', counted)
        .where('hour', '=', hour)
        .where('mails', '>', 0)
        .execute()
    }
  })
}

/** Forgets the hours that are long past. */
export async function sweepMailHours(db: Kysely<Database>, at: Temporal.Instant): Promise<void> {
  await db.deleteFrom('mail_hour').where('hour', '<', at.subtract(KEPT).toString()).execute()
}

// Always in this order, the shared ones last: whoever counts several never waits for one who waits for him.
function countsOf(secretKey: string, to: Counted): Count[] {
  const { unconfirmedAddress, unconfirmed, address, phone, all } = MAILS_AN_HOUR
  const whose = (kind: string, of: string) => linkToken(secretKey, `mails to ${kind}`, of)
  if ('phone' in to) {
    return [
      { counted: whose('a phone', to.phone), most: phone, beyond: 'stopped' },
      { counted: 'texts', most: unconfirmed, beyond: 'waits' },
    ]
  }
  const mailbox = mailboxOf(to.address)
  const total: Count = { counted: 'all', most: all, beyond: 'waits' }
  if (!to.unconfirmed)
    return [{ counted: whose('an address', mailbox), most: address, beyond: 'waits' }, total]
  return [
    { counted: whose('an unconfirmed address', mailbox), most: unconfirmedAddress, beyond: 'stopped' },
    { counted: 'unconfirmed', most: unconfirmed, beyond: 'waits' },
    total,
  ]
}

// Most servers put carol+anything@ into carol's mailbox.
function mailboxOf(address: string): string {
  return address.toLowerCase().replace(/\+[^@]*(?=@)/, '')
}

async function countOne(trx: Transaction<Database>, count: Count, hour: string): Promise<void> {
  const counted = await sql`
    insert into mail_hour as m (counted, hour, mails) values (${count.counted}, ${hour}::timestamptz, 1)
    on conflict (counted, hour) do update set mails = m.mails + 1 where m.mails < ${count.most}::integer
    returning mails`.execute(trx)
  if (counted.rows.length === 0) throw new Full(count)
}
