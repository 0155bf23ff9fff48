import type { FastifyInstance, FastifyReply } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { takeUploads } from '../http/uploads.ts'
import { changeLetterhead, findLogo, readLogo } from './letterhead.ts'
import { UPLOAD_LIMIT } from './read-file.ts'
import { sendFile } from './send-file.ts'

declare module '../http/render.ts' {
  interface Views {
    'papers/letterhead': { hasLogo: boolean; values: Typed }
  }
}

const OWNER = { config: { access: 'owner' } } as const
const PAGE = '/settings/letterhead'
const MOST_ADDRESS = 300
const MOST_LICENSE = 200

/** What stands at the head of papers: address, license, logo. */
export async function letterheadRoutes(app: FastifyInstance, deps: Deps): Promise<void> {
  app.get(PAGE, OWNER, (_request, reply) => show(reply))
  app.get(`${PAGE}/logo`, OWNER, async (_request, reply) => sendFile(reply, await findLogo(deps.db), 'logo'))

  await app.register(async scope => {
    takeUploads(scope, UPLOAD_LIMIT)
    scope.post(PAGE, OWNER, async (request, reply) => {
      const fields = new FormFields(request.body)
      const tooLong = 'That’s too long.'
      const head = {
        postalAddress: fields.lines('postalAddress', { most: MOST_ADDRESS, tooLong }),
        licenseLine: fields.line('licenseLine', { most: MOST_LICENSE, tooLong }),
      }
      const file = fields.file('logo')
      const read = file && (await readLogo(file))
      if (read && !read.ok) fields.fault('logo', read.fault)
      const leaves = fields.tick('noLogo') ? null : undefined
      const reading = fields.reading(head)
      if (!reading.ok || (read && !read.ok)) return show(reply, fields.typed, fields.errors)
      await changeLetterhead(deps, requireAccount(request).id, { ...head, logo: read ?? leaves })
      say(reply, 'Saved. Every PDF has it from now on.')
      return reply.redirect(PAGE, 303)
    })
  })

  async function show(reply: FastifyReply, typed?: Typed, errors?: Errors) {
    const { postal_address, license_line, logo_file_id } = await requireBusiness(deps.db)
    const values = typed ?? { postalAddress: postal_address, licenseLine: license_line }
    const page = { hasLogo: logo_file_id !== null, values, errors: errors ?? {} }
    return reply.page('papers/letterhead', page, errors ? 422 : 200)
  }
}
