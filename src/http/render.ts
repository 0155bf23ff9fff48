import view from '@fastify/view'
import { Eta } from 'eta'
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { Selectable } from 'kysely'
import type { BusinessTable } from '../db/schema/business.ts'
import { type Key, translator } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { takeFlash } from './flash.ts'
import type { Again } from './kept-fields.ts'
import { isEnglishOnly, languageOf, languageToCarry } from './language.ts'
import { pagesOf } from './roles.ts'
import type { RouteRow } from './route-table.ts'

const VIEWS = new URL('../../views/', import.meta.url).pathname

const eta = new Eta({ views: VIEWS, cache: true, autoEscape: true, useWith: false, varName: 'it' })

// Eta looks up where a partial is each time it is put in, which takes longer than drawing most of them.
const { resolvePath } = eta
const paths = new Map<string, string>()
eta.resolvePath = function (view, options) {
  const path = paths.get(view) ?? resolvePath!.call(this, view, options)
  if (view.startsWith('/')) paths.set(view, path)
  return path
}

/** Every page and the data that its view needs; each feature's routes.ts adds its own by declaration merging. */
export interface Views {
  'errors/error': {
    key: Key
    params: Record<string, string>
    status: number
    requestId: string
    again: Again | null
  }
}

declare module 'fastify' {
  interface FastifyReply {
    /** Sends a page: its own data, and what every layout needs. `status` is 200 unless given. */
    page<Name extends keyof Views>(
      name: Name,
      data: Views[Name] & PageExtras,
      status?: number,
    ): Promise<FastifyReply>
    /** What stands around a page that is drawn elsewhere, and sent by `drawn` with this status. */
    around(status?: number): Promise<Around>
    drawn(markup: string, status?: number): FastifyReply
  }
}

/** What a page may hand to its layout: faults by field name, in words, and the scripts it profits from. */
export interface PageExtras {
  errors?: Record<string, string>
  scripts?: string[]
  /** What was typed, by field name: what the partials of fields show again. */
  values?: object
  /** The address that shows this page again, where that isn't the one asked for: for the other language. Null where none does. */
  here?: string | null
}

/** What every page has around it that isn't the web's own matter: handed in, so that this room knows no feature. */
export interface Surroundings {
  /** The addresses of assets by their plain names. */
  assets: Record<string, string>
  /** Whose pages they are; undefined before set-up. */
  findBusiness(): Promise<Selectable<BusinessTable> | undefined>
  /** The same as it was known last, without asking the database. */
  lastBusiness(): Selectable<BusinessTable> | undefined
  /** Whether every page says that all of it is invented. */
  demo: boolean
  /** Every route, once all are there. */
  routes: RouteRow[]
}

export async function renderPages(app: FastifyInstance, surroundings: Surroundings): Promise<void> {
  await app.register(view, { engine: { eta }, root: VIEWS, production: true, templates: VIEWS })
  const { findBusiness, lastBusiness } = surroundings
  app.decorateReply('page', async function (this: FastifyReply, name, data, status = 200) {
    const markup = await this.viewAsync(`${name}.eta`, withLayout(data, await this.around(status)))
    return this.drawn(markup, status)
  })
  app.decorateReply('around', async function (this: FastifyReply, status = 200) {
    // What tells of a fault doesn't ask the database again, which may be what failed.
    const business = status < 500 ? await findBusiness() : lastBusiness()
    return aroundPage(this.request, this, surroundings, business ?? null)
  })
  app.decorateReply('drawn', function (this: FastifyReply, markup, status = 200) {
    return this.code(status).type('text/html; charset=utf-8').send(markup)
  })
}

/** What stands around a page, in plain data, as it may be drawn in another thread. */
export interface Around {
  language: Language
  /** The language as forms have to send it along; mostly null. */
  carriedLanguage: Language | null
  /** Whether the page is in English alone. */
  englishOnly: boolean
  assets: Record<string, string>
  business: Selectable<BusinessTable> | null
  account: FastifyRequest['account']
  /** The pages of the staff, and which of them are open to whoever is signed in; null for everybody else. */
  pages: Record<string, boolean> | null
  /** The address that was asked for, without its query. */
  path: string
  demo: boolean
  flash: ReturnType<typeof takeFlash>
}

/** What every page is given besides: a name in here always wins over one of the page's own. */
export interface LayoutData extends Omit<Around, 'assets' | 'pages'> {
  t: ReturnType<typeof translator>
  /** The address of an asset by its plain name. */
  asset(name: string): string
  /** Whether a page of the staff, by its path as the table of routes has it, is open to whoever asks: what leads there is shown then. */
  opens(path: string): boolean
}

/** The markup of a page as `page` sends it, where no request is at hand. */
export function drawPage<Name extends keyof Views>(
  name: Name,
  data: Views[Name] & PageExtras,
  around: Around,
): string {
  return eta.render(name, withLayout(data, around))
}

function withLayout(data: PageExtras, { assets, pages, ...around }: Around): object {
  const asset = (wanted: string) => requireAsset(assets, wanted)
  const layoutData: LayoutData = {
    ...around,
    t: translator(around.language, around.business?.country),
    asset,
    opens: path => pages !== null && mayOpen(pages, path),
  }
  return { scripts: [], ...data, ...layoutData, errors: data.errors ?? {} }
}

function requireAsset(assets: Record<string, string>, name: string): string {
  const address = assets[name]
  if (!address) throw new Error(`There is no asset named ${name}`)
  return address
}

function mayOpen(pages: Record<string, boolean>, path: string): boolean {
  const may = pages[path]
  if (may === undefined) throw new Error(`There is no page of the staff at ${path}`)
  return may
}

function aroundPage(
  request: FastifyRequest,
  reply: FastifyReply,
  { assets, demo, routes }: Surroundings,
  business: Around['business'],
): Around {
  return {
    language: languageOf(request),
    carriedLanguage: languageToCarry(request),
    englishOnly: isEnglishOnly(request),
    assets,
    business,
    account: request.account,
    pages: request.account && pagesOf(request.account.role, routes),
    path: request.url.split(/[?#]/, 1)[0]!,
    demo,
    flash: takeFlash(request, reply),
  }
}
