import type { FastifyRequest } from 'fastify'
import type { Role } from '../db/schema/accounts.ts'
import { Refusal } from './errors.ts'

/** Somebody of the staff. */
export interface Account {
  id: number
  name: string
  email: string
  role: Role
}

declare module 'fastify' {
  interface FastifyRequest {
    /** Who is signed in, or null. */
    account: Account | null
    /** When they last proved it by the password, ISO 8601; null when never in this session. */
    provedAt: string | null
  }
}

/**
 * Who acts on a staff page.
 * @throws {Refusal} 403 when nobody is signed in, which a guarded scope rules out
 */
export function requireAccount(request: FastifyRequest): Account {
  if (!request.account) throw new Refusal(403, 'error.owner-only')
  return request.account
}
