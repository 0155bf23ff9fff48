import type { FastifyReply } from 'fastify'
import { NotFound } from '../../http/errors.ts'

/** Whatever a browser takes it for, nothing in it may run, and nothing be loaded by it. */
const POLICY = "default-src 'none'; frame-ancestors 'none'; sandbox"

/**
 * Sends a picture that people sent us.
 * @throws {NotFound} when there is none
 */
export function sendPicture(reply: FastifyReply, jpeg: Buffer | undefined): FastifyReply {
  if (!jpeg) throw new NotFound()
  return reply.header('content-security-policy', POLICY).type('image/jpeg').send(jpeg)
}

/** The id of a photo in an address; 0 where it is none. */
export function photoIdOf(text: string): number {
  return /^\d{1,15}$/.test(text) ? Number(text) : 0
}
