import type { FastifyInstance, FastifyReply } from 'fastify'
import { requireAccount } from '../../account/session.ts'
import type { Deps } from '../../deps.ts'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import { Conflict, NotFound, Refusal } from '../../http/errors.ts'
import { say } from '../../http/flash.ts'
import { typedFields } from '../../http/form-fields.ts'
import { takeUploads, uploadedBytes } from '../../http/uploads.ts'
import { findPhotoNames } from '../photos/photos.ts'
import { findNewestVersion, findRateTable, type RateTableVersion } from '../queries.ts'
import { allSheets } from './all-sheets.ts'
import { readTable, readZip, TAKE_IN_LIMIT } from './csv-form.ts'
import { type Difference, differenceOf } from './difference.ts'
import type { SheetFault } from './sheet.ts'
import { guideOf, sheetsOf } from './sheets-of.ts'
import { takeInTable } from './take-in.ts'
import { zipOf } from './zip.ts'

declare module '../../http/render.ts' {
  interface Views {
    'rates/sheets': {
      version: number
      sheets: { file: string; about: string; columns: { column: string; unit: string; meaning: string }[] }[]
      faults: SheetFault[]
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

/** The rate table in a spreadsheet: out as a zip of sheets, and in again with its difference shown first. */
export async function sheetsRoutes(app: FastifyInstance, deps: Deps): Promise<void> {
  app.get('/rates/sheets', { config: owner }, async (_request, reply) =>
    showSheets(reply, await requireInForce(deps)),
  )

  app.get('/rates/sheets/rates.zip', { config: owner }, async (_request, reply) => {
    const { body } = await requireInForce(deps)
    return reply
      .type('application/zip')
      .header('content-disposition', 'attachment; filename="rates.zip"')
      .send(Buffer.from(zipOf(sheetsOf(body), deps.now())))
  })

  app.post('/rates/sheets/take-in', { config: owner, bodyLimit: TAKE_IN_LIMIT }, async (request, reply) => {
    const { version, table: typed } = typedFields(request.body)
    const table = readTable(typed, await findPhotoNames(deps.db))
    if (!table) throw new Refusal(400, 'error.400')
    try {
      const made = await takeInTable(deps, requireAccount(request).id, Number(version), table)
      say(reply, made ? `Taken in: version ${made} is in force.` : NOTHING_DIFFERENT)
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      return showDifference(reply, await requireInForce(deps), table, CHANGED_MEANWHILE)
    }
    return reply.redirect('/rates', 303)
  })

  await app.register(async scope => {
    takeUploads(scope, UPLOAD_LIMIT)
    scope.post('/rates/sheets', { config: owner }, async (request, reply) => {
      const inForce = await requireInForce(deps)
      const bytes = await uploadedBytes(request.body, 'sheets')
      if (!bytes)
        return showSheets(reply, inForce, { errors: { sheets: 'Choose the zip with your sheets.' } })
      const read = readZip(bytes, inForce.body, await findPhotoNames(deps.db))
      if (!read.ok) return showSheets(reply, inForce, { faults: read.faults })
      return showDifference(reply, inForce, read.table)
    })
  })
}

const NOTHING_DIFFERENT = 'Nothing is different from the rates in force, so no version was made.'
const CHANGED_MEANWHILE =
  'The rates were saved by somebody else in the meantime. What is different from those is shown now: look again.'

async function requireInForce(deps: Deps): Promise<RateTableVersion & { newest: number }> {
  const inForce = await findRateTable(deps.db, deps.now())
  const newest = await findNewestVersion(deps.db)
  if (!inForce || !newest) throw new NotFound()
  return { ...inForce, newest: newest.version }
}

function showSheets(
  reply: FastifyReply,
  { version, body }: RateTableVersion,
  wrong: { errors?: Record<string, string>; faults?: SheetFault[] } = {},
) {
  const guide = guideOf(body)
  const faults = wrong.faults ?? []
  const errors: Record<string, string> =
    faults.length > 0 ? { sheets: 'Nothing was changed: these sheets can’t be taken in yet.' } : {}
  const sheets = allSheets.map(({ file, about }) => ({
    file,
    about,
    columns: guide.filter(one => one.file === file),
  }))
  return reply.page(
    'rates/sheets',
    {
      version,
      sheets,
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
  const data = { version, newest, table: JSON.stringify(table), differences }
  return conflict
    ? reply.page('rates/take-in', { ...data, errors: { '': conflict } }, 409)
    : reply.page('rates/take-in', data)
}
