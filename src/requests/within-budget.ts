import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Deps, Load } from '../deps.ts'
import { Refusal, wantsJson } from '../http/errors.ts'
import { languageOf } from '../http/language.ts'
import { fieldsIn, Uploaded } from '../http/uploaded.ts'
import { secondsInWords } from '../language/dates-in-words.ts'
import { ThreadLost, ThreadsBusy } from '../limits/threads.ts'
import type { OpenTable } from './open-table.ts'
import { LONG, unitsOfBeds, unitsOfBytes } from './units.ts'
import { type Workings, workings } from './workings.ts'

/** What the page needs that says when to come back. */
export interface BusyPage {
  /** '12 seconds' */
  wait: string
  /** Where the form was sent, to be sent again; null of an address, which has all of it. */
  action: string | null
  fields: [name: string, value: string][]
  again: string
  /** Whether there were files too, which a page can't carry. */
  filesLost: boolean
}

declare module '../http/render.ts' {
  interface Views {
    'requests/busy': BusyPage
  }
}

/** More than forty beds whose every field is filled, in bytes; what comes without a length is taken for as much. */
export const MOST_SENT = 64 * 1024

const BYTES_OF_FILES_A_UNIT = 1e6
const SECONDS_FOR_THREADS = 2
/** More fields than any form of ours has aren't carried along. */
const MOST_FIELDS = 1500

/**
 * Does so many units of work for a stranger, while there is budget for it and a thread is free where it needs one;
 * else tells when to come back, with what was typed.
 */
export async function withinBudget(
  { load }: Deps,
  request: FastifyRequest,
  reply: FastifyReply,
  units: number,
  work: () => Promise<unknown>,
): Promise<unknown> {
  const seconds = load.budget.take(units, request.ip)
  if (seconds > 0) return comeBack(load, request, reply, 429, seconds)
  try {
    return await work()
  } catch (error) {
    if (error instanceof ThreadLost) request.log.error({ err: error }, 'a thread ended over its work')
    else if (!(error instanceof ThreadsBusy)) throw error
    return comeBack(load, request, reply, 503, SECONDS_FOR_THREADS)
  }
}

/**
 * Takes a page behind a link that shows so many beds from the budget of its network alone, which strangers elsewhere can’t spend.
 * @throws {Refusal} 429 where there isn't enough
 */
export function chargeForBeds(deps: Deps, request: FastifyRequest, reply: FastifyReply, beds: number) {
  chargeOwn(deps, request, reply, unitsOfBeds(beds))
}

/**
 * The same of so many units.
 * @throws {Refusal} 429 where there aren't enough
 */
export function chargeOwn({ load }: Deps, request: FastifyRequest, reply: FastifyReply, units: number) {
  const seconds = load.budget.takeOwn(units, request.ip)
  if (seconds > 0) throw busy(request, reply, 429, seconds)
}

/** How much work it is to take in what was posted, in units. */
export function unitsPosted(request: FastifyRequest): number {
  const bytes = Number(request.headers['content-length'] ?? MOST_SENT)
  // Files are only found in it, not read.
  const texts = request.body instanceof Uploaded ? Math.min(bytes, MOST_SENT) : bytes
  return unitsOfBytes(texts) + (bytes - texts) / BYTES_OF_FILES_A_UNIT
}

/** Works out what was asked: here where it is little, in another thread where it takes long. */
export async function workOut<Name extends keyof Workings>(
  { load }: Deps,
  units: number,
  name: Name,
  asked: Parameters<Workings[Name]>[0],
  table: OpenTable,
): Promise<ReturnType<Workings[Name]>> {
  if (units >= LONG) return load.threads.run(name, asked, table.whole)
  const here = workings[name] as (asked: unknown, table: OpenTable) => ReturnType<Workings[Name]>
  return here(asked, table)
}

async function comeBack(
  load: Load,
  request: FastifyRequest,
  reply: FastifyReply,
  status: 429 | 503,
  seconds: number,
): Promise<FastifyReply> {
  const refusal = busy(request, reply, status, seconds)
  if (wantsJson(request) || request.headers['x-part'] !== undefined) throw refusal
  const fields = fieldsSent(request.body)
  if (!fields) throw refusal
  await load.hold.wait()
  const action = request.method === 'POST' ? request.url : null
  const again = request.url.replace(/\blanguage=\w*&?/, '')
  const filesLost = request.body instanceof Uploaded && Object.keys(request.body.files).length > 0
  const page = { wait: refusal.params.wait!, action, fields, again, filesLost }
  return reply.page('requests/busy', { ...page, here: action ? null : again }, status)
}

function busy(request: FastifyRequest, reply: FastifyReply, status: 429 | 503, seconds: number): Refusal {
  reply.header('retry-after', seconds).header('cache-control', 'no-store')
  return new Refusal(status, 'error.busy', { wait: secondsInWords(seconds, languageOf(request)) })
}

/** What was posted, empty fields too, as they may say something; null where it is too much to be carried along. */
function fieldsSent(body: unknown): BusyPage['fields'] | null {
  const sent = fieldsIn(body)
  const fields: BusyPage['fields'] = []
  if (Object.keys(sent).length > MOST_FIELDS) return null
  for (const [name, value] of Object.entries(sent)) {
    for (const one of Array.isArray(value) ? value : [value]) {
      if (typeof one === 'string') fields.push([name, one])
      if (fields.length > MOST_FIELDS) return null
    }
  }
  return fields
}
