import type { FastifyReply } from 'fastify'
import { NotFound } from '../http/errors.ts'
import type { KeptFile } from './queries.ts'

/**
 * Sends a kept file as nothing but itself: nothing in it is run, and nobody keeps it.
 * @throws {NotFound} when there is none
 */
export function sendFile(reply: FastifyReply, file: KeptFile | undefined, name: string): FastifyReply {
  if (!file) throw new NotFound()
  const ending = file.kind === 'application/pdf' ? 'pdf' : 'jpg'
  const plain = name.replace(/[^A-Za-z0-9 -]/g, '').trim() || 'file'
  return reply
    .header('content-security-policy', "default-src 'none'; frame-ancestors 'none'; sandbox")
    .header('cache-control', 'no-store')
    .header('x-content-type-options', 'nosniff')
    .header('content-disposition', `attachment; filename="${plain}.${ending}"`)
    .type(file.kind)
    .send(file.bytes)
}
