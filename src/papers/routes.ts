import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { takeUploads } from '../http/uploads.ts'
import {
  findPaper,
  findPapers,
  forgetReplaced,
  insertFile,
  MOST_PAPERS,
  type Paper,
  removePaper,
  upsertPaper,
} from './queries.ts'
import { readPaper, UPLOAD_LIMIT } from './read-file.ts'
import { sendFile } from './send-file.ts'

declare module '../http/render.ts' {
  interface Views {
    'papers/list': { papers: Paper[]; values: Typed }
  }
}

const OWNER = { config: { access: 'owner' } } as const
const PAGE = '/settings/papers'

interface OfPaper {
  Params: { id: string }
}

/** The papers that firms ask for: kept once, chosen at each firm, and read beside its prices. */
export async function papersRoutes(app: FastifyInstance, deps: Deps): Promise<void> {
  app.get(PAGE, OWNER, (_request, reply) => show(reply))

  app.get<OfPaper>(`${PAGE}/:id`, OWNER, async (request, reply) => {
    const paper = await findPaper(deps.db, paperIdOf(request.params.id))
    return sendFile(reply, paper, paper?.name ?? '')
  })

  app.post<OfPaper>(`${PAGE}/:id/remove`, OWNER, async (request, reply) => {
    await removePaper(deps.db, paperIdOf(request.params.id), deps.now())
    say(reply, 'That paper is out.')
    return reply.redirect(PAGE, 303)
  })

  await app.register(async scope => {
    takeUploads(scope, UPLOAD_LIMIT)
    scope.post(PAGE, OWNER, async (request, reply) => {
      const fields = new FormFields(request.body)
      const name = fields.line('name', { most: 80, missing: 'Give it a name.', tooLong: 'That’s too long.' })
      const papers = await findPapers(deps.db)
      if (papers.length >= MOST_PAPERS && !papers.some(one => one.name.toLowerCase() === name.toLowerCase()))
        fields.fault('name', `There are ${MOST_PAPERS} papers. Take one out first.`)
      const read = await readPaper(fields.file('file'))
      if (!read.ok) fields.fault('file', read.fault)
      const reading = fields.reading(name)
      if (!reading.ok || !read.ok) return show(reply, fields.typed, fields.errors)
      await deps.db.transaction().execute(async trx => {
        const made = { at: deps.now(), by: requireAccount(request).id }
        await upsertPaper(trx, name, await insertFile(trx, read, made))
        await forgetReplaced(trx)
      })
      say(reply, 'That paper is kept.')
      return reply.redirect(PAGE, 303)
    })
  })

  async function show(reply: FastifyReply, values: Typed = {}, errors?: Errors) {
    const papers = await findPapers(deps.db)
    return reply.page('papers/list', { papers, values, errors: errors ?? {} }, errors ? 422 : 200)
  }
}

/** What no id can be is none that there is. */
export function paperIdOf(told: string): number {
  return Number(/^\d{1,9}$/.exec(told)?.[0] ?? 0)
}
