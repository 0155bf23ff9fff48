import type { Deps } from '../../deps.ts'
import type { Translate } from '../../language/catalogue.ts'
import type { Message } from '../../outbox/message.ts'
import { pathOfLink } from '../links.ts'
import { countMaybeJunk } from './queries.ts'

/** Asks whether it was them who sent a request, with nothing in it that anybody typed. */
export function wasItYou(
  { config, secretKey }: Pick<Deps, 'config' | 'secretKey'>,
  t: Translate,
  business: string,
  { number, nonce }: { number: string; nonce: string },
): Message {
  return {
    subject: t('held.subject', { business }),
    paragraphs: [t('held.mail', { number }), t('held.mail-not-you')],
    facts: [],
    link: {
      words: t('held.mail-link'),
      address: config.publicUrl + pathOfLink(secretKey, 'email address', nonce),
    },
    brief: t('held.text', { number }),
  }
}

/** Tells the owner how many are held as it goes out; null where none is any more. */
export async function heldForOwner({ db, config }: Pick<Deps, 'db' | 'config'>): Promise<Message | null> {
  const { held } = await countMaybeJunk(db)
  if (held === 0) return null
  const subject = held === 1 ? '1 request is held as maybe junk' : `${held} requests are held as maybe junk`
  return {
    subject,
    paragraphs: [
      'A person may be among them. You get this email once a day at most, and only when something new is held.',
    ],
    facts: [],
    link: { words: 'Look at what is held', address: `${config.publicUrl}/queue/maybe-junk` },
    brief: subject,
  }
}
