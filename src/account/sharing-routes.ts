import type { FastifyInstance } from 'fastify'
import { qrPng, qrSvg } from '../business/qr-code.ts'
import { findBusiness } from '../business/queries.ts'
import { changeSites, readSites } from '../business/sites.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { t } from '../language/catalogue.ts'
import { showSettings } from './settings-page.ts'

declare module '../http/render.ts' {
  interface Views {
    'account/card': { name: string; phone: string; address: string; codeDrawing: string; lines: CardLine[] }
  }
}

interface CardLine {
  language: 'en' | 'es'
  heading: string
  text: string
}

const owner = { config: { access: 'owner' } } as const

/** How the form gets to homeowners: on the owner's own site, as a QR code, on a card to print. */
export function sharingRoutes(app: FastifyInstance, deps: Deps): void {
  const address = `${deps.config.publicUrl}/`
  const title = `QR code of ${address}`

  app.post('/settings/sites', owner, async (request, reply) => {
    const reading = readSites(new FormFields(request.body))
    if (!reading.ok) return showSettings(reply, deps, reading)
    await changeSites(deps, reading.values)
    say(
      reply,
      reading.values.length > 0
        ? 'These sites can show your form now.'
        : 'No other site can show your form now.',
    )
    return reply.redirect('/settings', 303)
  })

  app.get('/settings/qr-code.svg', owner, (_request, reply) =>
    reply.type('image/svg+xml').send(qrSvg(address, title)),
  )

  app.get('/settings/qr-code.png', owner, async (_request, reply) =>
    reply.type('image/png').send(await qrPng(address)),
  )

  app.get('/settings/card', owner, async (_request, reply) => {
    const business = await findBusiness(deps.db)
    if (!business) throw new NotFound()
    const { name, phone } = business
    const lines = (['en', 'es'] as const).map(language => ({
      language,
      heading: t(language, 'card.heading'),
      text: t(language, 'card.text'),
    }))
    return reply.page('account/card', { name, phone, address, codeDrawing: qrSvg(address, title), lines })
  })
}
