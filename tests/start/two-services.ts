import { join } from 'node:path'
import type { TestApp } from '../helpers/app.ts'
import { ownFolder, startBedwright } from '../helpers/process.ts'
import { urlOf } from '../helpers/store.ts'

/** A form as it is posted; a homeowner has no cookie. */
export interface Sent {
  path: string
  form: Record<string, string | string[]>
  files?: Record<string, Buffer>
  cookie?: string
}

/** What a post is answered with: where it leads, or the page. */
export interface Answer {
  status: number
  location: string
  page: string
}

/** Where forms may be posted to. */
export type Service = (sent: Sent) => Promise<Answer>

const CLOCK = join(import.meta.dirname, 'dies-at-statement.ts')
let posted = 0

/**
 * The service of this process, and on a server a second one in a process of its own, on the same database, whose clock goes on
 * from the same moment. Each post comes from an address of its own, so that the limit of a few a minute is not met.
 */
export async function servicesOf(app: TestApp): Promise<Service[]> {
  return app.kind === 'postgres' ? [here(app), await another(app)] : [here(app), here(app)]
}

function here(app: TestApp): Service {
  return async sent => {
    const form = new Response(bodyOf(sent))
    const { statusCode, headers, body } = await app.server.inject({
      method: 'POST',
      url: sent.path,
      remoteAddress: nextAddress(),
      headers: { ...headersOf(app, sent), 'content-type': form.headers.get('content-type')! },
      payload: Buffer.from(await form.arrayBuffer()),
    })
    return { status: statusCode, location: String(headers.location ?? ''), page: body }
  }
}

async function another(app: TestApp): Promise<Service> {
  const { deps, store } = app
  const service = startBedwright({
    ...{ DATA_DIR: await ownFolder(), DATABASE_URL: await urlOf(store), SECRET_KEY: deps.secretKey },
    ...{ PUBLIC_URL: deps.config.publicUrl, TRUSTED_PROXY: '127.0.0.1' },
    ...{ CLOCK: deps.now().toString(), CLOCK_RUNS: 'yes', NODE_OPTIONS: `--import ${CLOCK}` },
  })
  const address = await service.address()
  return async sent => {
    const answer = await fetch(address + sent.path, {
      method: 'POST',
      body: bodyOf(sent),
      redirect: 'manual',
      headers: { ...headersOf(app, sent), 'x-forwarded-for': nextAddress() },
    })
    const page = await answer.text()
    return { status: answer.status, location: answer.headers.get('location') ?? '', page }
  }
}

function bodyOf({ form, files }: Sent): URLSearchParams | FormData {
  const body = files ? new FormData() : new URLSearchParams()
  for (const [name, typed] of Object.entries(form)) for (const one of [typed].flat()) body.append(name, one)
  for (const [name, bytes] of Object.entries(files ?? {}))
    if (body instanceof FormData) body.append(name, new Blob([new Uint8Array(bytes)]), 'bed.jpg')
  return body
}

function headersOf({ deps }: TestApp, { cookie = '' }: Sent) {
  return { origin: deps.config.publicUrl, cookie, accept: 'text/html' }
}

function nextAddress(): string {
  posted += 1
  return `198.18.${(posted >> 8) & 255}.${posted & 255}`
}
