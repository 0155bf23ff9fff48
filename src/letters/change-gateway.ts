import type { Deps } from '../deps.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { newNonce } from '../lib/tokens.ts'
import { isLoopback } from './smtp.ts'

const LONGEST = 500

/** Reads the address that texts are handed to: https, or http on this very machine. */
export function readGateway(fields: FormFields): FormReading<{ address: string }> {
  const address = fields.line('gateway', {
    most: LONGEST,
    missing: 'Give the address of your gateway.',
    tooLong: `That’s longer than ${LONGEST} characters.`,
  })
  const fault = address && faultOf(address)
  if (fault) fields.fault('gateway', fault)
  return fields.reading({ address })
}

function faultOf(address: string): string {
  const wanted = 'Give the whole address, such as https://texts.example.com/send.'
  if (!URL.canParse(address)) return wanted
  const { protocol, hostname, username, password, hash } = new URL(address)
  if (protocol !== 'https:' && protocol !== 'http:') return wanted
  if (protocol === 'http:' && !isLoopback(hostname.replace(/^\[|\]$/g, '')))
    return 'That address isn’t secure. It has to begin with https://, except on this same machine.'
  if (username || password || hash)
    return 'Leave out names, passwords, and anything after #. The signature shows that it’s you.'
  return ''
}

/**
 * Has texts go to a gateway from now on, those too that wait to be passed on. Its secret stays until it is asked to be
 * renewed. The same address again changes nothing.
 */
export async function setGateway(deps: Deps, address: string): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const row = { address, nonce: newNonce(), set_at: deps.now().toString() }
    const before = await trx.selectFrom('text_gateway').select('address').forUpdate().executeTakeFirst()
    await trx
      .insertInto('text_gateway')
      .values(row)
      .onConflict(conflict => conflict.column('only').doUpdateSet({ address, set_at: row.set_at }))
      .execute()
    if (before) return
    const waiting = await trx
      .selectFrom('outbox')
      .select('id')
      .where('way', '=', 'text')
      .where('sent_at', 'is', null)
      .where('last_fault', 'is', null)
      .orderBy('made_at')
      .execute()
    for (const { id } of waiting) {
      await trx.updateTable('outbox').set({ tried_from: row.set_at }).where('id', '=', id).execute()
      await deps.jobs.sendText(trx, id)
    }
  })
}

/** Has texts wait to be passed on by hand again. */
export async function removeGateway(deps: Deps): Promise<void> {
  await deps.db.deleteFrom('text_gateway').execute()
}

/** Makes another secret; with the one of before nothing is signed any more. */
export async function renewGatewaySecret(deps: Deps): Promise<void> {
  await deps.db.updateTable('text_gateway').set({ nonce: newNonce() }).execute()
}
