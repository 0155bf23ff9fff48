import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { storedTable } from '../estimate/table/complete-table.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { Conflict, NotFound, Refusal } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { takeUploads } from '../http/uploads.ts'
import { allFiles } from './csv/all-files.ts'
import { type Difference, differenceOf } from './csv/difference.ts'
import { filesOf, guideOf } from './csv/files-of.ts'
import type { CsvFault } from './csv/rows.ts'
import { zipOf } from './csv/zip.ts'
import { readTable, readZip, TAKE_IN_LIMIT } from './csv-form.ts'
import { findPhotoNames } from './photos/photos.ts'
import { findNewestVersion, findRateTable, type RateTableVersion } from './queries.ts'
import { takeInTable } from './take-in.ts'

declare module '../http/render.ts' {
  interface Views {
    'rates/csv': {
      version: number
      files: { file: string; about: string; columns: { column: string; unit: string; meaning: string }[] }[]
      faults: CsvFault[]
      moreFaults: number
    }
    'rates/take-in': {
      version: number
      /** The newest version, in force or waiting for its day. */
      newest: number
      table: string
      differences: Difference[]
    }
  }
}

const UPLOAD_LIMIT = 1_000_000
const MOST_SHOWN = 200
const owner = { access: 'owner' } as const

/** The rate table in a spreadsheet: out as a zip of files, and in again with its difference shown first. */
export async function csvRoutes(app: FastifyInstance, deps: Deps): Promise<void> {
  app.get('/rates/csv', { config: owner }, async (_request, reply) =>
    showCsv(reply, await requireInForce(deps)),
  )

  app.get('/rates/csv/rates.zip', { config: owner }, async (_request, reply) => {
    const { body } = await requireInForce(deps)
    return reply
      .type('application/zip')
      .header('content-disposition', 'attachment; filename="rates.zip"')
      .send(Buffer.from(zipOf(filesOf(body), deps.now())))
  })

  app.post('/rates/csv/take-in', { config: owner, bodyLimit: TAKE_IN_LIMIT }, async (request, reply) => {
    const fields = new FormFields(request.body)
    const table = readTable(fields.text('table'), await findPhotoNames(deps.db))
    if (!table) throw new Refusal(400, 'error.400')
    try {
      const made = await takeInTable(deps, requireAccount(request).id, fields.carried('version'), table)
      say(reply, made ? `Your files are in. Version ${made} is in force.` : NOTHING_DIFFERENT)
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      return showDifference(reply, await requireInForce(deps), table, CHANGED_MEANWHILE)
    }
    return reply.redirect('/rates', 303)
  })

  await app.register(async scope => {
    takeUploads(scope, UPLOAD_LIMIT)
    scope.post('/rates/csv', { config: owner }, async (request, reply) => {
      const inForce = await requireInForce(deps)
      const file = new FormFields(request.body).file('files')
      if (!file) return showCsv(reply, inForce, { errors: { files: 'Choose the zip with your files.' } })
      const bytes = new Uint8Array(await file.arrayBuffer())
      const read = readZip(bytes, inForce.body, await findPhotoNames(deps.db))
      if (!read.ok) return showCsv(reply, inForce, { faults: read.faults })
      return showDifference(reply, inForce, read.table)
    })
  })
}

const NOTHING_DIFFERENT = 'Your files match the rates in force, so nothing changed.'
const CHANGED_MEANWHILE =
  'The rates changed in the meantime. You now see how your files differ from the new ones. Please look again.'

async function requireInForce(deps: Deps): Promise<RateTableVersion & { newest: number }> {
  const inForce = await findRateTable(deps.db, deps.now())
  const newest = await findNewestVersion(deps.db)
  if (!inForce || !newest) throw new NotFound()
  return { ...inForce, newest: newest.version }
}

function showCsv(
  reply: FastifyReply,
  { version, body }: RateTableVersion,
  wrong: { errors?: Errors; faults?: CsvFault[] } = {},
) {
  const guide = guideOf(body)
  const faults = wrong.faults ?? []
  const errors: Errors =
    faults.length > 0 ? { files: 'Nothing was changed. These files can’t be used yet.' } : {}
  const files = allFiles.map(({ file, about }) => ({
    file,
    about,
    columns: guide.filter(one => one.file === file),
  }))
  return reply.page(
    'rates/csv',
    {
      version,
      files,
      faults: faults.slice(0, MOST_SHOWN),
      moreFaults: Math.max(0, faults.length - MOST_SHOWN),
      errors: wrong.errors ?? errors,
    },
    wrong.errors || wrong.faults ? 422 : 200,
  )
}

function showDifference(
  reply: FastifyReply,
  { version, newest, body }: RateTableVersion & { newest: number },
  table: RateTable,
  conflict?: string,
) {
  const differences = differenceOf(body, table)
  const data = { version, newest, table: JSON.stringify(storedTable(table)), differences }
  return conflict
    ? reply.page('rates/take-in', { ...data, errors: { '': conflict } }, 409)
    : reply.page('rates/take-in', data)
}
