import type { FastifyReply } from 'fastify'
import type { Errors } from '../http/posted.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import type { CodeProof } from './check-code.ts'

export const WRONG = { code: 'account.code-wrong', passkey: 'passkey.wrong' } as const

/** What is said of a code or a passkey that wasn't taken, beside the field of the code, with the status of the answer. */
export function codeFault(
  reply: FastifyReply,
  language: Language,
  { wrong, waitSeconds }: Exclude<CodeProof, { ok: true }>,
  field: string,
): { errors: Errors; status: 422 | 429 } {
  if (waitSeconds > 0) reply.header('retry-after', waitSeconds)
  const key = waitSeconds > 0 ? 'account.wait' : WRONG[wrong]
  return {
    errors: { [field]: t(language, key, { seconds: waitSeconds }) },
    status: waitSeconds > 0 ? 429 : 422,
  }
}
