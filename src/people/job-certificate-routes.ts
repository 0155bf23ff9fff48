import type { FastifyInstance, FastifyReply } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, FormReading, Typed } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { takeUploads } from '../http/uploads.ts'
import { dayOf } from '../lib/dates.ts'
import { forgetReplaced, insertFile, type KeptFile } from '../papers/queries.ts'
import { readPaper, UPLOAD_LIMIT } from '../papers/read-file.ts'
import { sendFile } from '../papers/send-file.ts'
import {
  findJobCertificate,
  findJobCertificateFile,
  type JobCertificate,
  jobCertificateInWords,
  keepJobCertificate,
} from '../places/job-certificate.ts'
import { recordHistory } from '../requests/history.ts'
import { requireRequest, requireRequestId } from '../requests/queries.ts'
import { lockQuoteRequest } from '../requests/stage.ts'

declare module '../http/render.ts' {
  interface Views {
    'people/job-certificate': {
      number: string
      customer: string
      stands: string | null
      hasFile: boolean
      values: Typed
    }
  }
}

const OFFICE = { config: { access: 'office' } } as const

interface OfRequest {
  Params: { number: string }
}

/** The certificate by which one job is without tax: its number, its last day, and a copy. */
export async function jobCertificateRoutes(app: FastifyInstance, deps: Deps): Promise<void> {
  app.get<OfRequest>('/queue/:number/certificate', OFFICE, (request, reply) =>
    show(deps, reply, request.params.number),
  )

  app.get<OfRequest>('/queue/:number/certificate/file', OFFICE, async (request, reply) => {
    const id = await requireRequestId(deps.db, request.params.number)
    return sendFile(reply, await findJobCertificateFile(deps.db, id), 'certificate')
  })

  await app.register(async scope => {
    takeUploads(scope, UPLOAD_LIMIT)
    scope.post<OfRequest>('/queue/:number/certificate', OFFICE, async (request, reply) => {
      const { number } = request.params
      const id = await requireRequestId(deps.db, number)
      const reading = await readCertificate(new FormFields(request.body))
      if (!reading.ok) return show(deps, reply, number, reading)
      await keep(deps, requireAccount(request).id, id, reading.values)
      say(reply, reading.values ? 'The certificate is kept.' : 'There is no certificate for this job.')
      return reply.redirect(`/queue/${number}`, 303)
    })
  })
}

type Read = (Omit<JobCertificate, 'file_id'> & { file: KeptFile | null }) | null

/** None where nothing was given; without a file the one that is kept stays. */
async function readCertificate(fields: FormFields): Promise<FormReading<Read>> {
  const number = fields.line('exemptNumber', { most: 120, tooLong: 'That’s too long.' })
  const isDated = fields.text('exemptUntil') !== ''
  const until = isDated ? fields.day('exemptUntil', 'Give the last day as a date.') : null
  const posted = fields.file('certificate')
  const read = posted && (await readPaper(posted))
  if (read && !read.ok) fields.fault('certificate', read.fault)
  if (number === '' && (isDated || posted)) fields.fault('exemptNumber', 'Give the certificate’s number too.')
  const file = read?.ok ? { kind: read.kind, bytes: read.bytes } : null
  return fields.reading(number === '' ? null : { number, until, file })
}

async function keep(deps: Deps, accountId: number, id: number, read: Read): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const saved = { at: deps.now(), by: accountId }
    await lockQuoteRequest(trx, id)
    const before = await findJobCertificate(trx, id)
    if (!read && !before) return
    const fileId = read?.file ? await insertFile(trx, read.file, saved) : (before?.file_id ?? null)
    const kept = read && { number: read.number, until: read.until, file_id: fileId }
    await keepJobCertificate(trx, id, kept, saved)
    await forgetReplaced(trx)
    if (before?.number === kept?.number && before?.until === kept?.until) return
    const detail = { number: kept?.number ?? 'none' }
    await recordHistory(trx, id, { kind: 'staff', accountId }, 'tax certificate', saved.at, detail)
  })
}

async function show(
  deps: Deps,
  reply: FastifyReply,
  number: string,
  again?: { typed: Typed; errors: Errors },
): Promise<FastifyReply> {
  const { id, customer_name } = await requireRequest(deps.db, number)
  const { time_zone } = await requireBusiness(deps.db)
  const own = await findJobCertificate(deps.db, id)
  const page = {
    number,
    customer: customer_name,
    stands: jobCertificateInWords(own, dayOf(deps.now(), time_zone)),
    hasFile: (own?.file_id ?? null) !== null,
    values: again?.typed ?? { exemptNumber: own?.number ?? '', exemptUntil: own?.until ?? '' },
    errors: again?.errors ?? {},
  }
  return reply.page('people/job-certificate', page, again ? 422 : 200)
}
