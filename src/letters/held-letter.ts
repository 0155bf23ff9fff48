import { findOwner } from '../account/queries.ts'
import { findBusiness } from '../business/queries.ts'
import { translator } from '../language/catalogue.ts'
import type { Gateway } from '../outbox/gateway.ts'
import { isGivenUp, OUT_OF_DATE, TOO_MANY, TOO_MANY_TEXTS } from '../outbox/given-up.ts'
import type { OfHeld } from '../outbox/of-held.ts'
import { markFault, markSent, markWaiting } from '../outbox/queries.ts'
import { textWords } from '../outbox/text-words.ts'
import { heldForOwner, wasItYou } from '../requests/maybe-junk/messages.ts'
import type { Outcome } from './account-letter.ts'
import { faultOf, HOUR_FULL } from './faults.ts'
import { type LetterDeps, laidOut, type Mail } from './letter.ts'
import { type Counted, giveBack, reserve } from './mail-limits.ts'
import type { Mailer } from './smtp.ts'
import { digitsOf, gatewayFaultOf, sendText } from './text-gateway.ts'

/** One message about what is held, as it goes out. */
interface Going {
  to: Counted
  tooMany: string
  send(): Promise<void>
  faultOf(error: unknown): string
}

/** Mails whoever sent what is held, or the owner; what was decided meanwhile isn't asked about any more. */
export async function mailOfHeld(deps: LetterDeps, mailer: Mailer, row: OfHeld): Promise<Outcome> {
  const letter = await writeMail(deps, row)
  const messageId = `<${row.id}@${new URL(deps.config.publicUrl).hostname}>`
  return goOut(
    deps,
    row,
    letter && {
      to: { address: letter.to.address, unconfirmed: row.kind === 'was-it-you' },
      tooMany: TOO_MANY,
      send: () => mailer.send(letter, messageId, row.made_at),
      faultOf,
    },
  )
}

/** The same by text, to whoever left only a phone. */
export async function textOfHeld(deps: LetterDeps, gateway: Gateway, row: OfHeld): Promise<Outcome> {
  const business = await findBusiness(deps.db)
  const asked = askedOf(row)
  if (!business || !asked) return goOut(deps, row, null)
  const { phone, language } = asked.sending
  const message = wasItYou(deps, translator(language, business.country), business.name, asked)
  const words = textWords(business.name, message.brief, message.link?.address)
  return goOut(deps, row, {
    to: { phone: digitsOf(phone) },
    tooMany: TOO_MANY_TEXTS,
    send: () => sendText(deps, gateway, { id: row.id, number: asked.number, phone, language }, words),
    faultOf: gatewayFaultOf,
  })
}

async function goOut(deps: LetterDeps, row: OfHeld, going: Going | null): Promise<Outcome> {
  if (row.sent_at || isGivenUp(row.last_fault)) return 'done'
  if (!going) return stop(deps, row, OUT_OF_DATE)
  const reserved = await reserve(deps.db, deps.secretKey, going.to, deps.now())
  if (reserved === 'stopped') return stop(deps, row, going.tooMany)
  if (reserved === 'waits') {
    await markWaiting(deps.db, row.id, HOUR_FULL)
    return 'again'
  }
  try {
    await going.send()
  } catch (error) {
    const fault = going.faultOf(error)
    await giveBack(deps.db, reserved)
    await markFault(deps.db, row.id, fault)
    return isGivenUp(fault) ? 'stopped' : 'again'
  }
  await markSent(deps.db, row.id, deps.now())
  return 'done'
}

async function stop(deps: LetterDeps, row: OfHeld, fault: string): Promise<Outcome> {
  await markFault(deps.db, row.id, fault)
  return 'stopped'
}

async function writeMail(deps: LetterDeps, row: OfHeld): Promise<Mail | null> {
  const business = await findBusiness(deps.db)
  if (!business) return null
  if (row.kind === 'held-staff') {
    const [owner, message] = [await findOwner(deps.db), await heldForOwner(deps)]
    if (!owner || !message) return null
    const t = translator('en', business.country)
    const to = { name: owner.name, address: owner.email }
    const greeting = t('mail.hello', { name: owner.name })
    return laidOut(deps, message, { to, greeting, business, language: 'en' })
  }
  const asked = askedOf(row)
  if (!asked) return null
  const { email, language } = asked.sending
  const t = translator(language, business.country)
  const to = { name: '', address: email }
  const around = { to, greeting: t('mail.hello-nobody'), business, language }
  return laidOut(deps, wasItYou(deps, t, business.name, asked), around)
}

function askedOf({ number, nonce, sending, junk_at }: OfHeld) {
  return number && nonce && sending && !junk_at ? { number, nonce, sending } : null
}
