import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { carriedContact } from './contact-form.ts'
import { queryOf } from './form.ts'
import type { OpenTable } from './open-table.ts'
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

/** Sends the page of the form; with 422 where it shows what is wrong. */
export async function drawForm(
  { deps, request, reply, table, units }: Post,
  asked: Pick<FormAsked, 'form' | 'showFaults'>,
): Promise<FastifyReply> {
  const around = await reply.around()
  const whole = { ...asked, carried: carriedBy(request), around }
  return reply.drawn(await workOut(deps, units, 'form', whole, table), asked.showFaults ? 422 : 200)
}

/** Sends the page that asks for name and address; whose beds can't be read is sent back to them. */
export async function drawContact(
  { deps, reply, table, units }: Post,
  asked: Omit<ContactAsked, 'around'>,
  status = 200,
): Promise<FastifyReply> {
  const markup = await workOut(deps, units, 'contact', { ...asked, around: await reply.around() }, table)
  return markup ? reply.drawn(markup, status) : reply.redirect(`/?${queryOf(asked.form)}`, 303)
}

/** Who and where, which was typed before the beds where what was sent in could not be taken; it must not stand in an address. */
export function carriedBy({ body }: FastifyRequest): [name: string, value: string][] {
  return carriedContact((body ?? {}) as Record<string, unknown>)
}
