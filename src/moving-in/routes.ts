import type { FastifyInstance, FastifyReply } from 'fastify'
import { noteAccess } from '../account/access-log.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { takeUploads } from '../http/uploads.ts'
import { requireStanding } from '../rates/standing.ts'
import { readColumns, readFileForm, UPLOAD_LIMIT } from './form.ts'
import {
  keepFile,
  matchColumns,
  previewFile,
  type TakenBack,
  type TakenIn,
  takeBackFile,
  takeIn,
} from './moving-in.ts'
import { customersCsv } from './out.ts'
import { type FilePage, type StartPage, showFile, showStart, type TakenInPage } from './page.ts'
import { requireFile } from './queries.ts'

declare module '../http/render.ts' {
  interface Views {
    'moving-in/start': StartPage
    'moving-in/file': FilePage
    'moving-in/taken-in': TakenInPage
  }
}

interface OfFile {
  Params: { id: string }
}

const OWNER = { config: { access: 'owner' } } as const
/** What takes everybody's data out. */
const DANGEROUS = { config: { access: 'owner', dangerous: true } } as const

const NOT_IN: Record<Exclude<TakenIn, 'in' | 'in before'>, string> = {
  'same file': 'You took in a file with the same content before. Take that one back first.',
  faulty: 'Nothing was taken in, because something in the file isn’t right yet.',
  changed: 'The columns were changed meanwhile. Please look again.',
}

/** Customers, places and beds from a spreadsheet, and out into one. */
export async function movingInRoutes(app: FastifyInstance, deps: Deps): Promise<void> {
  app.get('/customers/file', OWNER, (_request, reply) => showStart(deps, reply))

  app.post('/customers/file/customers.csv', DANGEROUS, async (request, reply) => {
    const { rates } = await requireStanding(deps)
    const csv = await customersCsv(deps.db, rates.body)
    const entry = {
      account_id: requireAccount(request).id,
      verb: 'customers exported',
      customer_id: null,
    } as const
    await noteAccess(deps.db, entry, [], deps.now())
    return reply
      .header('cache-control', 'no-store')
      .type('text/csv; charset=utf-8')
      .header('content-disposition', 'attachment; filename="customers.csv"')
      .send(csv)
  })

  app.get<OfFile>('/customers/file/:id', OWNER, (request, reply) =>
    showFile(deps, reply, idOf(request.params)),
  )

  app.post<OfFile>('/customers/file/:id/columns', OWNER, async (request, reply) => {
    const id = idOf(request.params)
    if ((await requireFile(deps.db, id)).taken_in_at !== null) return backTo(reply, id)
    const reading = readColumns(new FormFields(request.body), (await previewFile(deps, id)).header)
    if (!reading.ok) return showFile(deps, reply, id, { ...reading, status: 422 })
    await matchColumns(deps, id, reading.values)
    return backTo(reply, id)
  })

  app.post<OfFile>('/customers/file/:id/take-in', OWNER, async (request, reply) => {
    const id = idOf(request.params)
    const came = await takeIn(deps, requireAccount(request).id, id)
    if (came !== 'in' && came !== 'in before')
      return refuse(reply, id, NOT_IN[came], came === 'faulty' ? 422 : 409)
    if (came === 'in') say(reply, 'They’re in.')
    return backTo(reply, id)
  })

  app.post<OfFile>('/customers/file/:id/take-back', OWNER, async (request, reply) => {
    const id = idOf(request.params)
    const came = await takeBackFile(deps, requireAccount(request).id, id)
    if (!came.ok) return refuse(reply, id, builtOnInWords(came), 409)
    say(reply, 'All of that file is out again.')
    return backTo(reply, id)
  })

  await app.register(async scope => {
    takeUploads(scope, UPLOAD_LIMIT)
    scope.post('/customers/file', OWNER, async (request, reply) => {
      const reading = await readFileForm(new FormFields(request.body))
      if (!reading.ok) return showStart(deps, reply, reading.errors)
      const kept = await keepFile(deps, requireAccount(request).id, reading.values)
      if (kept.ok) return backTo(reply, kept.id)
      const { row, message } = kept.fault
      return showStart(deps, reply, { file: row > 0 ? `Row ${row}: ${message}` : message })
    })
  })

  function refuse(reply: FastifyReply, id: number, sentence: string, status: number) {
    return showFile(deps, reply, id, { typed: {}, errors: { '': sentence }, status })
  }
}

function builtOnInWords({ builtOn }: Extract<TakenBack, { ok: false }>): string {
  const words: Record<string, string> = {
    joined: 'is one customer with somebody else now',
    'place joined': 'has a property that was joined with another',
    firm: 'has terms as a firm or an association',
    consent: 'said what they want to get from you',
    beds: 'has a request with these beds',
  }
  const all = builtOn.map(({ name, what }) => `${name} ${words[what]}`)
  return `This can’t be taken back any more: ${all.join('; ')}.`
}

function backTo(reply: FastifyReply, id: number) {
  return reply.redirect(`/customers/file/${id}`, 303)
}

// What no id can be is none that there is.
function idOf({ id }: OfFile['Params']): number {
  return Number(/^\d{1,15}$/.exec(id)?.[0] ?? 0)
}
