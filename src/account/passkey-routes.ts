import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { findBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { requireAccount } from '../http/signed-in.ts'
import { translator } from '../language/catalogue.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import { hashSecret } from '../lib/tokens.ts'
import { hasApp } from './authenticator.ts'
import { showRecoveryCodes } from './codes-routes.ts'
import { readPasskey } from './form.ts'
import { findPasskeys, keepPasskey, MOST_PASSKEYS, optionsToKeep, removePasskey } from './passkeys.ts'
import { countRecoveryCodes } from './recovery-codes.ts'
import { sessionSecret } from './session-cookies.ts'

/** A passkey, with its moments in words; `used` is null while it never was. */
interface PasskeyShown {
  id: number
  name: string
  made: string
  used: string | null
}

declare module '../http/render.ts' {
  interface Views {
    'account/passkeys': {
      passkeys: PasskeyShown[]
      /** What a browser needs to make one; null where there can be none, at `address`. */
      toKeep: string | null
      address: string
      /** Whether nothing is asked for yet besides the password, and whether removing the one there is would leave nothing. */
      isFirst: boolean
      isLast: boolean
      /** Recovery codes that are left; null where none are asked for. */
      left: number | null
    }
  }
}

const PAGE = '/password/passkeys'
const DANGEROUS = { config: { access: 'staff', dangerous: true, ...FEW_A_MINUTE } } as const

/** Everybody's own page about passkeys: adding them, removing them one by one. */
export function passkeyRoutes(app: FastifyInstance, deps: Deps): void {
  app.get(PAGE, { config: { access: 'staff', dangerous: true } }, (request, reply) =>
    showPasskeys(request, reply, deps),
  )

  app.post(PAGE, DANGEROUS, async (request, reply) => {
    const translate = translator(languageOf(request))
    const reading = readPasskey(new FormFields(request.body), translate)
    if (!reading.ok) return showPasskeys(request, reply, deps, reading.typed, reading.errors, 422)
    const { name, passkey } = reading.values
    const kept = hashSecret(sessionSecret(request, deps) ?? '')
    const outcome = await keepPasskey(deps, requireAccount(request), name, passkey, kept)
    if (!outcome.ok) {
      const errors = { name: translate(`passkey.${outcome.why}`, { most: MOST_PASSKEYS }) }
      return showPasskeys(request, reply, deps, { name }, errors, 422)
    }
    if (outcome.codes) return showRecoveryCodes(reply, outcome.codes)
    say(reply, translate('passkey.added'))
    return reply.redirect(PAGE, 303)
  })

  app.post<{ Params: { id: string } }>(`${PAGE}/:id/remove`, DANGEROUS, async (request, reply) => {
    const { id } = request.params
    if (!/^\d{1,15}$/.test(id)) throw new NotFound()
    const isLast = await removePasskey(deps, requireAccount(request).id, Number(id))
    say(reply, translator(languageOf(request))(isLast ? 'passkey.removed-last' : 'passkey.removed'))
    return reply.redirect(PAGE, 303)
  })
}

async function showPasskeys(
  request: FastifyRequest,
  reply: FastifyReply,
  deps: Deps,
  values: Typed = {},
  errors: Errors = {},
  status = 200,
) {
  const account = requireAccount(request)
  const language = languageOf(request)
  const zone = (await findBusiness(deps.db))?.time_zone ?? 'UTC'
  const inWords = (instant: string) => momentInWords(instant, zone, language)
  const rows = await findPasskeys(deps.db, account.id)
  const isOn = await hasApp(deps.db, account.id)
  const asksMore = isOn || rows.length > 0
  const data = {
    passkeys: rows.map(({ id, name, made_at, used_at }) => ({
      id,
      name,
      made: inWords(made_at),
      used: used_at && inWords(used_at),
    })),
    toKeep: await optionsToKeep(deps, account),
    address: deps.config.publicUrl,
    isFirst: !asksMore,
    isLast: rows.length === 1 && !isOn,
    left: asksMore ? await countRecoveryCodes(deps.db, account.id) : null,
  }
  reply.header('cache-control', 'no-store')
  return reply.page(
    'account/passkeys',
    { ...data, values, errors, here: '/password', scripts: ['passkey.js'] },
    status,
  )
}
