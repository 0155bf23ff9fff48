import type { FastifyReply } from 'fastify'
import type { Errors } from '../http/posted.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import type { CodeProof } from './check-code.ts'

/** What is said of a code that wasn't taken, beside its field, with the status of the answer. */
export function codeFault(
  reply: FastifyReply,
  language: Language,
  { waitSeconds }: Exclude<CodeProof, { ok: true }>,
  field: string,
): { errors: Errors; status: 422 | 429 } {
  if (waitSeconds > 0) reply.header('retry-after', waitSeconds)
  const key = waitSeconds > 0 ? 'account.wait' : 'account.code-wrong'
  return {
    errors: { [field]: t(language, key, { seconds: waitSeconds }) },
    status: waitSeconds > 0 ? 429 : 422,
  }
}
