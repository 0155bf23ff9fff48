import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { fieldsIn } from '../http/uploaded.ts'
import { requireStanding } from '../rates/standing.ts'
import { carriedContact } from './contact-form.ts'
import { queryOf } from './form.ts'
import type { OpenTable } from './open-table.ts'
import { carriedPhotos, type PhotosRead, photoFields } from './photos/form.ts'
import { workOut } from './within-budget.ts'
import type { ContactAsked, FormAsked } from './workings.ts'

/** What was asked for or posted, and how much work it is. */
export interface Post {
  deps: Deps
  request: FastifyRequest
  reply: FastifyReply
  table: OpenTable
  units: number
}

const NO_PHOTOS: PhotosRead = { kept: [], open: [] }

/** Sends the page of the form; with 422 where it shows what is wrong. */
export async function drawForm(
  { deps, request, reply, table, units }: Post,
  asked: Pick<FormAsked, 'form' | 'showFaults'>,
  photos?: PhotosRead,
): Promise<FastifyReply> {
  const around = await reply.around()
  const whole = { ...asked, carried: carriedBy(request, photos), around }
  return reply.drawn(await workOut(deps, units, 'form', whole, table), asked.showFaults ? 422 : 200)
}

/** Sends the page that asks for name and address; whose beds can't be read is sent back to them. */
export async function drawContact(
  { deps, reply, table, units }: Post,
  asked: Omit<ContactAsked, 'around' | 'photos'> & { photos?: PhotosRead },
  status = 200,
): Promise<FastifyReply> {
  const { kept, open } = asked.photos ?? NO_PHOTOS
  const photos = photoFields((await requireStanding(deps)).business.photos_each, kept, open)
  const whole = { ...asked, photos, around: await reply.around() }
  const markup = await workOut(deps, units, 'contact', whole, table)
  return markup ? reply.drawn(markup, status) : reply.redirect(`/?${queryOf(asked.form)}`, 303)
}

/** Who and where, and photos, which came before the beds where what was sent in could not be taken; it must not stand in an address. */
export function carriedBy({ body }: FastifyRequest, photos?: PhotosRead): [name: string, value: string][] {
  const fields = fieldsIn(body)
  return [...carriedContact(fields), ...carriedPhotos(fields, photos)]
}
