import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { oneLine } from '../lib/typed-text.ts'
import { findListed } from './queries.ts'

const SHOWN = 50

export interface CustomersPage {
  typed: string
  customers: { id: number; name: string; where: string; phone: string }[]
  /** The address of the next page; null on the last one. */
  more: string | null
}

/** Customers by name, the newest of each group; found by any part of a name, a phone number or an address. */
export async function showCustomers(
  deps: Deps,
  request: FastifyRequest,
  reply: FastifyReply,
): Promise<FastifyReply> {
  const query = new URLSearchParams(request.query as Record<string, string>)
  const typed = oneLine(query.get('q') ?? '').slice(0, 100)
  const before = Number(/^\d{1,15}$/.exec(query.get('before') ?? '')?.[0] ?? 0)
  const rows = await findListed(deps.db, typed, before, SHOWN + 1)
  const shown = rows.slice(0, SHOWN)
  const next = new URLSearchParams({ ...(typed && { q: typed }), before: String(shown.at(-1)?.id ?? '') })
  return reply.page('people/list', {
    typed,
    customers: shown.map(({ id, name, phone, street }) => ({
      id,
      name: name || phone,
      phone,
      where: street ?? '',
    })),
    more: rows.length > SHOWN ? `/customers?${next}` : null,
  })
}
