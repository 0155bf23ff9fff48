import { randomUUID } from 'node:crypto'
import cookie from '@fastify/cookie'
import formbody from '@fastify/formbody'
import Fastify, { type FastifyInstance, LogController } from 'fastify'
import { askAgainForDanger } from './account/danger.ts'
import { invitationRoutes } from './account/invitation-routes.ts'
import { mailedLinkRoutes } from './account/mailed-link-routes.ts'
import { passwordResetRoutes } from './account/password-reset-routes.ts'
import { staffAccountRoutes } from './account/routes.ts'
import { guardStaffPages, readSessions } from './account/session.ts'
import { signInRoutes } from './account/sign-in-routes.ts'
import { accountantRoutes } from './accountant/routes.ts'
import { billRoutes } from './billing/routes.ts'
import { bookingRoutes } from './bookings/routes.ts'
import { closingRoutes } from './closing/routes.ts'
import { troubleRoutes } from './closing/trouble-routes.ts'
import { crewRoutes } from './days/crew-routes.ts'
import { dayRulesRoutes } from './days/rules-routes.ts'
import type { Deps } from './deps.ts'
import { setUpRoutes, welcomeRoute } from './first-run/routes.ts'
import { noteArrivals } from './http/arrivals.ts'
import { serveAssets } from './http/assets.ts'
import { sayWhoMayKeep } from './http/caching.ts'
import { compressAnswers } from './http/encoded.ts'
import { answerBadAddress, answerErrors } from './http/errors.ts'
import { healthRoutes } from './http/health.ts'
import { keepPickedLanguage } from './http/language.ts'
import { logAnswers, logOptions } from './http/log.ts'
import { limitRates } from './http/rate-limits.ts'
import { renderPages } from './http/render.ts'
import { collectRoutes, type RouteRow } from './http/route-table.ts'
import { refuseCrossSite } from './http/same-origin.ts'
import { letSitesShow, sendSecurityHeaders } from './http/security-headers.ts'
import { refuseUnstorableText } from './http/storable-text.ts'
import { jobSheetRoutes } from './job-sheets/routes.ts'
import { sheetSettingsRoutes } from './job-sheets/settings-routes.ts'
import { gatewayRoutes, replyRoute } from './letters/gateway-routes.ts'
import { outboxRoutes } from './letters/routes.ts'
import { wordsRoutes } from './letters/words-routes.ts'
import { alongRoutes } from './loads/along-routes.ts'
import { loadRoutes } from './loads/routes.ts'
import { messages } from './messages.ts'
import { movingInRoutes } from './moving-in/routes.ts'
import { offersRoutes } from './offers/routes.ts'
import { stopOffersRoutes } from './offers/stop-routes.ts'
import { onHandRoutes } from './on-hand/routes.ts'
import { howRoutes } from './operations/routes.ts'
import { orderRoutes } from './orders/routes.ts'
import { supplierRoutes } from './orders/supplier-routes.ts'
import { ownPageRoutes } from './own-page/routes.ts'
import { letterheadRoutes } from './papers/letterhead-routes.ts'
import { papersRoutes } from './papers/routes.ts'
import { firmRoutes } from './people/firm-routes.ts'
import { jobCertificateRoutes } from './people/job-certificate-routes.ts'
import { putInDoneRoutes } from './people/put-in-routes.ts'
import { peopleRoutes } from './people/routes.ts'
import { accessLogRoutes } from './privacy/access-log-routes.ts'
import { keepingRoutes } from './privacy/keeping-routes.ts'
import { personRoutes } from './privacy/person-routes.ts'
import { whatWeKeepRoutes } from './privacy/what-we-keep-routes.ts'
import { daysRoutes } from './queue/days-routes.ts'
import { feedRoute, feedRoutes } from './queue/feed-routes.ts'
import { queueRoutes } from './queue/routes.ts'
import { quoteRoutes } from './quotes/routes.ts'
import { csvRoutes } from './rates/csv-routes.ts'
import { draftRoutes } from './rates/draft/routes.ts'
import { lookedAtRoutes } from './rates/looked-at-routes.ts'
import { draftPhotoRoutes, photoRoutes } from './rates/photos/photo-routes.ts'
import { ratesRoutes } from './rates/routes.ts'
import { todayRoutes } from './rates/today-routes.ts'
import { versionRoutes } from './rates/versions/routes.ts'
import { putInRoutes } from './requests/put-in-routes.ts'
import { requestRoutes } from './requests/routes.ts'
import { visitRoutes } from './visits/routes.ts'

const BODY_LIMIT = 256 * 1024
const SECONDS = 1000
const NOWHERE: readonly string[] = []

export interface App {
  server: FastifyInstance
  routes: RouteRow[]
}

/** Builds the whole service from its parts, ready for `listen` or `inject`. */
export async function buildApp(deps: Deps, logStream?: NodeJS.WritableStream): Promise<App> {
  const server = Fastify({
    logger: logOptions(deps.config.logLevel, logStream),
    logController: new LogController({ disableRequestLogging: true }),
    genReqId: () => randomUUID(),
    requestIdHeader: false,
    frameworkErrors: answerBadAddress,
    trustProxy: deps.config.trustedProxy.length > 0 ? deps.config.trustedProxy : false,
    bodyLimit: BODY_LIMIT,
    requestTimeout: 30 * SECONDS,
    handlerTimeout: 20 * SECONDS,
    connectionTimeout: 60 * SECONDS,
    // Closing lets whoever is being answered finish; serve.ts ends what is left after a grace.
    forceCloseConnections: 'idle',
    // The beds of a form without script stand in the address, which may grow past Node's usual 16 KiB of headers.
    http: {
      maxHeaderSize: 32 * 1024,
      headersTimeout: 15 * SECONDS,
      requestTimeout: 30 * SECONDS,
      connectionsCheckingInterval: 5 * SECONDS,
    },
    routerOptions: { maxParamLength: 200 },
  })
  const routes = collectRoutes(server)
  const secure = deps.config.publicUrl.startsWith('https:')

  noteArrivals(server, deps.arrivals, deps.config.trustedProxy)
  sendSecurityHeaders(server, deps.config.publicUrl)
  const cookieDefaults = { path: '/', httpOnly: true, sameSite: 'lax', secure } as const
  sayWhoMayKeep(server)
  await server.register(cookie, { parseOptions: cookieDefaults })
  await server.register(formbody)
  // No page of ours sends it, and as a text it would have as many parts as characters.
  server.removeContentTypeParser('text/plain')
  compressAnswers(server)
  await limitRates(server)
  refuseCrossSite(server, deps.config.publicUrl)
  keepPickedLanguage(server)
  readSessions(server, deps)
  refuseUnstorableText(server)
  await renderPages(server, {
    assets: deps.assets.addresses,
    findBusiness: async () => (await deps.standing.read()).business,
    lastBusiness: () => deps.standing.last()?.business,
    demo: deps.demo,
    routes,
  })
  answerErrors(server, deps.load)
  logAnswers(server, deps.answered)

  healthRoutes(server, deps.db)
  serveAssets(server, deps.assets)
  await server.register(async publicPages => {
    setUpRoutes(publicPages, deps)
    signInRoutes(publicPages, deps)
    passwordResetRoutes(publicPages, deps)
    mailedLinkRoutes(publicPages, deps)
    invitationRoutes(publicPages, deps)
    photoRoutes(publicPages, deps)
    feedRoute(publicPages, deps)
    await replyRoute(publicPages, deps)
    await stopOffersRoutes(publicPages, deps)
  })
  await server.register(async homeownersPages => {
    letSitesShow(
      homeownersPages,
      deps.config.publicUrl,
      () => deps.standing.last()?.business?.sites ?? NOWHERE,
    )
    requestRoutes(homeownersPages, deps)
    bookingRoutes(homeownersPages, deps)
    ownPageRoutes(homeownersPages, deps)
    whatWeKeepRoutes(homeownersPages, deps)
  })
  await server.register(async staffPages => {
    guardStaffPages(staffPages)
    askAgainForDanger(staffPages, deps)
    welcomeRoute(staffPages, deps)
    queueRoutes(staffPages, deps)
    visitRoutes(staffPages, deps)
    quoteRoutes(staffPages, deps)
    billRoutes(staffPages, deps)
    accountantRoutes(staffPages, deps)
    daysRoutes(staffPages, deps)
    dayRulesRoutes(staffPages, deps)
    jobSheetRoutes(staffPages, deps)
    sheetSettingsRoutes(staffPages, deps)
    crewRoutes(staffPages, deps)
    closingRoutes(staffPages, deps)
    await troubleRoutes(staffPages, deps)
    onHandRoutes(staffPages, deps)
    await loadRoutes(staffPages, deps)
    alongRoutes(staffPages, deps)
    orderRoutes(staffPages, deps)
    supplierRoutes(staffPages, deps)
    feedRoutes(staffPages, deps)
    putInRoutes(staffPages, deps)
    putInDoneRoutes(staffPages, deps)
    peopleRoutes(staffPages, deps)
    await firmRoutes(staffPages, deps)
    await jobCertificateRoutes(staffPages, deps)
    await papersRoutes(staffPages, deps)
    await letterheadRoutes(staffPages, deps)
    await movingInRoutes(staffPages, deps)
    ratesRoutes(staffPages, deps)
    lookedAtRoutes(staffPages, deps)
    todayRoutes(staffPages, deps)
    draftRoutes(staffPages, deps)
    versionRoutes(staffPages, deps)
    await draftPhotoRoutes(staffPages, deps)
    await csvRoutes(staffPages, deps)
    offersRoutes(staffPages, deps)
    outboxRoutes(staffPages, { ...deps, messages })
    howRoutes(staffPages, deps)
    gatewayRoutes(staffPages, deps)
    keepingRoutes(staffPages, deps)
    personRoutes(staffPages, deps)
    accessLogRoutes(staffPages, deps)
    wordsRoutes(staffPages, deps)
    staffAccountRoutes(staffPages, deps)
  })
  return { server, routes }
}
