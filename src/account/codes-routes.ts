import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { qrSvg } from '../business/qr-code.ts'
import { findBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { hashSecret } from '../lib/tokens.ts'
import { beginAuthenticator, findBegun, hasApp } from './authenticator.ts'
import { codeFault } from './code-fault.ts'
import { renewRecoveryCodes, turnCodesOff, turnCodesOn } from './codes.ts'
import { countRecoveryCodes } from './recovery-codes.ts'
import { asksForCode } from './second-factor.ts'
import { sessionSecret } from './session-cookies.ts'

/** An app to be set up: its QR code as SVG, and the secret to be typed where no camera is, in groups of four. */
interface Begun {
  drawing: string
  secret: string
}

declare module '../http/render.ts' {
  interface Views {
    /** `endsOthers` is whether turning codes on ends the other sessions: where nothing is asked for so far. */
    'account/codes': { isOn: boolean; endsOthers: boolean; left: number; begun: Begun | null }
    'account/recovery-codes': { codes: string[] }
  }
}

const PAGE = '/password/codes'
const DANGEROUS = { config: { access: 'staff', dangerous: true, ...FEW_A_MINUTE } } as const

/** Everybody's own page about codes from an app: setting it up, recovery codes, turning it off. */
export function codesRoutes(app: FastifyInstance, deps: Deps): void {
  app.get(PAGE, DANGEROUS, (request, reply) => showCodes(request, reply, deps))

  app.post(`${PAGE}/begin`, DANGEROUS, async (request, reply) => {
    await beginAuthenticator(deps, requireAccount(request).id)
    return reply.redirect(PAGE, 303)
  })

  app.post(PAGE, DANGEROUS, async (request, reply) => {
    const account = requireAccount(request)
    const kept = hashSecret(sessionSecret(request, deps) ?? '')
    const typed = new FormFields(request.body).text('code')
    if (await hasApp(deps.db, account.id)) return reply.redirect(PAGE, 303)
    const outcome = await turnCodesOn(deps, account, typed, kept)
    if (outcome.ok) return outcome.codes ? showRecoveryCodes(reply, outcome.codes) : reply.redirect(PAGE, 303)
    const { errors, status } = codeFault(reply, languageOf(request), outcome, 'code')
    return showCodes(request, reply, deps, { code: typed }, errors, status)
  })

  app.post(`${PAGE}/recovery`, DANGEROUS, async (request, reply) => {
    try {
      return showRecoveryCodes(reply, await renewRecoveryCodes(deps, requireAccount(request).id))
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      say(reply, t(languageOf(request), error.key))
      return reply.redirect(PAGE, 303)
    }
  })

  app.post(`${PAGE}/off`, DANGEROUS, async (request, reply) => {
    const isLast = await turnCodesOff(deps, requireAccount(request).id)
    say(reply, t(languageOf(request), isLast ? 'account.codes-off-done' : 'passkey.still'))
    return reply.redirect('/password', 303)
  })
}

async function showCodes(
  request: FastifyRequest,
  reply: FastifyReply,
  deps: Deps,
  values: Typed = {},
  errors: Errors = {},
  status = 200,
) {
  const account = requireAccount(request)
  const business = await findBusiness(deps.db)
  const app = await findBegun(deps, account, business?.name ?? '')
  const begun = app && {
    drawing: qrSvg(app.address, t(languageOf(request), 'account.codes-picture')),
    secret: app.secret.replace(/.{4}(?=.)/g, '$& '),
  }
  const isOn = await hasApp(deps.db, account.id)
  const left = await countRecoveryCodes(deps.db, account.id)
  reply.header('cache-control', 'no-store')
  const endsOthers = !(await asksForCode(deps.db, account.id))
  return reply.page('account/codes', { isOn, endsOthers, left, begun, values, errors, here: PAGE }, status)
}

/** Shows recovery codes, this once. */
export function showRecoveryCodes(reply: FastifyReply, codes: string[]) {
  reply.header('cache-control', 'no-store')
  return reply.page('account/recovery-codes', { codes, here: PAGE, scripts: ['copy.js'] })
}
