import { dayInWords } from '../language/dates-in-words.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import type { MessageKind } from '../outbox/kinds.ts'
import type { About, Message, WriteMessage } from '../outbox/message.ts'
import { pageLink } from '../requests/messages.ts'
import { givenBackOnce } from './given-back.ts'
import { findPayments } from './queries.ts'
import { depositOnce } from './receive.ts'
import { wayInWords } from './way-words.ts'

/** Of money that was paid. */
export const paymentMessages = {
  'deposit-received': depositReceived,
  'given-back': givenBack,
} satisfies Partial<Record<MessageKind, WriteMessage>>

/** The receipt of one payment; none once it was taken back. */
async function depositReceived(about: About): Promise<Message | null> {
  const { t, row, deps, business, language } = about
  const { number } = row
  const payments = await findPayments(deps.db, row.request_id)
  const paid = payments.find(({ id, undone_by }) => row.once === depositOnce(id) && undone_by === null)
  if (!paid) return null
  const amount = moneyInWords(paid.amount, business.currency, language)
  return {
    subject: t('deposit.subject', { number }),
    paragraphs: [t('deposit.mail', { number })],
    facts: [
      { term: t('deposit.amount'), value: amount },
      { term: t('deposit.day'), value: dayInWords(paid.day, language, true) },
      { term: t('deposit.way'), value: wayInWords(paid.way, t) },
    ],
    link: await pageLink(about),
    brief: t('deposit.brief', { number, amount }),
  }
}

/** The receipt of what was given back, or kept as credit; none once that was undone. */
async function givenBack(about: About): Promise<Message | null> {
  const { t, row, deps, business, language } = about
  const { number } = row
  const payments = await findPayments(deps.db, row.request_id)
  const back = payments.find(({ id, undone_by }) => row.once === givenBackOnce(id) && undone_by === null)
  if (!back) return null
  const amount = moneyInWords(cents(new Decimal(back.amount).negated()), business.currency, language)
  const [params, link] = [{ number, amount }, await pageLink(about)]
  const day = { term: t('deposit.day'), value: dayInWords(back.day, language, true) }
  if (back.way === 'credit')
    return {
      subject: t('deposit.credit-subject', params),
      paragraphs: [t('deposit.credit-mail', params)],
      facts: [{ term: t('deposit.credit-amount'), value: amount }, day],
      link,
      brief: t('deposit.credit-brief', params),
    }
  return {
    subject: t('deposit.back-subject', params),
    paragraphs: [t('deposit.back-mail', params)],
    facts: [
      { term: t('deposit.back-amount'), value: amount },
      day,
      { term: t('deposit.way'), value: wayInWords(back.way, t) },
    ],
    link,
    brief: t('deposit.back-brief', params),
  }
}
