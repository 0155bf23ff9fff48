import view from '@fastify/view'
import { Eta } from 'eta'
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { Selectable } from 'kysely'
import type { BusinessTable } from '../db/schema.ts'
import { type Key, translator } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { takeFlash } from './flash.ts'
import { isEnglishOnly, languageOf } from './language.ts'

const VIEWS = new URL('../../views/', import.meta.url).pathname

/** Every page and the data that its view needs; each feature's routes.ts adds its own by declaration merging. */
export interface Views {
  'errors/error': { key: Key; params: Record<string, string>; status: number; requestId: string }
}

declare module 'fastify' {
  interface FastifyReply {
    /** Sends a page: its own data, and what every layout needs. `status` is 200 unless given. */
    page<Name extends keyof Views>(
      name: Name,
      data: Views[Name] & PageExtras,
      status?: number,
    ): Promise<FastifyReply>
    /** The markup of a page as `page` sends it. */
    markup<Name extends keyof Views>(
      name: Name,
      data: Views[Name] & PageExtras,
      status?: number,
    ): Promise<string>
  }
}

/** What a page may hand to its layout: faults by field name, in words, and the scripts it profits from. */
export interface PageExtras {
  errors?: Record<string, string>
  scripts?: string[]
  /** What was typed, by field name: what the partials of fields show again. */
  values?: object
  /** The address that shows this page again, where that isn't the one asked for: for the other language. */
  here?: string
}

/** What every page has around it that isn't the web's own matter: handed in, so that this room knows no feature. */
export interface Surroundings {
  /** The address of an asset by its plain name. */
  asset(name: string): string
  /** Whose pages they are; undefined before set-up. */
  findBusiness(): Promise<Selectable<BusinessTable> | undefined>
  /** The same as it was known last, without asking the database. */
  lastBusiness(): Selectable<BusinessTable> | undefined
  /** Whether every page says that all of it is invented. */
  demo: boolean
}

export async function renderPages(app: FastifyInstance, surroundings: Surroundings): Promise<void> {
  const eta = new Eta({ views: VIEWS, cache: true, autoEscape: true, useWith: false, varName: 'it' })
  await app.register(view, { engine: { eta }, root: VIEWS, production: true, templates: VIEWS })
  const { findBusiness, lastBusiness } = surroundings
  app.decorateReply('markup', async function (this: FastifyReply, name, data, status = 200) {
    // What tells of a fault doesn't ask the database again, which may be what failed.
    const business = status < 500 ? await findBusiness() : lastBusiness()
    const layoutData = dataForLayout(this.request, this, surroundings, business ?? null)
    const errors = data.errors ?? {}
    return this.viewAsync(`${name}.eta`, { scripts: [], ...data, ...layoutData, errors })
  })
  app.decorateReply('page', async function (this: FastifyReply, name, data, status = 200) {
    const markup = await this.markup(name, data, status)
    return this.code(status).type('text/html; charset=utf-8').send(markup)
  })
}

/** What every page is given besides: a name in here always wins over one of the page's own. */
export interface LayoutData {
  language: Language
  /** Whether the page is the owner's own, in English alone. */
  englishOnly: boolean
  t: ReturnType<typeof translator>
  asset: Surroundings['asset']
  business: Selectable<BusinessTable> | null
  account: FastifyRequest['account']
  /** The address that was asked for, without its query. */
  path: string
  demo: boolean
  flash: ReturnType<typeof takeFlash>
}

function dataForLayout(
  request: FastifyRequest,
  reply: FastifyReply,
  { asset, demo }: Surroundings,
  business: LayoutData['business'],
): LayoutData {
  const language = languageOf(request)
  return {
    language,
    englishOnly: isEnglishOnly(request),
    t: translator(language),
    asset,
    business,
    account: request.account,
    path: request.url.split('?')[0]!,
    demo,
    flash: takeFlash(request, reply),
  }
}
